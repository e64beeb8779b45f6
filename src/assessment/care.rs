//! Care advice for one rider: what to do, what to check next and when, what to be careful of.
//!
//! In: [`CareInput`], what a sheet says of cause, use and habits; out: [`Care`], in names and
//! figures. The rules are in `care/rules.yaml`; the words that a customer reads are not here.

pub mod fact;
pub mod input;
pub mod pace;
pub mod reason;
pub mod schedule;
pub mod state;
pub mod table;
pub mod todo;

use crate::sheet::vocabulary::{Outcome, UnitKind};
use input::CareInput;
use pace::{NoPace, Pace};
use reason::Reason;
use schedule::NextCheck;
use state::{Danger, Fitness};
use table::{Row, Source, TABLE};

/// The care section of one job.
#[derive(Clone, Debug, PartialEq)]
pub struct Care {
    /// Advice, the most important first.
    pub rules: Vec<Advice>,
    /// Next checks, the earliest first; of one day the one that comes after fewer kilometres.
    pub checks: Vec<NextCheck>,
    /// The rider's pace that the days were computed with, or why there is none.
    pub pace: Result<Pace, NoPace>,
    /// The kind of unit that the hand test is explained for: the cranks of a mid-drive, the wheel of
    /// a hub. `None` if the unit is not to be ridden.
    pub hand_test: Option<UnitKind>,
    /// True if the unit came in a parcel, so that a dealer near the owner makes the checks.
    pub posted: bool,
    /// Signs that can hurt somebody, on parts that go back as they were found.
    pub dangers: Vec<Danger>,
    /// Whether the unit may be ridden as it goes back.
    pub fitness: Fitness,
    /// Names of what is checked when the unit is fitted; empty if it is not to be fitted.
    pub refit: Vec<&'static str>,
    /// Names of the cautions, in the order in which they are printed: at most three, or all of
    /// them if a danger is open.
    pub cautions: Vec<&'static str>,
}

/// Cautions on a report without an open danger; more of them are not read.
const MOST_CAUTIONS: usize = 3;

/// One piece of advice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// Its name in the table and in the wordings.
    pub rule: &'static str,
    /// What of this job asks for it; empty for advice that every such job gets.
    pub because: Vec<Reason>,
    /// What it rests on.
    pub source: Source,
}

/// True if the unit goes back to be fitted and ridden.
fn is_fitted(input: &CareInput) -> bool {
    let is_rideable = matches!(input.state.fitness, Fitness::Fit | Fitness::Worn);
    match input.outcome {
        Some(Outcome::ReturnedUnrepaired) => is_rideable,
        Some(_) => !input.state.forbids_riding(),
        None => false,
    }
}

/// The care advice of one job; the same for the same input, whatever the order of its lists.
pub fn advise(input: &CareInput) -> Care {
    let mut rows: Vec<&'static Row> = TABLE.advice.iter().collect();
    rows.sort_by_key(|row| row.rank);
    let advice = |row: &'static Row| {
        let because = row.applies_to(input)?;
        Some(Advice { rule: &row.name, because, source: Source::of(row) })
    };
    let names = |rows: &'static [Row], most: usize| {
        let rows = rows.iter().filter(|row| row.applies_to(input).is_some());
        rows.map(|row| row.name.as_str()).take(most).collect()
    };
    let most = if input.state.dangers.is_empty() { MOST_CAUTIONS } else { usize::MAX };
    let checks = schedule::checks(input);
    let has_hand_test = checks.iter().any(|check| check.kind == schedule::HAND_TEST);
    Care {
        rules: rows.into_iter().filter_map(advice).collect(),
        checks,
        pace: input.pace.clone(),
        hand_test: has_hand_test.then_some(input.kind.family()),
        posted: input.posted,
        dangers: input.state.dangers.clone(),
        fitness: input.state.fitness,
        refit: if is_fitted(input) { names(&TABLE.refit, usize::MAX) } else { Vec::new() },
        cautions: names(&TABLE.cautions, most),
    }
}
