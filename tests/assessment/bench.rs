//! Bench checks against published numbers; the source stands beside each.

use rust_decimal::Decimal;
use splitcase::assessment::bench::check_result::{CheckResult, Figure, Stage};
use splitcase::assessment::bench::input::Input;
use splitcase::assessment::bench::measure::Measure;
use splitcase::assessment::bench::run;
use splitcase::assessment::bench::shop_limits::ShopLimits;
use splitcase::assessment::bench::verdict::{Bounds, Origin, Reason, Verdict, judge};
use splitcase::sheet::bench::{BenchCheck, BenchFields, Beyond, Reading};
use splitcase::sheet::number::Count;
use splitcase::sheet::profile::Limits;
use splitcase::sheet::quantity::unit::{Dimension, UNITS};
use splitcase::sheet::quantity::{
    Current, Length, Quantity, Resistance, Share, Temperature, Voltage,
};
use splitcase::sheet::reader::Marked;
use splitcase::sheet::vocabulary::CheckKind;

/// Designations, dimensions, clearance.
mod bearings;
/// Winding, insulation, hall states, currents, rise, battery.
mod electrics;
/// ISO 286 zones and what they make of a seat.
mod fits;
/// Sound levels and their background.
mod noise;
/// Readings beyond a meter's range, and checks whose figure is the reading.
mod plain;
/// Ride limits and torques.
mod ride_and_torque;
mod shown;
/// The table of sources.
mod sources;

/// A decimal number.
fn number(text: &str) -> Decimal {
    Decimal::from_str_exact(text).unwrap()
}

/// `0.80 mm` as a quantity.
fn quantity(text: &str) -> Quantity {
    let (digits, spelling) = text.split_once(' ').unwrap();
    let unit = UNITS.iter().filter(|unit| unit.spellings.contains(&spelling));
    // Metres are both a distance and a length; bench readings are lengths.
    let unit = unit.max_by_key(|unit| unit.dimension == Dimension::Length).unwrap();
    Quantity { number: number(digits), unit }
}

/// `0.80 mm ± 0.02 mm` as a reading.
fn reading(text: &str) -> Reading {
    let beyond = match text.chars().next() {
        Some('>') => Some(Beyond::Above),
        Some('<') => Some(Beyond::Below),
        _ => None,
    };
    let text = text.trim_start_matches(['>', '<']);
    let (value, uncertainty) = match text.split_once(" ± ") {
        Some((value, uncertainty)) => (value, Some(quantity(uncertainty))),
        None => (text, None),
    };
    Reading { value: quantity(value), uncertainty, beyond }
}

fn readings(texts: &[&str]) -> Vec<Reading> {
    texts.iter().map(|text| reading(text)).collect()
}

/// A check with readings as left only.
fn after(check: &str, texts: &[&str]) -> Input {
    let check = *CheckKind::ALL.iter().find(|kind| kind.word() == check).unwrap();
    Input { check, after: readings(texts), ..Input::default() }
}

fn share(text: &str) -> Share {
    Share(quantity(&format!("{text} %")))
}

fn of_model(model: Limits) -> ShopLimits {
    ShopLimits { model, ..ShopLimits::default() }
}

fn only(lines: Vec<CheckResult>) -> CheckResult {
    let [line] = <[CheckResult; 1]>::try_from(lines).unwrap();
    line
}

fn stage(line: &CheckResult) -> &Stage {
    line.after.as_ref().unwrap()
}

fn figure(line: &CheckResult) -> &Figure {
    stage(line).figure.as_ref().unwrap()
}

#[track_caller]
fn assert_near(found: Decimal, expected: &str, within: &str) {
    let off = (found - number(expected)).abs();
    assert!(off <= number(within), "{found} is not {expected} within {within}");
}

#[test]
fn every_check_of_the_sheet_gives_a_line() {
    for kind in CheckKind::ALL {
        let mut input = after(kind.word(), &[]);
        input.states_after = vec!["1".into()];
        if let Some(dimension) = kind.dimension() {
            input.after = readings(&[&format!("1 {}", dimension.spellings()[0])]);
        }
        let lines = run(&input, &ShopLimits::default());
        assert!(lines.iter().any(|line| line.after.is_some()), "{}", kind.word());
    }
}

#[test]
fn a_check_of_the_sheet_brings_its_circumstances() {
    let fields = BenchFields {
        at: Some(Temperature(quantity("20 degC"))),
        test_voltage: Some(Voltage(quantity("250 V"))),
        ..BenchFields::default()
    };
    let check = Marked { value: CheckKind::InsulationResistance, span: 0..0 };
    let (before, after) = (readings(&["0.8 Mohm"]), readings(&["240 Mohm"]));
    let typed = BenchCheck { check, before, after, fields, ..BenchCheck::default() };
    let line = only(run(&Input::from(&typed), &ShopLimits::default()));
    assert_eq!((line.measure, line.unit), (Measure::Of(CheckKind::InsulationResistance), "MΩ"));
    assert_near(line.change.unwrap().amount, "59.8", "0.000001");
}

