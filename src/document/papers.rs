//! The papers: one row each, with its name, the stage of a job that it belongs to, what it still lacks,
//! and what its template sees.
//!
//! In: a job, or the photos of a folder; out: the data of a template. Setting it is `print`; which of
//! them a run makes is `choice`.

pub mod arrival_note;
pub mod asked;
pub mod choice;
pub mod due;
pub mod earlier;
pub mod evidence_file;
pub mod options_letter;
pub mod photo_sheet;
pub mod progress;
pub mod return_report;
pub mod state;
pub mod written;

use serde::Serialize;

use super::clauses::Slot;
use super::refusal::Refusal;
use super::typeset;
use super::writer::Writer;
use crate::failure::Failure;
use crate::sheet::findings::FindingsSheet;
use due::Stage;

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
    /// A job.
    Job {
        /// The stage at which it is due. A later stage has it behind it: it was issued then.
        at: Stage,
        /// The fields that it cannot be made without, as they are typed; none if it can be made.
        lacks: fn(&FindingsSheet) -> Vec<&'static str>,
        /// What its covering message says of it.
        message: Slot,
        /// The data.
        data: fn(&Writer<'_>) -> Result<Vec<u8>, Refusal>,
    },
    /// The photos of a folder, when it is asked for: see [`photo_sheet`].
    Folder,
}

/// The paper that has a phone edition and carries the calendar of next checks.
pub const RETURN_REPORT: &str = "return-report";

/// The contact sheet.
pub const PHOTO_SHEET: Paper = Paper { name: "photo-sheet", made_from: MadeFrom::Folder };

/// What the closed jobs of a workshop say.
pub const OVERVIEW: Paper = Paper { name: "overview", made_from: MadeFrom::Folder };

/// Every paper, those of a job in the order in which they fall due.
pub const PAPERS: &[Paper] = &[
    Paper {
        name: "arrival-note",
        made_from: MadeFrom::Job {
            at: Stage::Arrived,
            lacks: due::nothing,
            message: Slot::MessageArrivalNote,
            data: |writer| json(&arrival_note::view(writer)?),
        },
    },
    Paper {
        name: "options-letter",
        made_from: MadeFrom::Job {
            at: Stage::Offered,
            lacks: due::options,
            message: Slot::MessageOptionsLetter,
            data: |writer| json(&options_letter::view(writer)?),
        },
    },
    Paper {
        name: RETURN_REPORT,
        made_from: MadeFrom::Job {
            at: Stage::Closed,
            lacks: due::outcome,
            message: Slot::MessageReturnReport,
            data: |writer| json(&return_report::view(writer)?),
        },
    },
    Paper {
        name: "evidence-file",
        made_from: MadeFrom::Job {
            at: Stage::Closed,
            lacks: due::nothing,
            message: Slot::MessageEvidenceFile,
            data: |writer| json(&evidence_file::view(writer)?),
        },
    },
    PHOTO_SHEET,
];

impl Paper {
    /// Name of its file.
    pub fn file_name(&self) -> String {
        format!("{}.pdf", self.name)
    }

    /// True if a sheet owes the customer this paper now.
    pub fn is_due(&self, sheet: &FindingsSheet) -> bool {
        matches!(self.made_from, MadeFrom::Job { at, .. } if at == due::stage(sheet))
            && self.lacks(sheet).is_empty()
    }

    /// True if this paper comes later in the job.
    pub fn is_ahead(&self, sheet: &FindingsSheet) -> bool {
        matches!(self.made_from, MadeFrom::Job { at, .. } if due::stage(sheet) < at)
    }

    /// The fields that it cannot be made without; none if it can be made, due or not.
    pub fn lacks(&self, sheet: &FindingsSheet) -> Vec<&'static str> {
        match self.made_from {
            MadeFrom::Job { lacks, .. } => lacks(sheet),
            MadeFrom::Folder => Vec::new(),
        }
    }

    /// The place of the table of clauses that holds what a covering message says of it; `None` if no
    /// job gives it.
    pub fn message(&self) -> Option<Slot> {
        match self.made_from {
            MadeFrom::Job { message, .. } => Some(message),
            MadeFrom::Folder => None,
        }
    }

    /// The stage whose fields it is made from; `None` if that is the whole sheet.
    pub fn stage(&self) -> Option<Stage> {
        match self.made_from {
            MadeFrom::Job { at, .. } if at < Stage::Closed => Some(at),
            MadeFrom::Job { .. } | MadeFrom::Folder => None,
        }
    }

    /// The data of its template.
    ///
    /// # Errors
    /// Problems in wordings, or a paper that no job gives.
    pub fn data(&self, writer: &Writer<'_>) -> Result<Vec<u8>, Refusal> {
        match self.made_from {
            MadeFrom::Job { data, .. } => data(writer),
            MadeFrom::Folder => {
                Err(Failure::new(format!("make the paper `{}`", self.name), "no job gives it")
                    .into())
            }
        }
    }
}

/// The papers that jobs give, in the order in which they fall due.
pub fn of_jobs() -> impl Iterator<Item = &'static Paper> {
    PAPERS.iter().filter(|paper| matches!(paper.made_from, MadeFrom::Job { .. }))
}

/// The data of a template.
pub(super) fn json(view: &impl Serialize) -> Result<Vec<u8>, Refusal> {
    let failed = |error| Failure::new("write the job for the templates", error);
    let mut data = serde_json::to_value(view).map_err(failed)?;
    typeset::all(&mut data);
    serde_json::to_vec(&data).map_err(|error| failed(error).into())
}
