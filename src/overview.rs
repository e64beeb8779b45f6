//! What a workshop learns from its closed jobs: causes, distances, repairs that held, costs, days.
//!
//! ```text
//! sheets ─► cases ─► learned ─► table (JSON, CSV), paper
//! ```
//!
//! In: job folders, or the newest bags of an archive; out: an [`learned::Overview`]. Sheets alone are read.
//! Nothing that names a person, a unit or a job goes further than `case`.

pub mod case;
mod curve;
pub mod held;
pub mod learned;
pub mod likelihood;
pub mod paper;
pub mod quartiles;
pub mod scores;
pub mod share;
pub mod survival;
pub mod table;
pub mod weibull;

use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::assessment::cause::scores::HouseScore;
use crate::standing::sheets::Sheets;
use crate::workers;
use case::Case;
use learned::Overview;

/// What the jobs of these folders say together. A job that comes twice counts once.
///
/// The scores in force are compared with them if they are given.
pub fn of(
    folders: &[PathBuf],
    sheets: &Sheets,
    scores: Option<&[HouseScore]>,
    threads: usize,
) -> Overview {
    let read = workers::map(threads, folders.len(), |at| {
        let (sheet, profile) = sheets.read(&folders[at]).ok()?;
        Some((sheet.fields.job.0.to_lowercase(), Case::of(&sheet, profile)))
    });
    let (mut open, mut unread, mut cases) = (0, 0, Vec::new());
    let mut known = BTreeSet::new();
    for one in read {
        match one {
            None => unread += 1,
            Some((number, _)) if !known.insert(number.clone()) => {}
            Some((_, None)) => open += 1,
            Some((_, Some(case))) => cases.push(case),
        }
    }
    learned::learn(cases, open, unread, scores)
}
