//! What a ride shows: its curve, its worth as a proof, the cut-off, the sheet beside the track.

use rust_decimal::Decimal;
use splitcase::assessment::ride::{CutOff, Proof, Remark, TypedRide, Unproven, compare, rule};

use super::track::{DEGREE, Writer, near};

/// Nothing that is drawn or listed lies in the first or last 200 m, and no level tells a place.
#[test]
fn both_ends_are_clipped_and_heights_have_no_level() {
    let ride = Writer::new()
        .flat(20, 18.0)
        .flat(30, 0.0)
        .ride(400, 18.0, |east| 1000.0 + east / 20.0)
        .flat(30, 0.0)
        .flat(20, 18.0)
        .read();
    // Both stops lie within 200 m of an end.
    assert!(ride.stops.is_empty(), "{:?}", ride.stops);
    near(ride.curve[0].distance_m, 200.0, 0.0);
    near(ride.curve.last().unwrap().distance_m, (ride.distance_m - 200.0).round(), 1.0);
    let heights: Vec<f64> = ride.curve.iter().filter_map(|point| point.height_m).collect();
    near(heights.iter().copied().fold(f64::INFINITY, f64::min), 0.0, 0.0);
    assert!(heights.iter().all(|height| *height < 120.0));
    // A level or a degree would show up in the debug form: 1000 m, 8 degrees east.
    let shown = format!("{ride:?}");
    assert!(!shown.contains("10:") && !shown.contains("8.00"), "{shown}");
    // 490 m leave 90 m, which is not drawn.
    assert!(Writer::new().flat(99, 18.0).read().curve.is_empty());
    assert!(!Writer::new().flat(102, 18.0).read().curve.is_empty());
}

/// The same ride on another continent and a mountain higher gives the very same facts, so that none of
/// them holds a place.
#[test]
fn a_ride_elsewhere_gives_the_same_facts() {
    let ride = |east: f64, level: f64| {
        let climb = move |way: f64| level + 30.0 * ((way - east) / 300.0).sin();
        let writer = Writer::new().jump(east).ride(300, 18.0, climb).wait(60.0).segment();
        writer.ride(300, 25.2, climb).read()
    };
    let here = ride(0.0, 100.0);
    assert_eq!(ride(-128.0 * DEGREE, 800.0), here);
    assert!(!here.curve.is_empty() && here.climb.unwrap().up_m > 100.0 && here.stops.len() == 1);
}

#[test]
fn the_curve_has_at_most_300_points_and_follows_the_ride() {
    let hill = |east: f64| 50.0 + 40.0 * (east / 2000.0).sin();
    let ride = Writer::new().ride(3000, 20.0, hill).read();
    assert_eq!(ride.curve.len(), rule::SAMPLES);
    let lowest = ride.curve.iter().map(|point| hill(point.distance_m)).fold(f64::MAX, f64::min);
    for pair in ride.curve.windows(2) {
        assert!(pair[0].distance_m < pair[1].distance_m);
    }
    for point in &ride.curve {
        near(point.speed_kmh.unwrap(), 20.0, 0.1);
        near(point.height_m.unwrap(), hill(point.distance_m) - lowest, 0.3);
    }
}

/// R08: at least 1 km; R07: faster than the 6 km/h of walk mode.
#[test]
fn a_ride_too_short_or_too_slow_is_said_to_be_so() {
    assert_eq!(Writer::new().flat(200, 18.0).read().proof, Proof::TooShort);
    assert_eq!(Writer::new().flat(202, 18.0).read().proof, Proof::Enough);
    assert_eq!(Writer::new().flat(1000, 5.0).read().proof, Proof::TooSlow);
    // Most of it pushed, less than 1 km ridden.
    let pushed = Writer::new().flat(1000, 5.0).flat(150, 18.0).read();
    assert_eq!(pushed.proof, Proof::TooSlow);
    let torn = Writer::new().flat(100, 18.0).jump(3000.0).wait(600.0).flat(100, 18.0).read();
    assert_eq!(torn.proof, Proof::NotDetermined(Unproven::MuchLost));
    let off = "<trkpt lat=\"99\" lon=\"0\"/>".repeat(150);
    let wild = Writer::new().flat(400, 18.0).raw(&off).read();
    assert_eq!(wild.proof, Proof::NotDetermined(Unproven::MuchDropped));
    // Up to a fifth of the points may be dropped: ten of four hundred are not many.
    let few = Writer::new().flat(400, 18.0).raw(&"<trkpt lat=\"99\" lon=\"0\"/>".repeat(10)).read();
    assert_eq!(few.proof, Proof::Enough);
}

/// R01, R02: 25 km/h and ten per cent around it, held for 15 s within 2 km/h.
#[test]
fn a_speed_held_near_the_limit_is_a_sign_of_the_cut_off() {
    let held = Writer::new().flat(100, 18.0).flat(60, 25.2).flat(100, 18.0).read();
    let CutOff::Held { kmh, seconds } = held.cut_off else { panic!("{:?}", held.cut_off) };
    near(kmh, 25.2, 0.2);
    near(seconds, 60.0, 5.0);
    let short = Writer::new().flat(150, 18.0).flat(12, 25.2).flat(150, 18.0).read();
    assert!(matches!(short.cut_off, CutOff::Passed { .. }), "{:?}", short.cut_off);
    // Down a hill through the limit: 25 s near it, but never 15 s at one speed.
    let mut through = Writer::new();
    for step in 0..150 {
        through = through.flat(1, 10.0 + 0.2 * f64::from(step));
    }
    assert!(matches!(through.read().cut_off, CutOff::Passed { .. }));
    let slow = Writer::new().flat(300, 22.0).read();
    assert_eq!(slow.cut_off, CutOff::NotReached { fastest: 22.0 });
    let fast = Writer::new().flat(300, 28.0).read();
    assert_eq!(fast.cut_off, CutOff::Passed { fastest: 28.0 });
}

#[test]
fn typed_values_are_judged_alone_and_beside_the_track() {
    let metres = |value: i64| Some(Decimal::from(value));
    let mut typed = TypedRide { distance_m: metres(11_909), ..TypedRide::default() };
    assert_eq!(typed.proof(), Proof::NotDetermined(Unproven::NoSpeed));
    typed.cut_off_kmh = Some(Decimal::new(252, 1));
    assert_eq!(typed.proof(), Proof::Enough);
    assert!(compare(&typed, None).is_empty());
    // A kilometre is enough, to the metre.
    typed.distance_m = metres(1000);
    assert_eq!(typed.proof(), Proof::Enough);
    typed.distance_m = metres(999);
    assert_eq!(compare(&typed, None), [Remark::Proof(Proof::TooShort)]);
    assert_eq!(TypedRide::default().proof(), Proof::NotDetermined(Unproven::NoLength));

    let track = Writer::new().flat(400, 18.0).read();
    let mut typed = TypedRide { day: track.day, distance_m: metres(2100), ..TypedRide::default() };
    assert!(compare(&typed, Some(&track)).is_empty());
    // A ride late in the evening may be noted the day after.
    typed.day = track.day.and_then(|day| day.succ_opt());
    assert!(compare(&typed, Some(&track)).is_empty());
    typed.distance_m = metres(11_909);
    typed.day = "2026-03-12".parse().ok();
    let remarks = compare(&typed, Some(&track));
    assert!(matches!(remarks[..], [Remark::OtherDay { .. }, Remark::OtherLength { .. },]));
}
