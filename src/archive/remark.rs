//! What was noticed while a job was sealed and kept nothing from being done.

use std::fmt;

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
    /// A folder in a bag's place that no line names is no whole bag; it was left as it is.
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
    /// Another file stands where the bag's tar would.
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
