//! What is recorded of a job's papers: by it a later run knows what is ours and what has not changed.
//!
//! In: what was made; out: the shape of `.splitcase/JOB.KIND.json`. Reading and writing it is `output`.

use serde::{Deserialize, Serialize};

use crate::digest::Digest;
use crate::document::papers::progress::Progress;

/// What was written for a job, and from which inputs.
#[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildRecord {
    /// Digest over the state of every input.
    pub inputs: String,
    /// The papers.
    pub papers: Vec<Written>,
    /// Papers that earlier runs wrote and this one did not: of an earlier stage, or asked for by name.
    #[serde(default)]
    pub earlier: Vec<Written>,
    /// How far the job's papers are.
    #[serde(default)]
    pub progress: Option<Progress>,
    /// How many warnings the job had, so that a skipped job can say so.
    pub warnings: usize,
    /// Photos of the job, file name and SHA-256, so that a skipped job's are known too; records of
    /// earlier versions lack them.
    #[serde(default)]
    pub photos: Vec<(String, String)>,
}

/// A file that was written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Written {
    /// Its name in the job's folder.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// Its SHA-256.
    pub sha256: String,
}

/// What is recorded beside the papers that were made.
pub struct Made<'a> {
    /// Digest over the state of every input.
    pub inputs: String,
    /// How many warnings the job had.
    pub warnings: usize,
    /// The job's photos.
    pub photos: &'a [(String, Digest)],
    /// How far its papers are.
    pub progress: Option<&'a Progress>,
}
