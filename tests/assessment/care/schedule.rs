//! When checks are due: the earlier of distance and calendar, sooner for harsher use.

use chrono::{Days, Months, NaiveDate};
use rust_decimal::Decimal;
use splitcase::assessment::care::advise;
use splitcase::assessment::care::fact::Aspect;
use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::pace::NoPace;
use splitcase::assessment::care::reason::Reason;
use splitcase::assessment::care::schedule::{Applying, Basis, Interval, NextCheck, Span, reasons};
use splitcase::sheet::vocabulary::{CauseKind, Outcome, Storage, Use, Washing};

use super::{check, day, in_hundred_days, plain, sheet};

fn of(input: CareInput, kind: &str) -> NextCheck {
    check(&advise(&input), kind)
}

fn words(reasons: &[Reason]) -> Vec<&'static str> {
    reasons.iter().map(|reason| reason.word).collect()
}

fn kinds(input: CareInput) -> Vec<(&'static str, NaiveDate)> {
    advise(&input).checks.iter().map(|check| (check.kind, check.date.unwrap())).collect()
}

#[test]
fn without_a_pace_the_days_follow_from_the_calendar() {
    let expected = [
        // On the same day, but the first after 100 km and the second after 300.
        ("fastenings", day("2026-04-11")),
        ("hand-test", day("2026-04-11")),
        ("workshop-look", day("2026-09-11")),
        ("fresh-grease", day("2028-03-11")),
    ];
    let input = CareInput { greased: true, ..plain() };
    assert_eq!(kinds(input.clone()), expected);
    assert!(advise(&input).checks.iter().all(|check| check.basis == Basis::Calendar));
    assert_eq!(advise(&input).pace, Err(NoPace::TooFewPoints));
}

#[test]
fn a_pace_brings_a_day_forward_and_never_back() {
    let at = |km: u32| {
        let found = of(CareInput { pace: Ok(in_hundred_days(km)), ..plain() }, "hand-test");
        (found.date.unwrap(), found.basis)
    };
    // 300 km: at 8 km a day 37 days, which the month undercuts; at 12 km 25 days, so 3 weeks.
    assert_eq!(at(800), (day("2026-04-11"), Basis::Calendar));
    assert_eq!(at(1200), (day("2026-04-01"), Basis::Pace));
    assert_eq!(at(1), (day("2026-04-11"), Basis::Calendar));
}

#[test]
fn no_day_is_ever_later_than_its_calendar_interval() {
    let usual = advise(&CareInput { greased: true, ..plain() });
    for km in [1, 10, 99, 100, 700, 800, 2500, 14_999] {
        for ridden in [None, Some(Decimal::from(12_000))] {
            let pace = Ok(in_hundred_days(km));
            let found = advise(&CareInput { greased: true, pace, ridden, ..plain() });
            for kind in ["hand-test", "fastenings", "workshop-look", "fresh-grease"] {
                let (sooner, usual) = (check(&found, kind), check(&usual, kind));
                assert!(sooner.date <= usual.date, "{kind} at {km} km in a hundred days");
                assert!(Some(day("2026-03-11")) < sooner.date, "{kind} at {km}");
            }
        }
    }
}

#[test]
fn a_unit_under_a_jet_is_checked_well_before_it_can_be_ruined() {
    let jet = CareInput { washing: Washing::PressureWasher, ..plain() };
    let least_ruin = Decimal::new(1_609_344, 4);
    for outcome in [Outcome::Repaired, Outcome::Exchanged, Outcome::NoFaultFound] {
        let found = of(CareInput { outcome: Some(outcome), ..jet.clone() }, "hand-test");
        assert!(found.after * Decimal::TWO <= least_ruin, "{}", outcome.word());
        assert_eq!(found.date, Some(day("2026-03-25")));
        assert_eq!(words(&found.because), ["pressure-washer"]);
    }
    for km_a_day in 1..=80_u32 {
        let pace = Ok(in_hundred_days(km_a_day * 100));
        let found = of(CareInput { pace, ..jet.clone() }, "hand-test");
        let days = (found.date.unwrap() - day("2026-03-11")).num_days();
        assert!(Decimal::from(days) * Decimal::from(km_a_day) <= 80.into(), "{km_a_day} km a day");
    }
    let found = of(CareInput { pace: Ok(in_hundred_days(800)), ..jet }, "hand-test");
    assert_eq!((found.date, found.basis), (Some(day("2026-03-18")), Basis::Pace));
    let every = Interval { km: 150.into(), span: Span::Months(1) };
    assert_eq!(found.every, Some(every));
}

