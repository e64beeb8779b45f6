//! Turning a picture upright: raster and orientation -> upright raster.
//!
//! The orientation is what the camera noted (Exif tag 0x0112); it is obeyed on the small picture. Not
//! here: HEIC, whose decoder turns the picture itself.

use image::metadata::Orientation;
use image::{DynamicImage, RgbImage};

use crate::photo::raster::{Channels, Raster};
use crate::photo::refusal::Refusal;

/// How the stored picture must be turned upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Turn(Orientation);

impl Turn {
    /// Nothing to do.
    pub(super) const NONE: Self = Self(Orientation::NoTransforms);

    /// From the decoder's reading of the file.
    pub(super) fn of(orientation: Orientation) -> Self {
        Self(orientation)
    }

    /// The stored size of a picture that is `size` when upright, and the reverse.
    pub(super) fn swap(self, (width, height): (u32, u32)) -> (u32, u32) {
        match self.0 {
            Orientation::Rotate90
            | Orientation::Rotate270
            | Orientation::Rotate90FlipH
            | Orientation::Rotate270FlipH => (height, width),
            Orientation::NoTransforms
            | Orientation::Rotate180
            | Orientation::FlipHorizontal
            | Orientation::FlipVertical => (width, height),
        }
    }
}

/// Turns an RGB picture upright.
pub(super) fn upright(picture: Raster, turn: Turn) -> Result<Raster, Refusal> {
    if turn == Turn::NONE {
        return Ok(picture);
    }
    let stored = RgbImage::from_raw(picture.width, picture.height, picture.pixels)
        .ok_or_else(|| Refusal::broken("it has fewer pixels than stated"))?;
    let mut turned = DynamicImage::ImageRgb8(stored);
    turned.apply_orientation(turn.0);
    Raster::new((turned.width(), turned.height()), Channels::Rgb, turned.into_bytes())
}
