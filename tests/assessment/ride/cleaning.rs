//! Stops, gaps, jumps, times and places of a track: what is kept, dropped, and counted.

use splitcase::assessment::ride::{CutOff, Proof, Refusal, Unproven, read};

use super::track::{Writer, epac, gpx, near, refusal, stamp};

/// A stop of 60 s with a receiver that drifts by two metres adds neither way nor time in motion.
#[test]
fn a_stop_is_found_and_its_drift_does_not_count() {
    let mut writer = Writer::new().flat(200, 18.0);
    let place = writer.east;
    for at in 0..60 {
        writer.east = place + [0.0, 0.6, 1.0, 0.7, 0.1, -0.4, -0.9, -0.5][at % 8];
        writer.point("");
        writer.second += 1.0;
    }
    writer.east = place;
    let ride = writer.flat(200, 18.0).read();
    near(ride.distance_m, 1995.0, 4.0);
    assert_eq!(ride.stops.len(), 1);
    near(ride.stops[0].at_m, 1000.0, 6.0);
    near(ride.stops[0].seconds.unwrap(), 60.0, 4.0);
    near(ride.moving_s.unwrap(), 399.0, 4.0);
    // Five seconds at a crossing are part of riding.
    let crossing = Writer::new().flat(200, 18.0).flat(5, 0.0).flat(200, 18.0).read();
    assert!(crossing.stops.is_empty());
    near(crossing.moving_s.unwrap(), 404.0, 0.0);
}

/// X02: nothing is measured from one segment to the next; a recorder that slept was at rest.
#[test]
fn gaps_count_neither_way_nor_time() {
    let lost = Writer::new().flat(200, 18.0).jump(800.0).wait(100.0).flat(200, 18.0).read();
    near(lost.distance_m, 1990.0, 0.1);
    assert_eq!((lost.gaps.len(), lost.stops.len()), (1, 0));
    near(lost.gaps[0].at_m, 995.0, 1.0);
    near(lost.gaps[0].seconds.unwrap(), 101.0, 0.0);
    near(lost.moving_s.unwrap(), 398.0, 0.0);
    // Lost for five seconds only, at a speed that could have been ridden: the segment decides.
    let split = Writer::new().flat(200, 18.0).jump(60.0).wait(4.0).segment().flat(200, 18.0).read();
    near(split.distance_m, 1990.0, 0.1);
    assert_eq!(split.gaps.len(), 1);
    let slept = Writer::new().flat(200, 18.0).wait(100.0).segment().flat(200, 18.0).read();
    assert_eq!((slept.gaps.len(), slept.stops.len()), (0, 1));
    near(slept.stops[0].seconds.unwrap(), 101.0, 1.0);
    near(slept.distance_m, 1990.0, 0.1);
}

#[test]
fn jumps_are_dropped_or_split_the_ride() {
    let clean = Writer::new().flat(400, 18.0).read();
    // One point 2 km off to the east.
    let mut writer = Writer::new().flat(200, 18.0);
    writer.second -= 0.5;
    let mut off = writer.jump(2000.0);
    off.point("<ele>100</ele>");
    off.second += 0.5;
    let ride = off.jump(-2000.0).flat(200, 18.0).read();
    near(ride.distance_m, clean.distance_m, 0.1);
    assert_eq!(ride.cleaned.jumped, 1);
    near(ride.speed.unwrap().max, 18.0, 0.0);
    // The position moves 2 km for good: both parts stay, the jump between them does not count.
    let moved = Writer::new().flat(200, 18.0).jump(2000.0).flat(200, 18.0).read();
    near(moved.distance_m, 1990.0, 0.1);
    assert_eq!((moved.cleaned.jumped, moved.gaps.len()), (0, 1));
}