#[test]
fn harsher_use_shortens_with_its_reason_and_the_usual_has_none() {
    let used = |one: Use| CareInput { used_for: vec![one], greased: true, ..plain() };
    let usual = of(plain(), "workshop-look");
    assert_eq!((usual.after, words(&usual.because)), (1500.into(), vec![]));
    let cargo = of(used(Use::Cargo), "workshop-look");
    assert_eq!((cargo.after, words(&cargo.because)), (1000.into(), vec!["cargo"]));
    assert_eq!(cargo.date, Some(day("2026-07-11")));
    let rental = of(used(Use::Rental), "hand-test");
    assert_eq!((rental.date, words(&rental.because)), (Some(day("2026-03-18")), vec!["rental"]));
    let grease = of(used(Use::AllWeather), "fresh-grease");
    assert_eq!(
        (grease.date, words(&grease.because)),
        (Some(day("2027-03-11")), vec!["all-weather"])
    );
    let road = of(used(Use::Road), "hand-test");
    assert_eq!((road.after, words(&road.because)), (300.into(), vec![]));
}

#[test]
fn a_reason_that_another_one_overtakes_is_not_printed() {
    let input = CareInput {
        used_for: vec![Use::AllWeather],
        washing: Washing::PressureWasher,
        cause: Some(CauseKind::Ingress),
        ..plain()
    };
    // All weathers ask for 200 km, water inside for 100 km and two weeks, the jet for 80 km.
    let found = of(input, "hand-test");
    assert_eq!(found.after, Decimal::from(80));
    assert_eq!(words(&found.because), ["pressure-washer", "ingress"]);
}

#[test]
fn a_row_that_only_shares_the_usual_distance_or_time_is_no_reason() {
    let row = |word: Option<&'static str>, km: u32, weeks: u32| Applying {
        because: word.map(|word| Reason { aspect: Aspect::Use, word }).into_iter().collect(),
        next: Interval { km: km.into(), span: Span::Weeks(weeks) },
    };
    let found = |rows: &[Applying], km: u32, weeks: u32| {
        words(&reasons(rows, Interval { km: km.into(), span: Span::Weeks(weeks) }))
    };
    let nearer = [row(None, 300, 4), row(Some("trail"), 250, 4), row(Some("cargo"), 200, 4)];
    assert_eq!(found(&nearer, 200, 4), ["cargo"]);
    let sooner = [row(None, 300, 4), row(Some("trail"), 300, 3), row(Some("cargo"), 300, 2)];
    assert_eq!(found(&sooner, 300, 2), ["cargo"]);
    let both = [row(None, 300, 4), row(Some("trail"), 300, 3), row(Some("cargo"), 200, 4)];
    assert_eq!(found(&both, 200, 3), ["trail", "cargo"]);
}

#[test]
fn a_cause_that_was_not_settled_is_looked_at_sooner() {
    let open = CareInput { cause: Some(CauseKind::Undetermined), ..plain() };
    assert_eq!(of(open.clone(), "workshop-look").date, Some(day("2026-06-11")));
    assert_eq!(of(open, "hand-test").date, Some(day("2026-03-25")));
    let settled = CareInput { cause: Some(CauseKind::Electrical), ..plain() };
    assert_eq!(of(settled, "workshop-look").date, Some(day("2026-09-11")));
}

#[test]
fn months_end_on_the_last_day_where_the_month_has_no_such_day() {
    let from = |text: &str, kind: &str| {
        of(CareInput { from: Some(day(text)), greased: true, ..plain() }, kind).date.unwrap()
    };
    assert_eq!(from("2024-02-29", "fresh-grease"), day("2026-02-28"));
    assert_eq!(from("2024-02-29", "hand-test"), day("2024-03-29"));
    assert_eq!(from("2024-01-31", "hand-test"), day("2024-02-29"));
    assert_eq!(from("2025-01-31", "hand-test"), day("2025-02-28"));
    assert_eq!(from("2025-08-31", "workshop-look"), day("2026-02-28"));
}

