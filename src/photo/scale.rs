//! Scaling to the size of the print copy: raster -> smaller raster of the same channels.
//!
//! Lanczos with three lobes in gamma space; scaling in linear light differs by less than the JPEG
//! encoder does. Not here: the size itself (`print_size`) and halving while decoding (jpeg).

use fast_image_resize::images::Image;
use fast_image_resize::{FilterType, PixelType, ResizeAlg, ResizeOptions, Resizer};

use crate::photo::raster::{Channels, Raster};
use crate::photo::refusal::Refusal;

/// Scales `raster` to `(width, height)` pixels.
///
/// Opacity is weighed in, so that what shines through does not tint the edges; ink is not opacity.
pub(super) fn to_size(raster: Raster, (width, height): (u32, u32)) -> Result<Raster, Refusal> {
    if (raster.width, raster.height) == (width, height) {
        return Ok(raster);
    }
    let channels = raster.channels;
    let pixel = match channels {
        Channels::Grey => PixelType::U8,
        Channels::Rgb => PixelType::U8x3,
        Channels::Rgba | Channels::Cmyk => PixelType::U8x4,
    };
    let options = ResizeOptions::new()
        .resize_alg(ResizeAlg::Convolution(FilterType::Lanczos3))
        .use_alpha(channels == Channels::Rgba);
    let large = Image::from_vec_u8(raster.width, raster.height, raster.pixels, pixel)
        .map_err(Refusal::broken)?;
    let mut small = Image::new(width, height, pixel);
    Resizer::new().resize(&large, &mut small, &options).map_err(Refusal::broken)?;
    Raster::new((width, height), channels, small.into_vec())
}
