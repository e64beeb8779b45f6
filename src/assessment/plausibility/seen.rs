//! What is known of one photo, and the limits of a poor one.

use crate::digest::Digest;
use crate::photo::{Edited, Photo, Quality, Taken};

/// Sharpness below which even the sharpest parts of a photo are blurred.
///
/// Measured on 38 photos of phones, cameras and the samples: sharp ones have at least 410, a soft one
/// 129. Blurred by a Gaussian whose sigma is 1.5 pixels of the 1187 pixel copy they have 25 to 303,
/// by 2.2 pixels 11 to 100, by 3 pixels at most 46. Strong noise hides blur.
pub const BLURRED_BELOW: u32 = 60;

/// Brightness that a photo's brightest twentieth must reach.
///
/// Measured: photos that a camera exposed have at least 106, even at night; exposed four stops too
/// short, at most 71 and in the middle 57; three stops, 78 in the middle.
pub const DARK_BELOW: u8 = 70;

/// Burnt-out pixels, in thousandths, from which a photo is over-exposed.
///
/// Measured: photos that a camera exposed have at most 88; three stops too long, 530 in the middle.
pub const BRIGHT_FROM: u16 = 400;

/// What is known of one photo of the job.
#[derive(Debug, Clone, Copy)]
pub struct Seen<'a> {
    /// File name in the job folder.
    pub name: &'a str,
    /// Capture time by the camera's clock.
    pub taken: Option<Taken>,
    /// Maker and model of the camera.
    pub camera: Option<&'a str>,
    /// SHA-256 of the original.
    pub sha256: Digest,
    /// What the metadata say of changes.
    pub edited: Option<&'a Edited>,
    /// What was measured.
    pub quality: Quality,
}

impl<'a> Seen<'a> {
    /// From a prepared photo.
    pub fn of(name: &'a str, photo: &'a Photo) -> Self {
        Self {
            name,
            taken: photo.facts.taken,
            camera: photo.facts.camera.as_deref(),
            sha256: photo.facts.sha256,
            edited: photo.facts.edited.as_ref(),
            quality: photo.quality,
        }
    }
}
