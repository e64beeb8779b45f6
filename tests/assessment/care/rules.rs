//! Which rule fires for whom, and in which order.

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use splitcase::assessment::care::advise;
use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::reason::{Aspect, Reason};
use splitcase::assessment::care::table::{Row, Source, TABLE};
use splitcase::assessment::care::todo::Todo;
use splitcase::sheet::vocabulary::{CauseKind, Outcome, Storage, UnitKind, Use, Washing};

use super::{day, plain, rules, sheet};

fn ended(outcome: Outcome) -> CareInput {
    CareInput { outcome: Some(outcome), ..plain() }
}

fn used(one: Use) -> CareInput {
    CareInput { used_for: vec![one], ..plain() }
}

fn stored(storage: Storage) -> CareInput {
    CareInput { storage, ..plain() }
}

fn washed(washing: Washing) -> CareInput {
    CareInput { washing, ..plain() }
}

fn caused(cause: CauseKind) -> CareInput {
    CareInput { cause: Some(cause), ..plain() }
}

fn with_part(cause: CauseKind) -> CareInput {
    CareInput { contributing: vec![cause], ..plain() }
}

fn hub(input: CareInput) -> CareInput {
    CareInput { kind: UnitKind::Hub, ..input }
}

fn ridden(km: u32) -> CareInput {
    CareInput { ridden: Some(km.into()), ..plain() }
}

