//! Why a track cannot be read: every sentence of the ride's file in one place.
//!
//! Cause texts only, lower case and without full stop; place and advice are added by who reports them.

use std::error::Error;
use std::fmt;

use super::rule;

/// Why there are no facts of a track.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The file has no byte.
    Empty,
    /// The file is larger than a ride's track should be; how many of its bytes were read.
    TooLarge(usize),
    /// The file is UTF-16 or another code in which zero bytes occur.
    NotUtf8,
    /// The file declares a document type, which could define entities; GPX has none.
    DocumentType,
    /// Elements are nested deeper than [`rule::DEPTH`].
    TooDeep,
    /// More points than [`rule::POINTS`].
    TooManyPoints,
    /// The outermost element is not `gpx`, or there is none.
    NotGpx,
    /// Another version than 1.1 and 1.0, cut to a few letters; `None` if it is missing.
    Version(Option<String>),
    /// The XML is damaged at this byte, with the reader's cause.
    Broken {
        /// Offset of the damage.
        byte: u64,
        /// What the reader says.
        cause: String,
    },
    /// The file ends before its elements are closed.
    CutShort,
    /// A GPX file without a recorded point.
    NoTrack {
        /// True if it holds a planned route.
        route: bool,
    },
    /// Fewer than two usable points; how many were read.
    TooFewPoints(usize),
}

impl Refusal {
    /// Damage with the cause that the XML reader gave, cut to one clean line.
    pub(super) fn broken(byte: u64, cause: impl fmt::Display) -> Self {
        let clean = |sign: char| if sign.is_control() { ' ' } else { sign };
        let line: String = cause.to_string().chars().map(clean).take(120).collect();
        Self::Broken { byte, cause: line.trim().trim_end_matches('.').to_owned() }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the track is empty"),
            Self::TooLarge(_) => {
                write!(f, "the track has more than {} MiB", rule::BYTES / (1024 * 1024))
            }
            Self::NotUtf8 => write!(f, "the track is not UTF-8 text"),
            Self::DocumentType => {
                write!(f, "the track declares a document type, which GPX does not have")
            }
            Self::TooDeep => {
                write!(f, "the track nests elements deeper than {} levels", rule::DEPTH)
            }
            Self::TooManyPoints => {
                write!(f, "the track has more than {} points", rule::POINTS)
            }
            Self::NotGpx => write!(f, "the track is not a GPX file"),
            Self::Version(Some(found)) => {
                write!(f, "the track is GPX `{found}`; 1.1 and 1.0 are read")
            }
            Self::Version(None) => write!(f, "the track does not say which version of GPX it is"),
            Self::Broken { byte, cause } => {
                write!(f, "the track is damaged at byte {byte}: {cause}")
            }
            Self::CutShort => write!(f, "the track ends before it is closed"),
            Self::NoTrack { route: true } => {
                write!(f, "the file holds a planned route, not a recorded track")
            }
            Self::NoTrack { route: false } => write!(f, "the file holds no recorded track"),
            Self::TooFewPoints(points) => {
                write!(f, "of the track's {points} points fewer than two can be used")
            }
        }
    }
}

impl Error for Refusal {}
