//! Why there is no print copy of a file: every sentence of this stage in one place.
//!
//! Cause texts only, lower case and without full stop; the sheet's place and the advice are added by
//! whoever reports them.

use std::error::Error;
use std::fmt;

use crate::photo::kind::Kind;

/// Why no print copy was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// The file has no byte.
    Empty,
    /// The file is larger than any photo should be.
    TooLarge {
        /// Size of the file in bytes.
        bytes: u64,
        /// Most bytes that are read.
        limit: u64,
    },
    /// The header claims more pixels than are read.
    TooManyPixels {
        /// Claimed width in pixels.
        width: u32,
        /// Claimed height in pixels.
        height: u32,
        /// Most pixels that are read.
        limit: u64,
    },
    /// The content is no picture, whatever the file is called.
    NotAPicture(Kind),
    /// The content is a picture or a film, but not one that can be printed here.
    Unsupported(Kind),
    /// The picture is so damaged that nothing can be shown, with the decoder's cause.
    Broken(String),
}

impl Refusal {
    /// A refusal with a cause that a decoder gave; its text is cut to one clean line.
    pub(super) fn broken(cause: impl fmt::Display) -> Self {
        let line: String = cause
            .to_string()
            .chars()
            .map(|sign| if sign.is_control() { ' ' } else { sign })
            .take(160)
            .collect();
        Self::Broken(line.trim().trim_end_matches('.').to_owned())
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the file is empty"),
            Self::TooLarge { bytes, limit } => write!(
                f,
                "the file has {} MB; at most {} MB are read",
                bytes.div_ceil(1_000_000),
                limit / 1_000_000
            ),
            Self::TooManyPixels { width, height, limit } => write!(
                f,
                "the picture claims {width} x {height} pixels; at most {} million are read",
                limit / 1_000_000
            ),
            Self::NotAPicture(Kind::Unknown) => {
                write!(f, "the content is no picture of a kind that is known here")
            }
            Self::NotAPicture(kind) => {
                write!(f, "the content is {}, not a picture", kind.phrase())
            }
            Self::Unsupported(kind) => {
                write!(f, "the content is {}, which cannot be printed here", kind.phrase())
            }
            Self::Broken(cause) => write!(f, "the picture is damaged beyond reading: {cause}"),
        }
    }
}

impl Error for Refusal {}