/// A rule, jobs that it fires for, jobs that it does not fire for.
type Case = (&'static str, Vec<CareInput>, Vec<CareInput>);

fn cases() -> Vec<Case> {
    let back = || ended(Outcome::ReturnedUnrepaired);
    let faultless = || ended(Outcome::NoFaultFound);
    let unknown_and_wet = || CareInput { washing: Washing::Unknown, ..caused(CauseKind::Ingress) };
    vec![
        ("do-not-ride", vec![back()], vec![plain(), faultless()]),
        ("keep-dry-meanwhile", vec![back()], vec![plain()]),
        ("hand-in-as-waste", vec![back()], vec![ended(Outcome::Exchanged)]),
        ("look-elsewhere", vec![faultless()], vec![plain(), back()]),
        ("note-when", vec![faultless()], vec![plain()]),
        (
            "no-jet",
            vec![
                washed(Washing::PressureWasher),
                caused(CauseKind::Ingress),
                with_part(CauseKind::Ingress),
            ],
            vec![
                plain(),
                washed(Washing::GardenHose),
                caused(CauseKind::Mechanical),
                CareInput { washing: Washing::PressureWasher, ..back() },
            ],
        ),
        (
            "switch-off-first",
            vec![caused(CauseKind::Electrical), with_part(CauseKind::Electrical)],
            vec![plain(), caused(CauseKind::Ingress)],
        ),
        (
            "gentle-start",
            vec![hub(caused(CauseKind::Mechanical)), hub(used(Use::Cargo)), hub(used(Use::Towing))],
            vec![hub(plain()), caused(CauseKind::Mechanical), used(Use::Cargo)],
        ),
        ("first-sound", vec![plain(), ended(Outcome::Exchanged)], vec![faultless(), back()]),
        ("tell-riders", vec![used(Use::Rental)], vec![used(Use::Road), plain()]),
        ("new-serial", vec![ended(Outcome::Exchanged)], vec![plain()]),
        (
            "dry-after-wet",
            vec![used(Use::AllWeather), used(Use::Commuting), caused(CauseKind::Ingress)],
            vec![plain(), used(Use::Road), used(Use::Cargo)],
        ),
        (
            "stand-under-a-roof",
            vec![stored(Storage::Outside), stored(Storage::UnderCover)],
            vec![stored(Storage::ShedOrGarage), stored(Storage::Unknown), plain()],
        ),
        (
            "turn-when-standing",
            vec![stored(Storage::ShedOrGarage), with_part(CauseKind::Ingress)],
            vec![plain(), stored(Storage::Unknown)],
        ),
        (
            "soft-hose",
            vec![washed(Washing::GardenHose)],
            vec![plain(), washed(Washing::PressureWasher)],
        ),
        ("wash-by-hand", vec![washed(Washing::Unknown)], vec![plain(), unknown_and_wet()]),
        ("clean-off-mud", vec![washed(Washing::NotWashed)], vec![plain()]),
        (
            "no-deep-water",
            vec![used(Use::Trail), used(Use::Touring)],
            vec![used(Use::Commuting), plain()],
        ),
        ("wipe-off-salt", vec![used(Use::Commuting)], vec![used(Use::Trail), plain()]),
        (
            "battery-indoors",
            vec![stored(Storage::ShedOrGarage), stored(Storage::Outside)],
            vec![plain(), stored(Storage::Unknown)],
        ),
        (
            "keep-plugs-dry",
            vec![caused(CauseKind::Electrical), stored(Storage::Outside)],
            vec![plain(), stored(Storage::UnderCover)],
        ),
        (
            "low-gear",
            vec![used(Use::Cargo), caused(CauseKind::Mechanical), with_part(CauseKind::Electrical)],
            vec![plain(), used(Use::Commuting), hub(used(Use::Cargo))],
        ),
        (
            "pedal-on-hills",
            vec![hub(used(Use::Trail)), hub(caused(CauseKind::Electrical))],
            vec![hub(plain()), used(Use::Trail)],
        ),
        (
            "fresh-chain",
            vec![used(Use::Towing), caused(CauseKind::Mechanical)],
            vec![plain(), hub(used(Use::Towing))],
        ),
        ("rain-on-the-rack", vec![used(Use::Trail)], vec![used(Use::Commuting)]),
        (
            "many-miles",
            vec![ridden(10_001)],
            vec![ridden(10_000), plain(), CareInput { outcome: None, ..ridden(20_000) }],
        ),
        ("keep-washing-by-hand", vec![plain()], vec![washed(Washing::Unknown)]),
    ]
}

#[test]
fn each_rule_fires_for_its_jobs_and_for_no_others() {
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for (rule, fires, fires_not) in cases() {
        seen.insert(rule);
        for input in &fires {
            assert!(rules(input).contains(&rule), "{rule} does not fire for {input:?}");
        }
        for input in &fires_not {
            assert!(!rules(input).contains(&rule), "{rule} fires for {input:?}");
        }
    }
    let all: BTreeSet<&str> = TABLE.advice.iter().map(|row| row.name.as_str()).collect();
    assert_eq!(seen, all);
}

#[test]
fn each_caution_fires_for_its_jobs_and_for_no_others() {
    let cautions = |input: &CareInput| advise(input).cautions;
    let always = ["try-before-traffic", "brakes", "speed-limit", "battery-signs", "no-opening"];
    assert_eq!(cautions(&plain()), always);
    assert_eq!(cautions(&ended(Outcome::ReturnedUnrepaired)), ["battery-signs", "no-opening"]);
    let wet = [
        caused(CauseKind::Ingress),
        with_part(CauseKind::Ingress),
        washed(Washing::PressureWasher),
        used(Use::AllWeather),
        stored(Storage::Outside),
    ];
    assert!(wet.iter().all(|input| cautions(input).contains(&"wet-battery")));
    assert!(!cautions(&used(Use::Road)).contains(&"wet-battery"));
}

#[test]
fn a_job_without_an_outcome_has_no_advice_and_still_its_cautions() {
    let care = advise(&CareInput { outcome: None, ..used(Use::Cargo) });
    assert_eq!((care.rules, care.checks, care.hand_test), (vec![], vec![], None));
    assert_eq!(care.cautions, ["battery-signs", "no-opening"]);
}

#[test]
fn a_unit_that_is_not_to_be_ridden_has_no_checks_and_no_hand_test() {
    let care = advise(&CareInput { greased: true, ..ended(Outcome::ReturnedUnrepaired) });
    assert_eq!((care.checks, care.hand_test), (vec![], None));
    assert_eq!(advise(&hub(plain())).hand_test, Some(UnitKind::Hub));
    assert_eq!(advise(&plain()).hand_test, Some(UnitKind::MidDrive));
}

#[test]
fn reasons_name_what_of_this_job_asks_for_a_rule() {
    let input = CareInput {
        used_for: vec![Use::Commuting, Use::AllWeather],
        ..with_part(CauseKind::Ingress)
    };
    let care = advise(&input);
    let dry = care.rules.iter().find(|advice| advice.rule == "dry-after-wet").unwrap();
    let reason = |aspect, word| Reason { aspect, word };
    let expected = [
        reason(Aspect::Contributing, "ingress"),
        reason(Aspect::Use, "all-weather"),
        reason(Aspect::Use, "commuting"),
    ];
    assert_eq!(dry.because, expected);
    assert_eq!(dry.source, Source::Published("ISO 15243:2017, moisture corrosion"));
    let first = care.rules.iter().find(|advice| advice.rule == "first-sound").unwrap();
    assert_eq!((first.because.as_slice(), first.source), (&[][..], Source::CommonPractice));
}

#[test]
fn a_row_may_ask_for_several_facts_at_once() {
    let text = "{advice: x, only: {kind: [hub], use: [cargo, towing], ridden-over: 500}}";
    let row: &'static Row = Box::leak(Box::new(serde_yaml::from_str(text).unwrap()));
    let input = |kind, used_for: &[Use], km: u32| CareInput {
        kind,
        used_for: used_for.to_vec(),
        ..ridden(km)
    };
    assert_eq!(row.applies_to(&input(UnitKind::Hub, &[Use::Road, Use::Towing], 501)), Some(vec![]));
    assert_eq!(row.applies_to(&input(UnitKind::Hub, &[Use::Road, Use::Towing], 500)), None);
    assert_eq!(row.applies_to(&input(UnitKind::Hub, &[Use::Road], 501)), None);
    assert_eq!(row.applies_to(&input(UnitKind::MidDrive, &[Use::Cargo], 501)), None);
    assert!(serde_yaml::from_str::<Row>("{advice: x, when: {weather: [wet]}}").is_err());
}

#[test]
fn the_order_of_the_lists_of_a_sheet_changes_nothing() {
    let uses = [Use::Trail, Use::Cargo, Use::AllWeather, Use::Rental];
    let causes = [CauseKind::Mechanical, CauseKind::Ingress];
    let care = |turn: usize, back: bool| {
        let (mut used_for, mut contributing) = (uses.to_vec(), causes.to_vec());
        used_for.rotate_left(turn);
        if back {
            used_for.reverse();
            contributing.reverse();
        }
        used_for.push(uses[turn]);
        advise(&CareInput { used_for, contributing, greased: true, ..plain() })
    };
    let first = care(0, false);
    for turn in 0..4 {
        assert_eq!(care(turn, false), first);
        assert_eq!(care(turn, true), first);
    }
}

#[test]
fn the_most_important_advice_comes_first() {
    let jet = CareInput {
        used_for: vec![Use::Trail, Use::Commuting],
        washing: Washing::PressureWasher,
        storage: Storage::Unknown,
        contributing: vec![CauseKind::Neglect],
        ridden: Some(Decimal::from(2961)),
        ..caused(CauseKind::Ingress)
    };
    let expected = [
        "no-jet",
        "first-sound",
        "dry-after-wet",
        "turn-when-standing",
        "no-deep-water",
        "wipe-off-salt",
        "low-gear",
        "rain-on-the-rack",
    ];
    assert_eq!(rules(&jet), expected);
    let heard_early =
        CareInput { used_for: vec![Use::Road, Use::Commuting], ..caused(CauseKind::Mechanical) };
    assert_eq!(rules(&heard_early)[0], "first-sound");
    let load = CareInput { used_for: vec![Use::Cargo], ..hub(caused(CauseKind::Mechanical)) };
    assert_eq!(rules(&load)[0], "gentle-start");
    assert_eq!(rules(&caused(CauseKind::Electrical))[0], "switch-off-first");
    let faultless_under_a_jet =
        CareInput { washing: Washing::PressureWasher, ..ended(Outcome::NoFaultFound) };
    assert_eq!(rules(&faultless_under_a_jet), ["look-elsewhere", "no-jet", "note-when"]);
}

#[test]
fn page_one_asks_for_three_things_and_the_section_does_not_repeat_them() {
    let names = |input: &CareInput| -> Vec<String> {
        let care = advise(input);
        let todo = care.todo();
        let beyond: Vec<&str> = care.beyond_page_one().iter().map(|advice| advice.rule).collect();
        let name = |one: &Todo<'_>| match one {
            Todo::Advice(advice) => {
                assert!(!beyond.contains(&advice.rule), "{} twice", advice.rule);
                advice.rule.to_owned()
            }
            Todo::HandTest { date, .. } => format!("hand-test by {}", date.unwrap()),
            Todo::WorkshopLook { date } => format!("look by {}", date.unwrap()),
        };
        let advice = todo.iter().filter(|one| matches!(one, Todo::Advice(_))).count();
        assert_eq!(advice + beyond.len(), care.rules.len());
        todo.iter().map(name).collect()
    };
    let jet = washed(Washing::PressureWasher);
    assert_eq!(names(&jet), ["no-jet", "hand-test by 2026-03-25", "look by 2026-06-11"]);
    let faultless = ended(Outcome::NoFaultFound);
    let expected = ["look-elsewhere", "note-when", "hand-test by 2026-04-11"];
    assert_eq!(names(&faultless), expected);
    let back = ended(Outcome::ReturnedUnrepaired);
    assert_eq!(names(&back), ["do-not-ride", "keep-dry-meanwhile", "hand-in-as-waste"]);
    assert_eq!(names(&CareInput { outcome: None, ..plain() }), [""; 0]);
}