#[test]
fn at_the_end_of_the_calendar_there_is_no_day_and_no_panic() {
    let last = CareInput { from: Some(NaiveDate::MAX), ..plain() };
    assert!(advise(&last).checks.iter().all(|check| check.date.is_none()));
    let none = CareInput { from: None, pace: Ok(in_hundred_days(800)), ..plain() };
    let checks = advise(&none).checks;
    assert!(checks.iter().all(|check| check.date.is_none() && check.basis == Basis::Calendar));
    let near = NaiveDate::MAX.checked_sub_days(Days::new(40)).unwrap();
    let found = of(CareInput { from: Some(near), ..plain() }, "hand-test");
    assert_eq!(found.date, near.checked_add_months(Months::new(1)));
}

#[test]
fn the_reading_on_the_display_is_named_where_it_is_the_units_own() {
    let ridden = CareInput { ridden: Some(Decimal::from(2000)), ..plain() };
    assert_eq!(of(ridden.clone(), "hand-test").odometer, Some(Decimal::from(2300)));
    assert_eq!(of(plain(), "hand-test").odometer, None);
    let exchanged = CareInput { outcome: Some(Outcome::Exchanged), ..ridden.clone() };
    assert_eq!(of(exchanged, "hand-test").odometer, None);
    let huge = CareInput { ridden: Some(Decimal::MAX), ..ridden };
    assert_eq!(of(huge, "hand-test").odometer, None);
}

#[test]
fn grease_is_counted_only_from_a_day_on_which_it_was_put_in() {
    let has =
        |input: &CareInput| advise(input).checks.iter().any(|check| check.kind == "fresh-grease");
    assert!(has(&CareInput { greased: true, ..plain() }));
    assert!(!has(&plain()));
    let exchanged = Some(Outcome::Exchanged);
    assert!(!has(&CareInput { greased: true, outcome: exchanged, ..plain() }));
}

#[test]
fn checks_that_are_done_once_say_so() {
    assert_eq!(of(plain(), "fastenings").every, None);
    let every = Interval { km: 300.into(), span: Span::Months(1) };
    assert_eq!(of(plain(), "hand-test").every, Some(every));
    let weekly = of(CareInput { used_for: vec![Use::Rental], ..plain() }, "hand-test").every;
    assert_eq!(weekly, Some(Interval { km: 100.into(), span: Span::Weeks(1) }));
}

#[test]
fn checks_stand_in_the_order_of_their_days() {
    let input = CareInput {
        used_for: vec![Use::Cargo],
        storage: Storage::Outside,
        pace: Ok(in_hundred_days(1500)),
        greased: true,
        ..plain()
    };
    // At 15 km a day: 50 km in 3 days; 200 km in 13, so one week; 1000 km in 66, so 9 weeks.
    let expected = [
        ("fastenings", day("2026-03-14")),
        ("hand-test", day("2026-03-18")),
        ("workshop-look", day("2026-05-13")),
        // 4000 km in 266 days, so 38 weeks.
        ("fresh-grease", day("2026-12-02")),
    ];
    assert_eq!(kinds(input), expected);
}

#[test]
fn a_whole_sheet_gives_days_and_readings() {
    let fields = sheet(
        "job: QB-1\ncustomer: {name: Elin Varga}\n\
         unit: {kind: mid-drive, ridden: 1840 mi, washed-with: pressure-washer}\n\
         arrival: {date: 2026-03-02, noticed: {date: 2025-12-20, sign: noise, at: 1410 mi}}\n\
         outcome: repaired\nreturned: 2026-03-11\n",
    );
    let found = of(CareInput::of(&fields, &[]), "hand-test");
    // 430 mi in 72 days are 9.6 km a day: 80 km take 8 days, so one week.
    assert_eq!((found.date, found.basis), (Some(day("2026-03-18")), Basis::Pace));
    // 1840 mi are 2961.19296 km.
    assert_eq!(found.odometer, Some(Decimal::new(304_119_296, 5)));
}
