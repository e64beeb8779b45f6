//! Signs that readings show by themselves, and what each needs beside the figure.

use splitcase::assessment::assess;
use splitcase::assessment::bench::shown::{ROWS, shown};
use splitcase::assessment::cause::evidence::Origin;
use splitcase::assessment::cause::verdict::Support;
use splitcase::diagnostic::Problems;
use splitcase::sheet::vocabulary::CauseKind;
use splitcase::sheet::{ProfileFile, Sheet, read, read_profile};

/// Limits for the checks that have no published one.
const PROFILE: &str = "\
name: Quarrow Drive Bench
currency: GBP
limits:
  crank-radial-play: 0.2 mm
  no-load-current: 1.0 A
  checks: [{check: unit-mass, at-most: 3500 g, at-least: 3400 g}]
";

fn sheet(rest: &str) -> (ProfileFile, Sheet) {
    let mut problems = Problems::default();
    let workshop = read_profile("workshop.yaml", PROFILE.as_bytes(), &mut problems).unwrap();
    let text = format!(
        "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive}}\n\
         arrival: {{date: 2026-03-02}}\n{rest}"
    );
    let sheet = read("findings.yaml", text.as_bytes(), &workshop, &mut problems).unwrap();
    assert!(!problems.has_errors(), "{text}\n{:?}", problems.into_sorted());
    (workshop, sheet)
}

/// The signs of the bench in the weighing of such a sheet.
fn signs(rest: &str) -> Vec<&'static str> {
    let (workshop, sheet) = sheet(rest);
    let assessment = assess(&sheet, &workshop, None, &mut Problems::default());
    let from_table = shown(&sheet.fields, &assessment.bench);
    let bench = assessment.weighing.signs.iter().filter(|one| {
        one.seen && one.origins.iter().any(|origin| matches!(origin, Origin::Bench(_)))
    });
    let names: Vec<&str> = bench.map(|one| one.sign.name()).collect();
    assert_eq!(names.len(), from_table.len(), "each is weighed once");
    names
}

fn check(fields: &str) -> String {
    format!("bench:\n  - {{{fields}}}\n")
}

const DRIED: &str = "work: {drying: {how: oven, for: 48 h, at: 45 degC}}\n";

fn found(findings: &str) -> String {
    format!("strip-down:\n  date: 2026-03-04\n  findings:\n{findings}")
}

#[test]
fn play_beyond_the_limit_is_play_above_reference() {
    let play = |before: &str| signs(&check(&format!("check: crank-radial-play, before: {before}")));
    assert_eq!(play("0.8 mm"), ["play-above-reference"]);
    assert!(play("0.1 mm").is_empty());
    // Nearer to the limit than its uncertainty: it does not decide.
    assert!(play("0.22 mm ± 0.05 mm").is_empty());
    let after = signs(&check("check: crank-radial-play, after: 0.8 mm"));
    assert!(after.is_empty(), "what is left after the work shows no cause");
    // No limit, no verdict, no sign.
    assert!(signs(&check("check: crank-axial-play, before: 3 mm")).is_empty());
}

#[test]
fn an_unbalanced_winding_is_low_or_open_by_the_reading_that_deviates() {
    let winding = |three: &str| {
        signs(&check(&format!("check: winding-resistance, before: [{three}], at: 20 degC")))
    };
    assert_eq!(winding("90 mohm, 100 mohm, 100 mohm"), ["winding-pair-low"]);
    assert_eq!(winding("100 mohm, 130 mohm, 100 mohm"), ["winding-pair-open"]);
    assert!(winding("100 mohm, 101 mohm, 100 mohm").is_empty());
}

#[test]
fn insulation_recovers_or_stays_low_only_where_the_unit_was_dried() {
    let reading = |after: &str| {
        check(&format!(
            "check: insulation-resistance, before: 0.4 Mohm, {after}at: 40 degC, test-voltage: 100 V"
        ))
    };
    let (up, low) = (reading("after: 60 Mohm, "), reading("after: 0.6 Mohm, "));
    assert_eq!(signs(&format!("{up}{DRIED}")), ["insulation-recovers"]);
    assert_eq!(signs(&format!("{low}{DRIED}")), ["insulation-stays-low"]);
    assert!(signs(&up).is_empty(), "nobody says that it was dried");
    assert!(signs(&low).is_empty());
    assert!(signs(&format!("{}{DRIED}", reading(""))).is_empty(), "not read again");
    // A new winding or another unit proves nothing of the old one.
    let new = found("    - {part: stator-winding, condition: failed, action: replaced}\n");
    assert!(signs(&format!("{new}{up}{DRIED}")).is_empty());
    let other = "outcome: exchanged\nexchange: {serial: K-1}\n";
    let opened = found("    - {part: gear-cover, condition: sound}\n");
    assert!(signs(&format!("{opened}{up}{DRIED}{other}")).is_empty());
    assert_eq!(signs(&format!("{opened}{up}{DRIED}")), ["insulation-recovers"]);
}

