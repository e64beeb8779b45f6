//! The papers: one row each, with its name, when it is due, and what its template sees.
//!
//! In: a job, or the photos of a folder; out: the data of a template. Setting it is `print`.

pub mod photo_sheet;
pub mod return_report;

use serde::Serialize;

use super::refusal::Refusal;
use super::typeset;
use super::writer::Writer;
use crate::failure::Failure;
use crate::sheet::findings::FindingsSheet;

/// A paper.
#[derive(Debug)]
pub struct Paper {
    /// Name of its template and of its PDF, without their endings.
    pub name: &'static str,
    /// What it is made from.
    pub made_from: MadeFrom,
}

/// What a paper is made from, and how: the data that its template reads, as JSON.
#[derive(Clone, Copy, Debug)]
pub enum MadeFrom {
    /// A job: when it is due, and its sections.
    Job {
        /// True for sheets that owe the customer this paper.
        is_due: fn(&FindingsSheet) -> bool,
        /// The data.
        data: fn(&Writer<'_>) -> Result<Vec<u8>, Refusal>,
    },
    /// The photos of a folder, when it is asked for: see [`photo_sheet`].
    Folder,
}

/// The contact sheet.
pub const PHOTO_SHEET: Paper = Paper { name: "photo-sheet", made_from: MadeFrom::Folder };

/// Every paper.
pub const PAPERS: &[Paper] = &[
    Paper {
        name: "return-report",
        made_from: MadeFrom::Job {
            is_due: |_| true,
            data: |writer| json(&return_report::view(writer)?),
        },
    },
    PHOTO_SHEET,
];

impl Paper {
    /// Name of its file.
    pub fn file_name(&self) -> String {
        format!("{}.pdf", self.name)
    }
}

/// Writes the data of every paper that a job owes, without setting it.
///
/// # Errors
/// Problems in wordings.
pub fn try_all(writer: &Writer<'_>) -> Result<(), Refusal> {
    for paper in PAPERS {
        if let MadeFrom::Job { is_due, data } = paper.made_from
            && is_due(writer.fields())
        {
            data(writer)?;
        }
    }
    Ok(())
}

/// The data of a template.
pub(super) fn json(view: &impl Serialize) -> Result<Vec<u8>, Refusal> {
    let failed = |error| Failure::new("hand the job to the templates", error);
    let mut data = serde_json::to_value(view).map_err(failed)?;
    typeset::all(&mut data);
    serde_json::to_vec(&data).map_err(|error| failed(error).into())
}
