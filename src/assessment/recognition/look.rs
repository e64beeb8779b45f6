//! What of a photo is kept for being known again, and what may be the same as it.

use crate::digest::Digest;
use crate::photo::{Fingerprint, Fit, Landmark, Photo};

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
    /// Spots of the sizes between, while it is asked about: a kept look has none.
    pub between: Vec<Landmark>,
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
            between: photo.between.clone(),
        }
    }

    /// Of a photo that cannot be shown: like no other.
    pub fn blank(sha256: Digest) -> Self {
        let fingerprint = Fingerprint { falls: [0; 4], rises: [0; 4] };
        Self { sha256, width: 0, fingerprint, landmarks: Vec::new(), between: Vec::new() }
    }
}

/// A photo that may be the same, and how it would be laid on the one that was asked about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Which of the known photos.
    pub known: usize,
    /// Where a place of the photo that was asked about is in the known one.
    pub fit: Fit,
    /// True if the known one would have to be mirrored.
    pub mirrored: bool,
    /// How many landmarks agree; none if the whole picture looks alike.
    pub landmarks: usize,
}
