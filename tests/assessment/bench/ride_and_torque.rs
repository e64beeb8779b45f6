//! Ride limits by rule set, and screw torques against models and threads.

use std::f64::consts::PI;

use super::{Own, OwnLimits, Reason, Verdict, figure, number, of_model, quantity, reading, stage};
use splitcase::assessment::bench::line::Line;
use splitcase::assessment::bench::measure::Measure;
use splitcase::assessment::bench::own::OwnTorque;
use splitcase::assessment::bench::remark::Remark;
use splitcase::assessment::bench::ride_limits::rules::{RULE_SETS, rule_set};
use splitcase::assessment::bench::ride_limits::{RideReadings, run};
use splitcase::assessment::bench::torque::{self, FRICTIONS, Screws, TORQUES, most};
use splitcase::assessment::bench::verdict::{Bounds, Origin};
use splitcase::sheet::bench::Reading;
use splitcase::sheet::quantity::Quantity;
use splitcase::sheet::quantity::unit::{Dimension, Unit};

fn speed(digits: &str, spelling: &str) -> Reading {
    let unit: &'static Unit = Dimension::Speed.unit(spelling).unwrap();
    Reading { value: Quantity { number: number(digits), unit }, uncertainty: None }
}

fn only(ride: RideReadings, rules: &str) -> Line {
    let lines = run(&ride, Some(rule_set(rules).unwrap()));
    let [line] = <[Line; 1]>::try_from(lines).unwrap();
    assert!(line.remarks.contains(&Remark::CheckLocalRules));
    line
}

fn cut_off(reading: Reading, rules: &str) -> Line {
    only(RideReadings { cut_off: Some(reading), ..RideReadings::default() }, rules)
}

/// R10: 15.5 mph = 24.945 km/h, 20 = 32.187, 28 = 45.062, 3.7 = 5.955; one mile is 1.609344 km.
#[test]
fn miles_an_hour_in_every_rule_set() {
    let most = |rules: &str| {
        let Bounds::AtMost(most) = cut_off(speed("1", "km/h"), rules).limit.unwrap().bounds else {
            panic!("a cut-off has a largest speed")
        };
        most.round_dp(3)
    };
    assert_eq!(most("gb"), number("24.945"));
    assert_eq!(most("us-class-1"), number("32.187"));
    assert_eq!(most("us-class-2"), number("32.187"));
    assert_eq!(most("us-class-3"), number("45.062"));
    assert_eq!(most("au"), number("25"));
    for (rules, mph) in [("gb", "15.5"), ("us-class-1", "20"), ("us-class-3", "28")] {
        let line = cut_off(speed(mph, "mph"), rules);
        let Bounds::AtMost(most) = line.limit.as_ref().unwrap().bounds else { panic!() };
        assert_eq!(figure(&line).value, most, "{rules}");
    }
    let walk = rule_set("us-class-1").unwrap().walk.unwrap();
    assert_eq!(rust_decimal::Decimal::new(walk.0, walk.1).round_dp(3), number("5.955"));
    assert_eq!(rule_set("elsewhere"), None);
    assert!(RULE_SETS.iter().all(|rules| !rules.source.is_empty()));
}

