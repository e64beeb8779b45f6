//! The test ride: geodesy against published values, length and climb of tracks with known answers.

/// Stops, gaps, jumps, times and places.
mod cleaning;
/// Files made to hurt.
mod hostile;
/// Synthetic rides.
mod track;
/// Curve, proof, cut-off, typed values.
mod verdict;

use splitcase::assessment::ride::{CutOff, NoClimb, Proof, distance, hysteresis, read};

use track::{Writer, epac, gpx, near, stamp};

/// X05, X06, X08, X09 and hard pairs; values by `GeographicLib` 2.1 (Python, WGS 84), X06 being
/// Geoscience Australia's worked example of Flinders Peak to Buninyong, 54 972.271 m.
#[test]
fn distances_agree_with_geographiclib_to_a_millimetre() {
    let dms = |d: f64, m: f64, s: f64| d + m / 60.0 + s / 3600.0;
    let flinders = (-dms(37.0, 57.0, 3.7203), dms(144.0, 25.0, 29.5244));
    let buninyong = (-dms(37.0, 39.0, 10.1561), dms(143.0, 55.0, 35.3839));
    for (from, to, metres) in [
        ((36.12, -86.67), (33.94, -118.40), 2_892_776.957_354),
        (flinders, buninyong, 54_972.271_139),
        ((0.0, 0.0), (0.0, 1.0), 111_319.490_793),
        ((0.0, 0.0), (1.0, 0.0), 110_574.388_558),
        ((40.6, -73.8), (49.0 + 1.0 / 60.0, 2.55), 5_853_226.255_750),
        ((50.0, 8.5), (50.0001, 8.5001), 13.233_358),
        // Over the antimeridian, nearly antipodal, pole to pole.
        ((50.0, 179.9999), (50.0, -179.9999), 14.339_151),
        ((0.0, 0.0), (0.5, 179.5), 19_936_288.578_965),
        ((-30.0, 0.0), (29.9, 179.8), 19_989_832.827_610),
        ((90.0, 0.0), (-90.0, 0.0), 20_003_931.458_625),
    ] {
        near(distance(from, to), metres, 0.001);
        near(distance(to, from), metres, 0.001);
    }
    near(distance((50.0, 8.5), (50.0, 8.5)), 0.0, 0.0);
}

/// 400 s at 18 km/h are 399 steps of 5 m; one in twenty upwards is 99.75 m.
#[test]
fn a_ride_at_one_speed_up_one_slope_has_its_length_time_and_climb() {
    let ride = Writer::new().ride(400, 18.0, |east| 300.0 + east / 20.0).read();
    near(ride.distance_m, 1995.0, 0.1);
    assert_eq!((ride.points, ride.moving_s, ride.elapsed_s), (400, Some(399.0), Some(399.0)));
    let climb = ride.climb.unwrap();
    near(climb.up_m, 99.8, 0.1);
    near(climb.down_m, 0.0, 0.0);
    let speed = ride.speed.unwrap();
    for speed in [speed.mean, speed.median, speed.p95, speed.max] {
        near(speed, 18.0, 0.05);
    }
    assert_eq!(ride.proof, Proof::Enough);
    assert_eq!(ride.cut_off, CutOff::NotReached { fastest: 18.0 });
    assert!(ride.stops.is_empty() && ride.gaps.is_empty());
    assert_eq!((ride.cleaned.read, ride.cleaned.lost(), ride.cleaned.repeated), (400, 0, 0));
    assert_eq!(ride.day.unwrap().to_string(), "2026-03-10");
}

/// X10: summed plainly this track climbs 13 m; the page that it comes from prints 14, wrongly.
#[test]
fn hysteresis_counts_a_rise_only_from_its_threshold_on() {
    let track = [12.0, 17.0, 15.0, 20.0, 22.0, 18.0, 15.0, 16.0, 14.0, 12.0];
    let climbs = |threshold: f64| hysteresis(track, threshold);
    near(climbs(0.0).up_m, 13.0, 0.0);
    near(climbs(0.0).down_m, 13.0, 0.0);
    // The dip from 17 to 15 and the rise from 15 to 16 are smaller than 5: one climb, one descent.
    near(climbs(5.0).up_m, 10.0, 0.0);
    near(climbs(5.0).down_m, 10.0, 0.0);
    // Exactly the threshold counts, a hair below does not.
    near(hysteresis([0.0, 5.0], 5.0).up_m, 5.0, 0.0);
    near(hysteresis([0.0, 4.999], 5.0).up_m, 0.0, 0.0);
    // A drift down before the first climb starts from its lowest point.
    near(hysteresis([3.0, 0.0, 6.0, 2.0, 9.0], 5.0).up_m, 9.0, 0.0);
    near(hysteresis([3.0, 0.0, 6.0, 1.0, 9.0], 5.0).up_m, 14.0, 0.0);
    near(hysteresis([], 5.0).up_m, 0.0, 0.0);
}

/// X13: noise within the hysteresis on a flat road is no climb, and X11: single spikes are none.
#[test]
fn noise_on_a_flat_road_is_no_climb() {
    // Half metres between -2 and 2 in a fixed scramble.
    let noise = |east: f64| ((east * 7919.0) as i64 % 9 - 4) as f64 / 2.0;
    let ride = Writer::new().ride(600, 18.0, |east| 100.0 + noise(east)).read();
    near(ride.climb.unwrap().up_m, 0.0, 0.0);
    let spikes = |east: f64| if (east / 5.0).round() as i64 % 50 == 25 { 180.0 } else { 100.0 };
    let ride = Writer::new().ride(600, 18.0, spikes).read();
    near(ride.climb.unwrap().up_m, 0.0, 0.0);
    // A receiver that resets its level by 60 m climbs nothing, and says so.
    let ride = Writer::new().ride(300, 18.0, |_| 100.0).ride(300, 18.0, |_| 160.0).read();
    near(ride.climb.unwrap().up_m, 0.0, 0.0);
    assert_eq!(ride.cleaned.height_jumps, 1);
}

#[test]
fn without_heights_no_climb_is_told() {
    let bare = gpx(&(0..500)
        .map(|at| {
            let height = if at % 4 == 0 { "" } else { "<ele>10</ele>" };
            format!(
                "<trkpt lat=\"0\" lon=\"{}\">{height}<time>{}</time></trkpt>",
                f64::from(at) / 20_000.0,
                stamp(f64::from(at))
            )
        })
        .collect::<String>());
    assert_eq!(read(bare.as_bytes(), epac()).unwrap().climb, Err(NoClimb::FewHeights));
    let none = bare.replace("<ele>10</ele>", "<ele>NaN</ele>");
    assert_eq!(read(none.as_bytes(), epac()).unwrap().climb, Err(NoClimb::NoHeights));
    let high = bare.replace("<ele>10</ele>", "<ele>1e300</ele>");
    assert_eq!(read(high.as_bytes(), epac()).unwrap().climb, Err(NoClimb::NoHeights));
}
