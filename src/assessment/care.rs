//! Care advice for one rider: what to do, what to check next and when, what to be careful of.
//!
//! In: [`CareInput`], what a sheet tells of cause, use and habits; out: [`Care`], in names and
//! figures. The rules stand in `care/rules.yaml`; the words that a customer reads are not here.

pub mod input;
pub mod pace;
pub mod reason;
pub mod schedule;
pub mod table;
pub mod todo;

use crate::sheet::vocabulary::UnitKind;
use input::CareInput;
use pace::{NoPace, Pace};
use reason::Reason;
use schedule::NextCheck;
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
    /// a hub. `None` where the unit is not to be ridden.
    pub hand_test: Option<UnitKind>,
    /// Names of the cautions, in the order in which they are printed.
    pub cautions: Vec<&'static str>,
}

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

/// The care advice of one job; the same for the same input, whatever the order of its lists.
pub fn advise(input: &CareInput) -> Care {
    let mut rows: Vec<&'static Row> = TABLE.advice.iter().collect();
    rows.sort_by_key(|row| row.rank);
    let advice = |row: &'static Row| {
        let because = row.applies_to(input)?;
        Some(Advice { rule: &row.name, because, source: Source::of(row) })
    };
    let cautions = TABLE.cautions.iter().filter(|row| row.applies_to(input).is_some());
    let checks = schedule::checks(input);
    let has_hand_test = checks.iter().any(|check| check.kind == schedule::HAND_TEST);
    Care {
        rules: rows.into_iter().filter_map(advice).collect(),
        checks,
        pace: input.pace.clone(),
        hand_test: has_hand_test.then_some(input.kind.family()),
        cautions: cautions.map(|row| row.name.as_str()).collect(),
    }
}
