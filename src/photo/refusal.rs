//! Why there is no print copy of a file: every sentence of this stage in one place.
//!
//! Cause texts only, lower case and without full stop; the sheet's place and the advice are added by
//! whoever reports them.

use std::error::Error;
use std::fmt;

use image::ImageError;

use crate::photo::kind::{Format, Kind};

/// What is said of a HEIC in a program without its decoder.
const NO_HEIC: &str =
    "the content is a HEIC photo, and this program was built without them (feature `heic`)";

/// Why no print copy was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// The file has no byte.
    Empty,
    /// The file is larger than any photo should be.
    TooLarge {
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
    /// The content is not a picture, whatever the file is called.
    NotAPicture(Kind),
    /// The content is a picture or a film, but not one that can be printed here.
    Unsupported(Kind),
    /// The file may be sound, but is written in a way that is not read here, with the decoder's cause.
    Variant(String),
    /// The picture is so damaged that nothing can be shown, with the decoder's cause.
    Broken(String),
}

impl Refusal {
    /// A refusal with a cause that a decoder gave; its text is cut to one clean line.
    pub(super) fn broken(cause: impl fmt::Display) -> Self {
        Self::Broken(one_line(cause))
    }

    /// A refusal by a decoder of `image`, which separates unknown formats from damaged files.
    pub(super) fn of_decoder(error: ImageError) -> Self {
        match error {
            ImageError::Unsupported(cause) => Self::Variant(one_line(cause)),
            other => Self::broken(other),
        }
    }
}

/// A decoder's cause on one clean line.
fn one_line(cause: impl fmt::Display) -> String {
    let line: String = cause
        .to_string()
        .chars()
        .map(|sign| if sign.is_control() { ' ' } else { sign })
        .take(160)
        .collect();
    line.trim().trim_end_matches('.').to_owned()
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the file is empty"),
            Self::TooLarge { limit } => {
                write!(f, "the file has more than {} MB, the most that are read", limit / 1_000_000)
            }
            Self::TooManyPixels { width, height, limit } => write!(
                f,
                "the picture claims {width} x {height} pixels; at most {} million are read",
                limit / 1_000_000
            ),
            Self::NotAPicture(Kind::Unknown) => {
                write!(f, "the content is not a picture of a kind that is known here")
            }
            Self::NotAPicture(kind) => {
                write!(f, "the content is {}, not a picture", kind.phrase())
            }
            Self::Unsupported(Kind::Picture(Format::Heic)) => write!(f, "{NO_HEIC}"),
            Self::Unsupported(kind) => {
                write!(f, "the content is {}, which cannot be printed here", kind.phrase())
            }
            Self::Variant(cause) => {
                write!(f, "the picture is written in a way that is not read here: {cause}")
            }
            Self::Broken(cause) => write!(f, "the picture is damaged beyond reading: {cause}"),
        }
    }
}

impl Error for Refusal {}

impl Kind {
    /// The format to decode, or why there is nothing to decode.
    pub(super) fn readable(self) -> Result<Format, Refusal> {
        match self {
            Self::Picture(Format::Heic) if !cfg!(feature = "heic") => {
                Err(Refusal::Unsupported(self))
            }
            Self::Picture(format) => Ok(format),
            Self::Empty => Err(Refusal::Empty),
            Self::Avif | Self::Gif | Self::JpegXl | Self::CameraRaw | Self::Film(_) => {
                Err(Refusal::Unsupported(self))
            }
            Self::Pdf | Self::Markup | Self::Archive | Self::Unknown => {
                Err(Refusal::NotAPicture(self))
            }
        }
    }
}