/// R01 and R02: 25 km/h, at most 10 % above: 27.5 km/h. R03: a meter of 2 %.
#[test]
fn cut_off_of_an_epac() {
    let typed = |text: &str, spread: &str| Reading {
        uncertainty: Some(speed(spread, "km/h").value),
        ..speed(text, "km/h")
    };
    let line = cut_off(speed("25.2", "km/h"), "epac");
    assert_eq!(line.limit.as_ref().unwrap().bounds, Bounds::AtMost(number("27.5")));
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(figure(&line).uncertainty, Some(number("0.504")));
    assert!(line.remarks.contains(&Remark::MeterAccuracyAssumed));
    let line = cut_off(typed("27.4", "0.1"), "epac");
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert!(!line.remarks.contains(&Remark::MeterAccuracyAssumed));
    assert_eq!(stage(&cut_off(speed("27.4", "km/h"), "epac")).verdict, Verdict::Undecided);
    assert_eq!(stage(&cut_off(speed("29", "km/h"), "epac")).verdict, Verdict::Outside);
    // Great Britain's sheet names no tolerance: a good meter decides, 2 % does not.
    assert_eq!(stage(&cut_off(speed("25.2", "km/h"), "gb")).verdict, Verdict::Undecided);
    assert_eq!(stage(&cut_off(typed("25.2", "0.1"), "gb")).verdict, Verdict::Outside);
    assert_eq!(stage(&cut_off(speed("15", "mph"), "gb")).verdict, Verdict::Within);
}

/// R05: 2 m, or 5 m where all braking devices have cut-off switches.
#[test]
fn run_on_depends_on_the_brake_switches() {
    let verdict = |way: &str, brake_switches, rules: &str| {
        let run_on = Some(reading(way));
        let line = only(RideReadings { run_on, brake_switches, ..RideReadings::default() }, rules);
        stage(&line).verdict.clone()
    };
    assert_eq!(verdict("1.2 m", None, "epac"), Verdict::Within);
    assert_eq!(verdict("2 m", Some(false), "epac"), Verdict::Within);
    assert_eq!(verdict("2.1 m", Some(false), "epac"), Verdict::Outside);
    assert_eq!(verdict("5 m", Some(true), "epac"), Verdict::Within);
    assert_eq!(verdict("5.1 m", Some(true), "epac"), Verdict::Outside);
    let open = Verdict::NotDetermined(Reason::BrakeSwitchesUnknown);
    assert_eq!(verdict("3 m", None, "epac"), open);
    assert_eq!(verdict("5.1 m", None, "epac"), Verdict::Outside);
    assert_eq!(verdict("1.2 m", None, "gb"), Verdict::NotDetermined(Reason::NoLimit));
}

/// R07: walk assistance of at most 6 km/h; R12: 3.7 mph; R08: at least 1 km.
#[test]
fn walk_assistance_and_length_of_the_ride() {
    let walk = |reading, rules| {
        only(RideReadings { walk: Some(reading), ..RideReadings::default() }, rules)
    };
    assert_eq!(stage(&walk(speed("6", "km/h"), "epac")).verdict, Verdict::Within);
    assert_eq!(stage(&walk(speed("6.1", "km/h"), "epac")).verdict, Verdict::Outside);
    assert_eq!(stage(&walk(speed("3.7", "mph"), "us-class-2")).verdict, Verdict::Within);
    assert_eq!(stage(&walk(speed("6", "km/h"), "us-class-2")).verdict, Verdict::Outside);
    let ridden = |digits: &str| {
        let unit = Dimension::Distance.unit("mi").unwrap();
        let value = Quantity { number: number(digits), unit };
        let distance = Some(Reading { value, uncertainty: None });
        only(RideReadings { distance, ..RideReadings::default() }, "epac")
    };
    let line = ridden("7.4");
    assert_eq!((line.measure, figure(&line).value), (Measure::RideDistance, number("11.9091456")));
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(stage(&ridden("0.62")).verdict, Verdict::Outside);
}

