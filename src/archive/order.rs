//! What is to be sealed, and what came of it.

use std::fmt;
use std::path::{Path, PathBuf};

use chrono::{DateTime, NaiveDate, Utc};

use super::remark::Remark;
use crate::failure::Failure;
use crate::photo::Digest;

/// Signs a bag: the bytes of `tagmanifest-sha256.txt` -> files to lie beside it, name and bytes.
pub type Sign<'a> = &'a dyn Fn(&[u8]) -> Result<Vec<(String, Vec<u8>)>, Failure>;

/// A file of the job folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Original {
    /// Path below the job folder, with `/`.
    pub name: String,
    /// The digest that it had when the papers were made, where it is known.
    pub expected: Option<Digest>,
}

/// A file that is held in memory.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InMemory {
    /// Path below the bag's `data/`, with `/`: `findings.yaml`, `papers/return-report.pdf`.
    pub path: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// A job to be sealed.
pub struct SealOrder<'a> {
    /// Number of the job.
    pub job: &'a str,
    /// The job folder.
    pub folder: &'a Path,
    /// Its files; a link among them is followed where it stays inside the folder.
    pub originals: &'a [Original],
    /// What else belongs into the bag.
    pub in_memory: &'a [InMemory],
    /// Fields for `bag-info.txt`, label and value, in their order.
    pub info: &'a [(String, String)],
    /// The day for `Bagging-Date`; from the sheet, so that the same job gives the same bag.
    pub bagging_date: NaiveDate,
    /// Until which day the bag is to be kept.
    pub keep_until: Option<NaiveDate>,
    /// The time for the register's line; it does not go into the bag.
    pub sealed_at: DateTime<Utc>,
    /// Whether a tar is wanted beside the bag.
    pub tar: bool,
    /// Signs the bag; called for a new version, and to see whether an older one was signed the same.
    pub sign: Option<Sign<'a>>,
}

impl fmt::Debug for SealOrder<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("SealOrder").field("job", &self.job).finish_non_exhaustive()
    }
}

/// A job that lies sealed in the archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// Folder of the bag.
    pub path: PathBuf,
    /// Version of the job's bag, from 1.
    pub version: u32,
    /// SHA-256 of the bag's `tagmanifest-sha256.txt`.
    pub digest: Digest,
    /// Line of the register that names the bag, from 1.
    pub line: u64,
    /// False where this version was sealed before with the same bytes: then no bag was written.
    pub is_new: bool,
    /// The tar, where one was wanted.
    pub tar: Option<PathBuf>,
    /// What was noticed on the way.
    pub remarks: Vec<Remark>,
}
