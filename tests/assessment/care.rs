//! Care advice: what the modules here build their riders from.

/// Days and distances from a rider's pace.
mod pace;
/// Which rule fires for whom.
mod rules;
/// When checks are due.
mod schedule;
/// The table and the words for it.
mod table;

use chrono::NaiveDate;
use splitcase::assessment::care::input::CareInput;
use splitcase::assessment::care::pace::{NoPace, Pace};
use splitcase::assessment::care::schedule::NextCheck;
use splitcase::assessment::care::{Care, advise};
use splitcase::diagnostic::Problems;
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::vocabulary::{Outcome, Storage, UnitKind, Washing};
use splitcase::sheet::{read, read_profile};

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap_or_else(|_| panic!("{text} is no day"))
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
        greased: false,
        ridden: None,
        from: Some(day("2026-03-11")),
        pace: Err(NoPace::TooFewPoints),
    }
}

/// A pace of so many kilometres in a hundred days.
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
