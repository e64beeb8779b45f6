//! Care advice: what the modules here build their riders from.

/// Days and distances from a rider's pace.
mod pace;
/// Order, reasons, cautions, the card and page 1.
mod rules;
/// When checks are due.
mod schedule;
/// In which state the unit goes back.
mod state;
/// The table and the words for it.
mod table;
/// For whom each piece of advice fires.
mod whom;

use chrono::NaiveDate;
use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::pace::{NoPace, Pace};
use splitcase::assessment::care::schedule::NextCheck;
use splitcase::assessment::care::state::{Danger, Fitness, Hazard, State};
use splitcase::assessment::care::{Care, advise};
use splitcase::diagnostic::Problems;
use splitcase::sheet::catalogue::Sign;
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::vocabulary::{CauseKind, Outcome, Storage, UnitKind, Use, Washing};
use splitcase::sheet::{read, read_profile};

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap_or_else(|_| panic!("{text} is not a day"))
}

/// A repaired mid-drive of a rider about whom nothing asks for more than the usual.
fn plain() -> CareInput {
    CareInput {
        kind: UnitKind::MidDrive,
        outcome: Some(Outcome::Repaired),
        cause: None,
        contributing: Vec::new(),
        used_for: Vec::new(),
        washing: Washing::BucketAndSponge,
        storage: Storage::Indoors,
        state: State::default(),
        posted: false,
        mendable: true,
        greased: false,
        ridden: None,
        from: Some(day("2026-03-11")),
        pace: Err(NoPace::TooFewPoints),
    }
}

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

fn in_state(input: CareInput, change: impl FnOnce(&mut State)) -> CareInput {
    let mut state = input.state.clone();
    change(&mut state);
    CareInput { state, ..input }
}

/// The sheet went back as it came, and so fit to ride.
fn declined(fitness: Fitness) -> CareInput {
    in_state(ended(Outcome::ReturnedUnrepaired), |state| state.fitness = fitness)
}

fn in_danger(input: CareInput, hazard: Hazard) -> CareInput {
    in_state(input, |state| state.dangers.push(Danger { sign: Sign::default(), hazard }))
}

/// A pace of this many kilometres in a hundred days.
fn in_hundred_days(km: u32) -> Pace {
    Pace { km: km.into(), days: 100 }
}

fn rules(input: &CareInput) -> Vec<&'static str> {
    advise(input).rules.iter().map(|advice| advice.rule).collect()
}

fn check(care: &Care, kind: &str) -> NextCheck {
    let found = care.checks.iter().find(|check| check.kind == kind);
    found.unwrap_or_else(|| panic!("no check {kind}")).clone()
}

/// A sheet; what is wrong with it is judged elsewhere.
fn sheet(text: &str) -> FindingsSheet {
    let mut problems = Problems::default();
    let profile = "name: Quarrow Drive Bench\ncurrency: GBP\n";
    let workshop = read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    read("findings.yaml", text.as_bytes(), &workshop, &mut problems).unwrap().fields
}

/// A sheet with more of its unit and of its arrival on 2 March 2026.
fn booked(unit: &str, arrival: &str) -> FindingsSheet {
    sheet(&format!(
        "job: QB-1\ncustomer: {{name: Elin Varga}}\nunit: {{kind: mid-drive{unit}}}\n\
         arrival: {{date: 2026-03-02{arrival}}}\n"
    ))
}
