//! Ride limits by rule set, and screw torques against models and threads.

use std::f64::consts::PI;

use super::{
    Limits, Reason, ShopLimits, Verdict, figure, number, of_model, quantity, reading, share, stage,
};
use splitcase::assessment::bench::check_result::CheckResult;
use splitcase::assessment::bench::measure::Measure;
use splitcase::assessment::bench::remark::Remark;
use splitcase::assessment::bench::ride_limits::rules::{RULE_SETS, number as of_table, rule_set};
use splitcase::assessment::bench::ride_limits::{RideReadings, run};
use splitcase::assessment::bench::torque::{self, FRICTIONS, Screws, TORQUES, most};
use splitcase::assessment::bench::verdict::{Bounds, Origin};
use splitcase::assessment::sources::{SourceId, Standing};
use splitcase::sheet::bench::Reading;
use splitcase::sheet::profile::TorqueLimit;
use splitcase::sheet::quantity::unit::{Dimension, Unit};
use splitcase::sheet::quantity::{Quantity, Torque};
use splitcase::sheet::text::Text;
use splitcase::sheet::vocabulary::RulesOf;

fn speed(digits: &str, spelling: &str) -> Reading {
    let unit: &'static Unit = Dimension::Speed.unit(spelling).unwrap();
    Reading::of(Quantity { number: number(digits), unit })
}

fn only(ride: RideReadings, rules: &str) -> CheckResult {
    let lines = run(&ride, Some(rule_set(rules).unwrap()));
    let [line] = <[CheckResult; 1]>::try_from(lines).unwrap();
    assert!(line.remarks.contains(&Remark::CheckLocalRules));
    line
}

fn cut_off(reading: Reading, rules: &str) -> CheckResult {
    only(RideReadings { cut_off: Some(reading), ..RideReadings::default() }, rules)
}

/// R10: 15.5 mph = 24.945 km/h, 20 = 32.187, 28 = 45.062, 3.7 = 5.955; one mile is 1.609344 km.
#[test]
fn miles_an_hour_in_every_rule_set() {
    let kmh = |rules: &str| rule_set(rules).unwrap().cut_off_kmh().round_dp(3);
    assert_eq!(kmh("gb"), number("24.945"));
    assert_eq!(kmh("us-class-1"), number("32.187"));
    assert_eq!(kmh("us-class-2"), number("32.187"));
    assert_eq!(kmh("us-class-3"), number("45.062"));
    assert_eq!(
        [kmh("au"), kmh("ch"), kmh("ca"), kmh("s-pedelec")],
        ["25", "25", "32", "45"].map(number)
    );
    for (rules, mph) in [("gb", "15.5"), ("us-class-1", "20"), ("us-class-3", "28")] {
        let line = cut_off(speed(mph, "mph"), rules);
        assert_eq!(line.limit.as_ref().unwrap().bounds, Bounds::AtMost(number(mph)), "{rules}");
        assert_eq!((figure(&line).value, line.unit), (number(mph), "mph"), "{rules}");
    }
    let us = rule_set("us-class-1").unwrap();
    let walk = of_table(us.walk.unwrap()) * us.unit.kmh();
    assert_eq!(walk.round_dp(3), number("5.955"));
    assert_eq!(rule_set("elsewhere"), None);
}

#[test]
fn every_set_of_rules_that_a_sheet_can_name_is_there_and_rests_on_a_source_that_was_read() {
    assert_eq!(RulesOf::ALL.len(), RULE_SETS.len());
    for rules in RulesOf::ALL {
        let origin = rule_set(rules.word()).unwrap().origin;
        match origin {
            Origin::Published(source) => {
                assert_eq!(source.row().unwrap().standing, Standing::Read, "{rules:?}");
            }
            // No text of these rules was read.
            _ => assert!(matches!(rules, RulesOf::Au | RulesOf::Ca) && origin == Origin::Practice),
        }
    }
}

/// A rule of 15.5 mph and one of 25 km/h are the same; so are 3.7 mph and 6 km/h. gov.uk (10 December
/// 2024) states the one, EN 15194:2017 the other; 25.0 km/h are 15.53 mph and print as 15.5.
#[test]
fn a_speed_is_outside_only_if_it_is_so_as_printed() {
    let exact = |text: &str, spelling: &str| Reading {
        uncertainty: Some(speed("0", "km/h").value),
        ..speed(text, spelling)
    };
    let verdict = |line: CheckResult| stage(&line).verdict.clone();
    assert_eq!(verdict(cut_off(exact("25.0", "km/h"), "gb")), Verdict::Within);
    assert_eq!(verdict(cut_off(exact("15.5", "mph"), "gb")), Verdict::Within);
    assert_eq!(verdict(cut_off(exact("15.6", "mph"), "gb")), Verdict::Outside);
    assert_eq!(verdict(cut_off(exact("25.1", "km/h"), "gb")), Verdict::Outside, "15.6 mph");
    assert_eq!(verdict(cut_off(exact("15.53", "mph"), "epac")), Verdict::Within);
    assert_eq!(verdict(cut_off(exact("25.1", "km/h"), "epac")), Verdict::Outside);
    let walk = |speed, rules| {
        verdict(only(RideReadings { walk: Some(speed), ..RideReadings::default() }, rules))
    };
    assert_eq!(walk(speed("6.0", "km/h"), "us-class-1"), Verdict::Within);
    assert_eq!(walk(speed("3.7", "mph"), "epac"), Verdict::Within);
    assert_eq!(walk(speed("6.1", "km/h"), "us-class-1"), Verdict::Outside, "3.8 mph");
}