/// F02: M = F (0.16 P + 0.58 d2 mu + Dk/2 mu) with F at 90 % of the yield point, VDI 2230-1;
/// checked against F03, a printed fine thread M8x1 within 2 %, and then against every row of the
/// table.
#[test]
fn torques_agree_with_the_formula_of_the_guideline() {
    // Preload in kN and torque in N m; face under the head (least of ISO 4762)
    // and hole (fine series of ISO 273) in mm, both from memory.
    let tightening = |d: f64, pitch: f64, head: f64, hole: f64, mu: f64| {
        let (d2, d3) = (d - 0.64952 * pitch, d - 1.22687 * pitch);
        let d0 = f64::midpoint(d2, d3);
        let twist = 1.5 * d2 / d0 * (pitch / (PI * d2) + 1.155 * mu);
        let stress = 0.9 * 640.0 / (1.0 + 3.0 * twist * twist).sqrt();
        let preload = PI / 4.0 * d0 * d0 * stress / 1000.0;
        (preload, preload * (0.16 * pitch + 0.58 * d2 * mu + (head + hole) / 4.0 * mu))
    };
    let is_near = |found: f64, printed: f64, within: f64| (found / printed - 1.0).abs() < within;
    let printed = [(0.10, 20.7, 22.8), (0.12, 20.2, 26.1), (0.14, 19.7, 29.2)];
    for (mu, force, torque) in printed {
        let found = tightening(8.0, 1.0, 12.33, 8.4, mu);
        assert!(
            is_near(found.0, force, 0.003) && is_near(found.1, torque, 0.02),
            "{mu}: {found:?}"
        );
    }
    let threads = [
        ("M4", 4.0, 0.7, 6.53, 4.3),
        ("M5", 5.0, 0.8, 8.03, 5.3),
        ("M6", 6.0, 1.0, 9.38, 6.4),
        ("M8", 8.0, 1.25, 12.33, 8.4),
    ];
    assert_eq!(TORQUES.len(), threads.len());
    for ((name, row), (same, d, pitch, head, hole)) in TORQUES.iter().zip(threads) {
        assert_eq!(*name, same);
        for (friction, torque) in FRICTIONS.iter().zip(row) {
            let found = tightening(d, pitch, head, hole, f64::from(*friction) / 100.0).1;
            let printed = f64::from(*torque) / 10.0;
            assert!(is_near(found, printed, 0.04), "{name}: {found} against {printed}");
        }
    }
    assert_eq!(most("m6", number("0.12")), Some(number("10.1")));
    assert_eq!((most("M6", number("0.11")), most("M7", number("0.12"))), (None, None));
}

#[test]
fn torque_goes_by_the_model_and_else_by_the_thread() {
    let mut screws =
        Screws { screws: "case".into(), set: quantity("8 Nm"), thread: None, friction: None };
    let verdict = |line: &Line| stage(line).verdict.clone();
    let line = torque::run(&screws, &Own::default());
    assert_eq!(verdict(&line), Verdict::NotDetermined(Reason::MissingThread));
    screws.thread = Some("M6".into());
    let line = torque::run(&screws, &Own::default());
    assert_eq!(verdict(&line), Verdict::Within);
    assert_eq!(line.remarks, [Remark::FrictionAssumed, Remark::SteelUpperBound]);
    assert_eq!(line.limit.unwrap().bounds, Bounds::AtMost(number("10.1")));
    screws.friction = Some(number("0.13"));
    assert_eq!(
        verdict(&torque::run(&screws, &Own::default())),
        Verdict::NotDetermined(Reason::NotInTable)
    );
    let torques = vec![OwnTorque {
        screws: "case".into(),
        set: quantity("6 Nm"),
        tolerance: Some(number("10")),
    }];
    let own = of_model(OwnLimits { torques, ..OwnLimits::default() });
    let line = torque::run(&screws, &own);
    assert_eq!(verdict(&line), Verdict::Outside);
    let limit = line.limit.unwrap();
    assert_eq!(
        (limit.bounds, limit.origin),
        (Bounds::Between(number("5.4"), number("6.6")), Origin::Workshop)
    );
    assert!(line.remarks.is_empty());
}

#[test]
fn without_rules_no_reading_of_a_ride_is_judged() {
    let ride = RideReadings { cut_off: Some(speed("40", "km/h")), ..RideReadings::default() };
    let [line] = <[Line; 1]>::try_from(run(&ride, None)).unwrap();
    assert_eq!(line.after.unwrap().verdict, Verdict::NotDetermined(Reason::NoLimit));
}
