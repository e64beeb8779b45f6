//! The order of advice, its reasons, cautions, the card for the first fit, and page 1.

use rust_decimal::Decimal;
use splitcase::assessment::care::advise;
use splitcase::assessment::care::fact::Aspect;
use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::reason::Reason;
use splitcase::assessment::care::state::{Fitness, Hazard};
use splitcase::assessment::care::table::{Row, Source};
use splitcase::assessment::care::todo::Todo;
use splitcase::sheet::vocabulary::{CauseKind, Outcome, Storage, UnitKind, Use, Washing};

use super::{
    caused, day, declined, ended, hub, in_danger, in_state, plain, ridden, rules, sheet, stored,
    used, washed, with_part,
};

#[test]
fn a_battery_caution_needs_a_wet_battery() {
    let cautions = |input: &CareInput| advise(input).cautions;
    assert_eq!(cautions(&plain()), ["try-before-traffic", "battery-signs", "leave-closed"]);
    let back = declined(Fitness::NotFit);
    assert_eq!(cautions(&back), ["battery-signs", "no-opening"]);
    let dry = [
        caused(CauseKind::Ingress),
        with_part(CauseKind::Ingress),
        washed(Washing::PressureWasher),
        used(Use::AllWeather),
        stored(Storage::Outside),
        in_state(plain(), |state| (state.water, state.rust) = (true, true)),
    ];
    assert!(dry.iter().all(|input| !cautions(input).contains(&"wet-battery")));
    let soaked = in_state(plain(), |state| state.battery_is_wet = true);
    assert_eq!(cautions(&soaked), ["wet-battery", "try-before-traffic", "battery-signs"]);
}

#[test]
fn at_most_three_cautions_are_printed_but_for_an_open_danger() {
    let soaked = || in_state(plain(), |state| state.battery_is_wet = true);
    let all = ["wet-battery", "try-before-traffic", "battery-signs", "leave-closed"];
    assert_eq!(advise(&in_danger(soaked(), Hazard::Battery)).cautions, all);
    assert_eq!(advise(&soaked()).cautions, all[..3]);
}

#[test]
fn a_unit_in_danger_is_not_told_how_to_ride() {
    let risky = CareInput {
        used_for: vec![Use::Trail, Use::Cargo, Use::Rental],
        greased: true,
        ..in_danger(caused(CauseKind::Mechanical), Hazard::Ride)
    };
    let care = advise(&risky);
    assert_eq!(
        (care.checks.as_slice(), care.hand_test, care.refit.as_slice()),
        (&[][..], None, &[][..])
    );
    assert!(!care.cautions.contains(&"try-before-traffic"), "{:?}", care.cautions);
    for riding in ["first-sound", "low-gear", "no-deep-water", "tell-riders", "dry-after-wet"] {
        assert!(care.rules.iter().all(|advice| advice.rule != riding), "{riding}");
    }
    assert!(matches!(care.todo()[0], Todo::Danger(danger) if danger.hazard == Hazard::Ride));
    // A battery that must not be charged does not stop anybody from turning the cranks.
    let battery = advise(&in_danger(plain(), Hazard::Battery));
    assert!(battery.hand_test.is_some() && !battery.refit.is_empty());
    assert!(matches!(battery.todo()[0], Todo::Danger(danger) if danger.hazard == Hazard::Battery));
    assert_eq!(battery.todo().len(), 3);
}

#[test]
fn the_card_for_the_first_fit_fits_the_unit_and_goes_only_with_one_that_is_fitted() {
    let card = |input: &CareInput| advise(input).refit;
    let mid = card(&plain());
    let expected = [
        "who-and-torque",
        "mounting-bolts",
        "cranks",
        "chainring",
        "plugs",
        "cables",
        "magnet-gap",
        "wheel-size",
        "first-ten-minutes",
    ];
    assert_eq!(mid, expected);
    let wheel = card(&hub(plain()));
    let expected = [
        "who-and-torque",
        "axle-nuts",
        "wheel-and-brake",
        "plugs",
        "cables",
        "magnet-gap",
        "wheel-size",
        "first-ten-minutes",
    ];
    assert_eq!(wheel, expected);
    for fitted in [ended(Outcome::Exchanged), ended(Outcome::NoFaultFound), declined(Fitness::Worn)]
    {
        assert_eq!(card(&fitted), mid, "{fitted:?}");
    }
    for stays in [
        declined(Fitness::NotFit),
        declined(Fitness::Dead),
        declined(Fitness::NotOpened),
        CareInput { outcome: None, ..plain() },
    ] {
        assert_eq!(card(&stays), [""; 0], "{stays:?}");
    }
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
    assert_eq!(dry.source, Source::CommonPractice);
    let first = care.rules.iter().find(|advice| advice.rule == "first-sound").unwrap();
    assert_eq!((first.because.as_slice(), first.source), (&[][..], Source::CommonPractice));
    let deep = care.rules.iter().find(|advice| advice.rule == "no-deep-water").unwrap();
    let standard = "IEC 60529:1989+AMD1:1999+AMD2:2013, tests IPX4 and IPX7";
    assert_eq!(deep.source, Source::Published(standard));
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
        "send-it-wet",
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
    assert_eq!(rules(&caused(CauseKind::Electrical))[0], "cut-out-note");
    let by_hand = CareInput { washing: Washing::BucketAndSponge, ..caused(CauseKind::Ingress) };
    assert_eq!(rules(&by_hand)[0], "seals-age");
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
            Todo::Danger(danger) => format!("danger {}", danger.hazard.word()),
            Todo::Advice(advice) => {
                assert!(!beyond.contains(&advice.rule), "{} twice", advice.rule);
                advice.rule.to_owned()
            }
            Todo::HandTest { date, .. } => format!("hand-test by {date}"),
            Todo::Fastenings { date } => format!("fastenings by {date}"),
        };
        let advice = todo.iter().filter(|one| matches!(one, Todo::Advice(_))).count();
        assert_eq!(advice + beyond.len(), care.rules.len());
        todo.iter().map(name).collect()
    };
    // What is due first comes first: the hand test after 80 km and two weeks, the screws in a month.
    let jet = washed(Washing::PressureWasher);
    let expected = ["no-jet", "hand-test by 2026-03-25", "fastenings by 2026-04-11"];
    assert_eq!(names(&jet), expected);
    let faultless = ended(Outcome::NoFaultFound);
    let expected = ["look-elsewhere", "fastenings by 2026-04-11", "hand-test by 2026-04-11"];
    assert_eq!(names(&faultless), expected);
    let back = in_state(declined(Fitness::NotFit), |state| state.rust = true);
    assert_eq!(names(&back), ["do-not-ride", "rust-goes-on", "hand-in-as-waste"]);
    assert_eq!(names(&declined(Fitness::Worn)), ["mend-soon"]);
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
    let input = CareInput::of(&fields, &[]);
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
        CareInput::of(&fields, &[]).greased
    };
    assert!(!greased("decision: {chose: overhaul}\nwork: {labour: 150 min}\n"));
    assert!(greased("decision: {chose: overhaul}\nwork: {grease: lithium complex}\n"));
    assert!(!greased("decision: {chose: single-bearing}\nwork: {grease: lithium complex}\n"));
}