#[test]
fn what_nobody_said_is_unknown_and_a_cause_is_told_once() {
    let fields = sheet(
        "job: QB-1\ncustomer: {name: Elin Varga}\n\
         unit: {kind: hub, ridden: 10 km, used-for: [trail], stored-in: outside}\n\
         arrival: {date: 2026-03-02}\n\
         cause: {main: ingress, contributing: [ingress, mechanical]}\n\
         work: {grease: lithium complex}\noutcome: repaired\n",
    );
    let input = CareInput::of(&fields);
    assert_eq!(input.washing, Washing::Unknown);
    assert_eq!(input.storage, Storage::Outside);
    assert_eq!(input.cause, Some(CauseKind::Ingress));
    assert_eq!(input.contributing, [CauseKind::Mechanical]);
    assert_eq!((input.greased, input.ridden), (true, Some(10.into())));
    assert_eq!((input.kind, input.from), (UnitKind::Hub, Some(day("2026-03-02"))));
}

#[test]
fn one_bearing_with_its_grease_is_not_a_unit_with_fresh_grease() {
    let greased = |more: &str| {
        let fields = sheet(&format!(
            "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive}}\n\
             arrival: {{date: 2026-03-02}}\n{more}"
        ));
        CareInput::of(&fields).greased
    };
    assert!(!greased("decision: {chose: overhaul}\nwork: {labour: 150 min}\n"));
    assert!(greased("decision: {chose: overhaul}\nwork: {grease: lithium complex}\n"));
    assert!(!greased("decision: {chose: single-bearing}\nwork: {grease: lithium complex}\n"));
}
