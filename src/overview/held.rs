//! Which repairs held: units that came back with something failed, by the kind of work done before.
//!
//! In: cases in the order of their arrival; out: a row for each kind. A repair whose unit has no serial
//! number cannot be followed and is not counted.

use std::collections::BTreeMap;

use serde::Serialize;

use super::case::Case;
use super::quartiles::Quartiles;
use super::share::Share;
use crate::sheet::vocabulary::Outcome;

/// What became of the repairs of a kind.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Held {
    /// A word of the sheet: `overhaul`.
    pub kind: String,
    /// Repairs, and units that came back with something failed.
    pub came_back: Share,
    /// Days from the return of those to their next arrival.
    pub days: Option<Quartiles>,
}

/// The kinds of repairs, in the order of the alphabet. `cases` are in the order of their arrival.
pub fn held(cases: &[Case]) -> Vec<Held> {
    let mut kinds: BTreeMap<&'static str, Vec<Option<f64>>> = BTreeMap::new();
    for (at, case) in cases.iter().enumerate() {
        let is_repair = matches!(case.outcome, Outcome::Repaired | Outcome::Exchanged);
        let (Some(unit), Some(returned), true) = (&case.went, case.returned, is_repair) else {
            continue;
        };
        let next =
            cases[at + 1..].iter().find(|next| next.came.as_ref() == Some(unit) && next.failed);
        let days = next.map(|next| (next.arrived - returned).num_days().max(0) as f64);
        kinds.entry(case.kind.unwrap_or(case.outcome.word())).or_default().push(days);
    }
    let row = |(kind, repairs): (&'static str, Vec<Option<f64>>)| {
        let days: Vec<f64> = repairs.iter().flatten().copied().collect();
        let came_back = Share::of(days.len(), repairs.len())?;
        Some(Held { kind: kind.to_owned(), came_back, days: Quartiles::of(&days) })
    };
    kinds.into_iter().filter_map(row).collect()
}
