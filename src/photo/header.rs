//! What is known of a photo before it is decoded, and the pixels after; the same for every format.

use image::DynamicImage;

use crate::photo::colour::Profile;
use crate::photo::raster::{Channels, Raster};
use crate::photo::refusal::Refusal;
use crate::photo::turn::Turn;

/// Most pixels that one photo may have: 64 million, so that a 50 megapixel phone passes.
pub const MAX_PIXELS: u64 = 64_000_000;

/// What is known before decoding.
#[derive(Debug, Clone)]
pub(super) struct Header {
    /// Stored width in pixels, before turning.
    pub(super) width: u32,
    /// Stored height in pixels, before turning.
    pub(super) height: u32,
    pub(super) turn: Turn,
    pub(super) profile: Profile,
    /// The raw Exif block.
    pub(super) exif: Option<Vec<u8>>,
    /// The XMP packet.
    pub(super) xmp: Option<Vec<u8>>,
    /// Weighted pixels that decoding takes from the budget; one is about five bytes.
    pub(super) weight: u64,
}

/// Pixels, and whether the file was damaged.
#[derive(Debug)]
pub(super) struct Decoded {
    pub(super) raster: Raster,
    pub(super) damaged: bool,
}

/// Refuses a claimed size before it is believed.
pub(super) fn check_size(width: u32, height: u32) -> Result<(), Refusal> {
    let pixels = u64::from(width) * u64::from(height);
    if pixels > MAX_PIXELS {
        return Err(Refusal::TooManyPixels { width, height, limit: MAX_PIXELS });
    }
    if pixels == 0 {
        return Err(Refusal::broken("it claims to have no pixels"));
    }
    Ok(())
}

/// Eight bits a channel, with the opacity kept.
pub(super) fn raster_of(picture: DynamicImage) -> Result<Raster, Refusal> {
    let size = (picture.width(), picture.height());
    let colour = picture.color();
    if colour.has_alpha() {
        Raster::new(size, Channels::Rgba, picture.into_rgba8().into_raw())
    } else if colour.has_color() {
        Raster::new(size, Channels::Rgb, picture.into_rgb8().into_raw())
    } else {
        Raster::new(size, Channels::Grey, picture.into_luma8().into_raw())
    }
}
