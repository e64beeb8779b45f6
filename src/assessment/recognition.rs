//! Photos of one job known again among those of others: landmarks and fingerprints -> candidates.
//!
//! ```text
//! known photos ─► table ─┐
//! one photo ─────────────┴─► forms alike ─► a fit that many agree on ─► candidates
//! ```
//!
//! A candidate is a guess: whether two pictures are the same is said only after both files were read
//! and laid on each other ([`confirmed`]). Not here: what is measured of a photo (photo), reading files
//! (intake), and where the photos of other jobs lie (batch).

mod fitting;
mod stored;
mod table;

use crate::photo::{Agreement, Digest, Fingerprint, Fit, Landmark, Photo};

pub use stored::Stored;
pub use table::Table;

/// What of a photo is kept for being known again; about a kilobyte.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// Digest of the file.
    pub sha256: Digest,
    /// Width of the upright picture in thousandths of its long edge.
    pub width: u16,
    /// The picture as a whole.
    pub fingerprint: Fingerprint,
    /// Spots of it.
    pub landmarks: Vec<Landmark>,
}

impl Look {
    /// Of a prepared photo.
    pub fn of(photo: &Photo) -> Self {
        let long = photo.width.max(photo.height).max(1);
        Self {
            sha256: photo.facts.sha256,
            width: (photo.width * 1000 / long) as u16,
            fingerprint: photo.quality.fingerprint,
            landmarks: photo.landmarks.clone(),
        }
    }
}

/// A photo that may be the same, and how it would lie on the one that was asked about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Which of the known photos.
    pub known: usize,
    /// Where a place of the photo that was asked about lies in the known one.
    pub fit: Fit,
    /// True if the known one would have to be mirrored.
    pub mirrored: bool,
    /// How many landmarks agree; none where the whole picture looks alike.
    pub landmarks: usize,
}

/// Correlation of detail in the middle tile, in thousandths, from which two files show one picture.
pub const SAME_FROM: i32 = 800;

/// Least share of the smaller picture that must lie on the larger one, in thousandths.
pub const LEAST_COVERED: u32 = 150;

/// True if two pictures that were laid on each other are one.
pub fn confirmed(agreement: &Agreement) -> bool {
    SAME_FROM <= agreement.middle && LEAST_COVERED <= agreement.covered
}
