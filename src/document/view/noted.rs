//! What templates see of the notes of a job.
//!
//! Not here: which fields these are (`sheet/findings.rs`), and how they are gathered.

use serde::Serialize;

use super::fact::Fact;

/// What the sheet says beside the sections, as typed.
#[derive(Debug, Serialize)]
pub struct Noted {
    /// The heading.
    pub heading: String,
    /// One group a block of the sheet.
    pub groups: Vec<NotedGroup>,
}

/// The notes of one block of the sheet.
#[derive(Debug, Serialize)]
pub struct NotedGroup {
    /// Which block.
    pub heading: String,
    /// Labels with values.
    pub facts: Vec<Fact>,
}
