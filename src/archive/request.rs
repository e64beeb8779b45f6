//! What is to be sealed, what came of it, and what was noticed on the way.
//!
//! Not here: which files of a job belong into a bag (the caller).

use std::fmt;
use std::path::{Path, PathBuf};

use chrono::{DateTime, NaiveDate, Utc};

use crate::digest::Digest;
use crate::failure::Failure;

/// Signs a bag: the bytes of `tagmanifest-sha256.txt` -> files to be beside it, name and bytes.
pub type Sign<'a> = &'a dyn Fn(&[u8]) -> Result<Vec<(String, Vec<u8>)>, Failure>;

/// A file of the job folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Original {
    /// Path below the job folder, with `/`.
    pub name: String,
    /// The digest that it had when the papers were made, if it is known.
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
pub struct SealRequest<'a> {
    /// Number of the job.
    pub job: &'a str,
    /// The job folder.
    pub folder: &'a Path,
    /// Its files; a link among them is followed if it stays inside the folder.
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

impl fmt::Debug for SealRequest<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("SealRequest").field("job", &self.job).finish_non_exhaustive()
    }
}

/// A job that is sealed in the archive.
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
    /// SHA-256 of that line: the register's head after this bag.
    pub head: Digest,
    /// When it was sealed, as the register says it.
    pub time: String,
    /// False if this version was sealed before with the same bytes: then no bag was written.
    pub is_new: bool,
    /// The tar, if one was wanted.
    pub tar: Option<PathBuf>,
    /// What was noticed on the way.
    pub remarks: Vec<Remark>,
}

/// Something that a person should hear of; the job is sealed all the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Remark {
    /// The register's last line was torn; its bytes were put aside and the good lines kept.
    TornLine {
        /// Number of the line, from 1.
        line: u64,
        /// Name of the file in the archive that keeps its bytes.
        kept_in: String,
    },
    /// The register's last line lacked only its newline, which was added.
    LineCompleted {
        /// Number of the line, from 1.
        line: u64,
    },
    /// A bag that no line named was found whole, and registered.
    Registered {
        /// Path of the bag below the archive.
        bag: String,
    },
    /// A folder in a bag's place that no line names is not a whole bag; it was left as it is.
    NotWhole {
        /// Path of the folder below the archive.
        bag: String,
        /// What it lacks.
        cause: String,
    },
    /// The same bytes were sealed before, but that bag is whole no more; they were sealed again.
    SealedAgain {
        /// Path of the earlier bag below the archive.
        bag: String,
        /// What it lacks.
        cause: String,
    },
    /// The same bytes were sealed before, and something else since.
    NewerVersion {
        /// The newest version.
        newest: u32,
    },
    /// This version holds something else than the one before it.
    Replaces {
        /// Path of the earlier bag below the archive.
        bag: String,
        /// What was changed, added, left out, in words.
        changes: String,
    },
    /// The same bytes were sealed before without what was wanted beside them now, such as a signature.
    NotAdded {
        /// Path of the bag below the archive.
        bag: String,
    },
    /// Another file is in the place of the bag's tar.
    ForeignTar {
        /// Path of that file below the archive.
        tar: String,
    },
    /// Two names that differ only in case or Unicode form.
    Clash {
        /// One path below the bag's payload.
        one: String,
        /// The other.
        other: String,
    },
    /// A name that not every file system can keep.
    NotPortable {
        /// The path below the bag's payload.
        path: String,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TornLine { line, kept_in } => {
                write!(f, "line {line} of the register was torn; its bytes are kept in `{kept_in}`")
            }
            Self::LineCompleted { line } => {
                write!(f, "line {line} of the register lacked its end, which was added")
            }
            Self::Registered { bag } => {
                write!(f, "`{bag}` was whole but not in the register; it is registered now")
            }
            Self::NotWhole { bag, cause } => {
                write!(f, "`{bag}` is not in the register and no whole bag, left as it is: {cause}")
            }
            Self::SealedAgain { bag, cause } => {
                write!(f, "`{bag}` holds the same but is whole no more, so sealed again: {cause}")
            }
            Self::NewerVersion { newest } => {
                write!(f, "version {newest} is newer and holds something else")
            }
            Self::Replaces { bag, changes } => write!(f, "it replaces `{bag}`: {changes}"),
            Self::NotAdded { bag } => write!(
                f,
                "`{bag}` holds the same and was sealed without this signature or time-stamp query; \
                 nothing was added, since a sealed bag is never changed"
            ),
            Self::ForeignTar { tar } => {
                write!(f, "`{tar}` is not this bag's tar, and it was left as it is")
            }
            Self::Clash { one, other } => {
                let (one, other) = (one.escape_debug(), other.escape_debug());
                write!(f, "`{one}` and `{other}` are one name where case and form do not count")
            }
            Self::NotPortable { path } => {
                write!(f, "`{}` is a name that not every disk can keep", path.escape_debug())
            }
        }
    }
}