/// R01: 25 km/h, with no tolerance of a type test. R03: a meter of 2 % is assumed where none is typed.
#[test]
fn cut_off_of_an_epac() {
    let typed = |text: &str, spread: &str| Reading {
        uncertainty: Some(speed(spread, "km/h").value),
        ..speed(text, "km/h")
    };
    let line = cut_off(speed("24.4", "km/h"), "epac");
    let limit = line.limit.as_ref().unwrap();
    assert_eq!(limit.bounds, Bounds::AtMost(number("25")));
    assert_eq!(limit.origin, Origin::Published(SourceId::Epac));
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(figure(&line).uncertainty, Some(number("0.488")));
    assert!(line.remarks.contains(&Remark::MeterAccuracyAssumed));
    let line = cut_off(typed("24.9", "0.1"), "epac");
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert!(!line.remarks.contains(&Remark::MeterAccuracyAssumed));
    assert_eq!(stage(&cut_off(speed("25.2", "km/h"), "epac")).verdict, Verdict::Undecided);
    assert_eq!(stage(&cut_off(typed("25.2", "0.1"), "epac")).verdict, Verdict::Outside);
    assert_eq!(stage(&cut_off(speed("27.4", "km/h"), "epac")).verdict, Verdict::Outside);
    assert_eq!(stage(&cut_off(speed("25.2", "km/h"), "gb")).verdict, Verdict::Undecided);
    assert_eq!(stage(&cut_off(typed("25.2", "0.1"), "gb")).verdict, Verdict::Outside);
    assert_eq!(stage(&cut_off(speed("15", "mph"), "gb")).verdict, Verdict::Within);
    assert_eq!(stage(&cut_off(typed("44.8", "0.2"), "s-pedelec")).verdict, Verdict::Within);
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
    assert_eq!(stage(&walk(speed("6.2", "km/h"), "us-class-2")).verdict, Verdict::Outside);
    let ridden = |digits: &str| {
        let unit = Dimension::Distance.unit("mi").unwrap();
        let value = Quantity { number: number(digits), unit };
        let distance = Some(Reading::of(value));
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
        ("M3", 3.0, 0.5, 5.07, 3.2),
        ("M4", 4.0, 0.7, 6.53, 4.3),
        ("M5", 5.0, 0.8, 8.03, 5.3),
        ("M6", 6.0, 1.0, 9.38, 6.4),
        ("M8", 8.0, 1.25, 12.33, 8.4),
        ("M10", 10.0, 1.5, 15.33, 10.5),
        ("M12", 12.0, 1.75, 17.23, 13.0),
    ];
    assert_eq!(TORQUES.len(), threads.len());
    for ((name, row), (same, d, pitch, head, hole)) in TORQUES.iter().zip(threads) {
        assert_eq!(*name, same);
        for (friction, torque) in FRICTIONS.iter().zip(row) {
            let found = tightening(d, pitch, head, hole, f64::from(*friction) / 100.0).1;
            let printed = f64::from(*torque) / 100.0;
            assert!(is_near(found, printed, 0.04), "{name}: {found} against {printed}");
        }
    }
    assert_eq!(most("m6", number("0.12")), Some(number("10.1")));
    assert_eq!((most("M6", number("0.11")), most("M7", number("0.12"))), (None, None));
}

#[test]
fn torque_is_judged_by_the_workshop_alone_and_a_table_only_remarks() {
    let mut screws =
        Screws { screws: "case".into(), set: quantity("25 Nm"), thread: None, friction: None };
    let verdict = |line: &CheckResult| stage(line).verdict.clone();
    let line = torque::run(&screws, &ShopLimits::default());
    assert_eq!(verdict(&line), Verdict::NotDetermined(Reason::NoLimit));
    assert_eq!((line.of.as_deref(), line.remarks.as_slice()), (Some("case"), &[][..]));
    // Textbooks print 25 N m for M8 8.8, others 24.6: above a table is not outside a limit.
    screws.thread = Some("M8".into());
    let line = torque::run(&screws, &ShopLimits::default());
    assert_eq!(verdict(&line), Verdict::NotDetermined(Reason::NoLimit));
    assert_eq!(line.remarks, [Remark::SteelAtMost(number("24.6"))]);
    assert_eq!(line.limit, None);
    screws.friction = Some(number("0.13"));
    assert!(torque::run(&screws, &ShopLimits::default()).remarks.is_empty());
    screws.set = quantity("8 Nm");
    let torques = |set: &str| {
        vec![TorqueLimit {
            screws: Text("case".into()),
            set: Torque(quantity(set)),
            tolerance: Some(share("10")),
        }]
    };
    let own = of_model(Limits { torques: torques("6 Nm"), ..Limits::default() });
    let line = torque::run(&screws, &own);
    assert_eq!(verdict(&line), Verdict::Outside);
    let limit = line.limit.unwrap();
    assert_eq!(
        (limit.bounds, limit.origin),
        (Bounds::Between(number("5.4"), number("6.6")), Origin::ShopModel)
    );
    assert!(line.remarks.is_empty());
    // The model's figure goes before the general one.
    let own =
        ShopLimits { general: Limits { torques: torques("8 Nm"), ..Limits::default() }, ..own };
    assert_eq!(verdict(&torque::run(&screws, &own)), Verdict::Outside);
    let own = ShopLimits { model: Limits::default(), ..own };
    assert_eq!(verdict(&torque::run(&screws, &own)), Verdict::Within);
}

#[test]
fn without_rules_no_reading_of_a_ride_is_judged() {
    let ride = RideReadings { cut_off: Some(speed("40", "km/h")), ..RideReadings::default() };
    let [line] = <[CheckResult; 1]>::try_from(run(&ride, None)).unwrap();
    assert_eq!(line.after.unwrap().verdict, Verdict::NotDetermined(Reason::NoLimit));
}
