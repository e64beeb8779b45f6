//! What the evidence list says about an original, as data.
//!
//! Not here: wording and language (document), reading the Exif block (`exif_block`).

use crate::digest::Digest;
use crate::photo::colour::Colour;
use crate::photo::edited::Edited;
use crate::photo::kind::Format;
use crate::photo::taken::Taken;

/// What is known about an original photo. Nothing in it says where the photo was taken or which
/// single camera took it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facts {
    /// SHA-256 of the original file.
    pub sha256: Digest,
    /// Size of the original file in bytes.
    pub bytes: u64,
    /// Format of the original, by its content.
    pub format: Format,
    /// Width of the upright original in pixels.
    pub width: u32,
    /// Height of the upright original in pixels.
    pub height: u32,
    /// When the camera says the photo was taken.
    pub taken: Option<Taken>,
    /// Maker and model of the camera, at most 80 characters.
    pub camera: Option<String>,
    /// A change after it was taken, if the metadata state one.
    pub edited: Option<Edited>,
    /// The file is damaged or cut short: what could be read is shown, the rest is grey.
    pub damaged: bool,
    /// What was done about the colours.
    pub colour: Colour,
    /// The original names a place in its Exif block; the print copy never does.
    pub has_location: bool,
}