#[test]
fn a_hall_state_that_cannot_be_is_invalid() {
    let hall = |states: &str, placing: &str| {
        signs(&check(&format!("check: hall-states, states-before: [{states}]{placing}")))
    };
    assert_eq!(hall("1, 3, 2, 6, 7, 4, 5", ""), ["hall-state-invalid"]);
    assert!(hall("1, 3, 2, 6, 4, 5", "").is_empty());
    // States 0 and 7 belong to the other placing; a missing state alone shows no invalid one.
    assert!(hall("7, 6, 4, 0, 1, 3", ", placing: 60-degrees").is_empty());
    assert!(hall("1, 3, 2, 6", "").is_empty());
}

#[test]
fn current_without_load_speaks_by_what_the_bearings_are() {
    let current = |after: &str| check(&format!("check: no-load-current, before: 2.4 A{after}"));
    let bearing = |rest: &str| found(&format!("    - {{part: rotor-bearing-inner, {rest}}}\n"));
    assert!(signs(&current("")).is_empty(), "bearings were not looked at");
    let sound = bearing("condition: sound");
    assert_eq!(signs(&format!("{sound}{}", current(""))), ["no-load-current-high"]);
    assert!(signs(&format!("{}{}", bearing("condition: worn"), current(""))).is_empty());
    let new = bearing("condition: worn, action: replaced");
    let dropped = current(", after: 0.9 A");
    assert_eq!(signs(&format!("{new}{dropped}")), ["no-load-current-dropped"]);
    let both = format!(
        "{new}    - {{part: stator-winding, condition: failed, action: replaced}}\n{dropped}"
    );
    assert!(signs(&both).is_empty(), "bearings or winding: it does not say which");
}

#[test]
fn a_unit_is_heavier_only_above_its_limit() {
    let mass = |grams: &str| signs(&check(&format!("check: unit-mass, before: {grams}")));
    assert_eq!(mass("3620 g"), ["heavier-than-reference"]);
    assert!(mass("3450 g").is_empty() && mass("3300 g").is_empty());
}

#[test]
fn a_sheet_with_readings_alone_is_weighed() {
    let weighed = |rest: &str| {
        let (workshop, sheet) = sheet(rest);
        let weighing = assess(&sheet, &workshop, None, &mut Problems::default()).weighing;
        (weighing.verdict.main, weighing.verdict.support, weighing.unproven.len())
    };
    let winding = "check: winding-resistance, before: [90 mohm, 100 mohm, 100 mohm], at: 20 degC";
    let points = |kind: CauseKind| (kind, Support::PointsTo, 0);
    assert_eq!(weighed(&check(winding)), points(CauseKind::Electrical));
    let wet = check("check: insulation-resistance, before: 0.4 Mohm, after: 60 Mohm, at: 40 degC");
    assert_eq!(weighed(&format!("{wet}{DRIED}")), points(CauseKind::Ingress));
    // Play alone says that something wore or was left loose, not why.
    let play = weighed(&check("check: crank-radial-play, before: 0.8 mm"));
    assert_eq!(play.0, CauseKind::Undetermined);
}

#[test]
fn a_sign_that_is_ticked_and_read_counts_once() {
    let ticked = found(
        "    - {part: crank-axle, condition: worn, signs: [play-above-reference], photos: [a.jpg]}\n",
    );
    let read = check("check: crank-radial-play, before: 0.8 mm");
    let totals = |rest: &str| {
        let (workshop, sheet) = sheet(rest);
        assess(&sheet, &workshop, None, &mut Problems::default()).weighing.totals
    };
    assert_eq!(totals(&ticked), totals(&format!("{ticked}{read}")));
}

#[test]
fn each_row_can_be_measured_or_weighed_by_its_sign() {
    use splitcase::sheet::catalogue::sign::SignKind;
    assert!(ROWS.iter().all(|row| row.sign.0.kind == SignKind::Measured));
}