/// Simple acceptance and guard band: the rule of ILAC-G8:09/2019, 4.2, in its three zones.
#[test]
fn a_guard_band_is_as_wide_as_the_uncertainty() {
    let most = Bounds::AtMost(number("0.10"));
    let wide = Some(number("0.02"));
    assert_eq!(judge(number("0.10"), None, most), Verdict::Within);
    assert_eq!(judge(number("0.101"), None, most), Verdict::Outside);
    assert_eq!(judge(number("0.08"), wide, most), Verdict::Within);
    assert_eq!(judge(number("0.081"), wide, most), Verdict::Undecided);
    assert_eq!(judge(number("0.12"), wide, most), Verdict::Undecided);
    assert_eq!(judge(number("0.121"), wide, most), Verdict::Outside);
    let least = Bounds::AtLeast(number("5"));
    assert_eq!(judge(number("5.5"), Some(number("1")), least), Verdict::Undecided);
    assert_eq!(judge(number("3.9"), Some(number("1")), least), Verdict::Outside);
    let between = Bounds::Between(number("1"), number("2"));
    assert_eq!(judge(number("1.5"), Some(number("0.5")), between), Verdict::Within);
    assert_eq!(judge(number("1.5"), Some(number("0.6")), between), Verdict::Undecided);
}

#[test]
fn play_is_judged_by_the_workshop_alone_and_the_model_goes_first() {
    let mut input = after("crank-radial-play", &["0.05 mm", "50 um", "0.002 in"]);
    input.before = readings(&["0.80 mm ± 0.02 mm"]);
    let line = only(run(&input, &ShopLimits::default()));
    assert_eq!(stage(&line).verdict, Verdict::NotDetermined(Reason::NoLimit));
    assert_eq!(figure(&line).value, number("0.0508"), "the largest of the three");
    assert_eq!(line.change.unwrap().amount, number("-0.7492"));

    let limit = |text: &str| Limits {
        crank_radial_play: Some(Length(quantity(text))),
        ..Limits::default()
    };
    let own = ShopLimits { model: limit("0.05 mm"), general: limit("0.10 mm") };
    let line = only(run(&input, &own));
    assert_eq!(stage(&line).verdict, Verdict::Outside);
    assert_eq!(line.limit.clone().unwrap().origin, Origin::ShopModel);
    let line =
        only(run(&input, &ShopLimits { general: limit("0.10 mm"), ..ShopLimits::default() }));
    assert_eq!(stage(&line).verdict, Verdict::Within);
    assert_eq!(line.before.unwrap().verdict, Verdict::Outside);
    assert_eq!(line.limit.unwrap().origin, Origin::Workshop);
}

#[test]
fn impossible_readings_are_refused_with_a_reason_and_without_a_panic() {
    for (text, reason) in
        [("-0.8 mm", Reason::NotPositive), ("79228162514264337593543950335 m", Reason::OutOfRange)]
    {
        for check in ["crank-axial-play", "axle-play"] {
            let line = only(run(&after(check, &[text]), &ShopLimits::default()));
            assert_eq!(stage(&line).verdict, Verdict::NotDetermined(reason.clone()));
        }
    }
    let huge = "79228162514264337593543950335";
    let limits = Limits {
        crank_radial_play: Some(Length(quantity(&format!("{huge} m")))),
        winding_resistance: Some(Resistance(quantity(&format!("{huge} ohm")))),
        winding_tolerance: Some(share(huge)),
        winding_unbalance: Some(share(&format!("-{huge}"))),
        insulation_resistance: Some(Resistance(quantity(&format!("{huge} Gohm")))),
        no_load_current: Some(Current(quantity("1000 A"))),
        no_load_factor: Some(share(huge)),
        back_emf_unbalance: Some(share(huge)),
        temperature_rise: Some(Count(u32::MAX)),
        cells: Some(Count(u32::MAX)),
        ..Limits::default()
    };
    for check in CheckKind::ALL {
        let unit = check.dimension().map_or("mm", |dimension| dimension.spellings()[0]);
        for text in [format!("{huge} {unit}"), format!("-{huge} {unit}"), format!("0 {unit}")] {
            let three = [text.as_str(), text.as_str(), text.as_str()];
            let mut input = after(check.word(), &three);
            (input.cold, input.hot) = (Some(reading("0 ohm")), Some(reading("1 ohm")));
            (input.at, input.ambient) = (Some(quantity("-240 degC")), Some(quantity("20 degC")));
            (input.bearing, input.zone) = (Some("6804".into()), Some("k5".into()));
            (input.cells, input.states_after) = (Some(3), vec!["9".into()]);
            input.background = readings(&[&format!("{huge} dB")]);
            for own in [ShopLimits::default(), of_model(limits.clone())] {
                assert!(!run(&input, &own).is_empty(), "{}", check.word());
            }
        }
    }
}
