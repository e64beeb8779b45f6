//! What the templates see of a record: tables, readings and plates, as an assessor reads them.
//!
//! Not here: what is in them (`document/sections/record` and `sections/bench/record.rs`).

use serde::Serialize;

use super::PhotoView;
use super::fact::Fact;

/// A table of words with its heading.
#[derive(Debug, Serialize)]
pub struct Ledger {
    /// The heading.
    pub heading: String,
    /// Paragraphs before it.
    pub text: Vec<String>,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// What each column holds: `words`, `wide` (more of them), `brief` (never broken) or `digest`; as many as heads.
    pub holds: Vec<&'static str>,
    /// Its rows; the first cell names the row.
    pub rows: Vec<Vec<String>>,
}

/// The readings of one figure: as read, what they come to, and how that is known.
#[derive(Debug, Serialize)]
pub struct ReadingRecord {
    /// What was measured, and of which of several.
    pub label: String,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// One row before and one after the work, as far as there are readings.
    pub rows: Vec<Vec<String>>,
    /// Limit, method, circumstances, remarks.
    pub facts: Vec<Fact>,
}

/// Every reading of a job.
#[derive(Debug, Serialize)]
pub struct Readings {
    /// The heading.
    pub heading: String,
    /// How to read them.
    pub text: Vec<String>,
    /// One record a figure.
    pub records: Vec<ReadingRecord>,
}

/// The weighing of the cause, sign by sign.
#[derive(Debug, Serialize)]
pub struct SignRecord {
    /// The heading.
    pub heading: String,
    /// Whose words the paragraphs are.
    pub label: String,
    /// What is said of the cause.
    pub text: Vec<String>,
    /// Signs for it, against it, beside it, looked for and absent; as far as there are some.
    pub groups: Vec<Ledger>,
    /// What was not examined, and other remarks.
    pub notes: Vec<Fact>,
}

/// A photo on its plate.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Plate {
    /// `Photo 3 of 14`.
    pub number: String,
    /// The picture with its marks; its caption says what it shows, once for each place of the sheet
    /// that names it.
    pub photo: PhotoView,
    /// Name, time, camera, size and what else is known of the file.
    pub facts: Vec<Fact>,
    /// What the digits are.
    pub digest_label: String,
    /// SHA-256 of the original in groups, line by line.
    pub digest: Vec<String>,
}

/// Every photo of a job, each large.
#[derive(Debug, Serialize)]
pub struct Plates {
    /// The heading.
    pub heading: String,
    /// Paragraphs before them.
    pub text: Vec<String>,
    /// The plates, in the order of their numbers.
    pub plates: Vec<Plate>,
}
