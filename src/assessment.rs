//! The assessment stage: what follows from a sheet and its photos.
//!
//! In: [`Sheet`] and [`Workshop`]; out: [`Assessment`]. A value that cannot be computed is absent with
//! its reason; nothing is guessed and nothing is worded here.

pub mod cost;
pub mod problems;

use crate::diagnostic::Problems;
use crate::sheet::{Sheet, Workshop};
use cost::Bill;

/// What follows from a sheet.
pub struct Assessment {
    /// What is charged, where the sheet and the rate card tell.
    pub bill: Option<Bill>,
}

/// Assesses a job.
pub fn assess(sheet: &Sheet, workshop: &Workshop, problems: &mut Problems) -> Assessment {
    Assessment { bill: cost::bill(sheet, workshop, problems) }
}