#[test]
fn time_that_runs_backwards_costs_the_fewest_points() {
    // One point from the future does not cost those after it.
    let mut writer = Writer::new().flat(100, 18.0);
    writer.second += 7200.0;
    writer.point("");
    writer.second -= 7200.0;
    let ride = writer.flat(300, 18.0).read();
    assert_eq!((ride.points, ride.cleaned.backwards), (400, 1));
    near(ride.distance_m, 1995.0, 0.1);
    // The same moment again is a repetition.
    let mut writer = Writer::new().flat(400, 18.0);
    for _ in 0..50 {
        writer.second -= 1.0;
        writer.point("");
        writer.second += 1.0;
    }
    let ride = writer.read();
    assert_eq!(ride.cleaned.repeated, 50);
    assert_eq!(ride.proof, Proof::Enough);
    // A track that runs backwards altogether keeps one point.
    let reversed: String = (0..400)
        .map(|at| {
            let time = stamp(f64::from(400 - at));
            format!("<trkpt lat=\"0\" lon=\"0.{at:06}\"><time>{time}</time></trkpt>")
        })
        .collect();
    assert_eq!(refusal(&gpx(&reversed)), Refusal::TooFewPoints(400));
}

#[test]
fn a_track_without_times_has_a_length_and_no_speed() {
    let timed = gpx(&Writer::new().flat(400, 18.0).points);
    let mut bare = String::new();
    for part in timed.split("<time>") {
        bare.push_str(part.split_once("</time>").map_or(part, |(_, rest)| rest));
    }
    let ride = read(bare.as_bytes(), epac()).unwrap();
    near(ride.distance_m, 1995.0, 0.1);
    assert_eq!((ride.moving_s, ride.elapsed_s, ride.speed, ride.day), (None, None, None, None));
    assert_eq!(ride.cut_off, CutOff::NotDetermined);
    assert_eq!(ride.proof, Proof::NotDetermined(Unproven::NoSpeed));
    assert!(ride.curve.iter().all(|point| point.speed_kmh.is_none() && point.height_m.is_some()));
    // Times of before there were receivers are none.
    let old = timed.replace("2026-", "1970-");
    assert_eq!(
        read(old.as_bytes(), epac()).unwrap().proof,
        Proof::NotDetermined(Unproven::NoSpeed)
    );
}

/// X03: the ranges of the GPX 1.1 schema, longitude 180 being outside.
#[test]
fn places_outside_the_schema_are_left_out() {
    let read_with = |lat: &str, lon: &str| {
        let off = format!("<trkpt lat=\"{lat}\" lon=\"{lon}\"><time>{}</time></trkpt>", stamp(0.0));
        Writer::new().wait(9000.0).raw(&off).flat(400, 18.0).read().cleaned.off_earth
    };
    for (lat, lon) in [
        ("90.0001", "0"),
        ("-90.0001", "0"),
        ("0", "180"),
        ("0", "-180.0001"),
        ("NaN", "0"),
        ("0", "inf"),
        ("1e400", "0"),
        ("", "0"),
        ("8,5", "0"),
    ] {
        assert_eq!(read_with(lat, lon), 1, "{lat} {lon}");
    }
    for (lat, lon) in [("90", "0"), ("-90", "0"), ("0", "-180"), ("0", "179.9999999")] {
        assert_eq!(read_with(lat, lon), 0, "{lat} {lon}");
    }
    let nowhere = "<trkpt lat=\"91\" lon=\"0\"/>".repeat(10);
    assert_eq!(refusal(&gpx(&nowhere)), Refusal::TooFewPoints(10));
}

/// Of two points with one time the first stays, wherever the second is; only a longest run of rising times is kept.
#[test]
fn of_two_points_with_one_time_the_first_is_kept() {
    // A second point at the moment of the last one, 40 m off: it neither stays nor adds way.
    let mut writer = Writer::new().flat(400, 18.0);
    writer.second -= 1.0;
    let mut twice = writer.jump(40.0);
    twice.point("");
    twice.second += 1.0;
    let ride = twice.jump(-40.0).flat(10, 18.0).read();
    assert_eq!((ride.cleaned.repeated, ride.cleaned.backwards, ride.cleaned.jumped), (1, 0, 0));
    near(ride.distance_m, 409.0 * 5.0, 0.1);
}

/// A gap is told at the way ridden up to where reception came back.
#[test]
fn a_gap_begins_where_the_point_before_it_was() {
    let ride = Writer::new()
        .flat(300, 18.0)
        .jump(500.0)
        .wait(200.0)
        .flat(300, 36.0)
        .jump(900.0)
        .wait(300.0)
        .flat(300, 18.0)
        .read();
    let told: Vec<(f64, f64)> =
        ride.gaps.iter().map(|gap| (gap.at_m.round(), gap.seconds.unwrap().round())).collect();
    assert_eq!(told, [(1495.0, 201.0), (4485.0, 301.0)]);
}
