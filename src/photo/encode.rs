//! The print copy: sRGB raster -> JPEG that holds pixels and nothing else.
//!
//! Baseline, 4:2:0, one scan with the standard's own Huffman tables: any printer and reader takes it.
//! Tables made to measure would save a tenth, but this encoder then writes a scan for each colour, and
//! readers exist that show such a file in wrong colours. The result has no Exif, no profile, no
//! comment, no thumbnail: only what JFIF demands.

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

use crate::photo::raster::Raster;
use crate::photo::refusal::Refusal;

/// Size that a print copy should not exceed, in bytes.
const TARGET_BYTES: usize = 250_000;

/// Qualities that are tried in turn until the copy is small enough; the last one is used.
const QUALITIES: [u8; 4] = [85, 77, 69, 61];

/// Encodes an RGB picture.
pub(super) fn jpeg(picture: &Raster) -> Result<Vec<u8>, Refusal> {
    let mut copy = Vec::new();
    for quality in QUALITIES {
        copy = at_quality(picture, quality)?;
        if copy.len() <= TARGET_BYTES {
            break;
        }
    }
    Ok(copy)
}

fn at_quality(picture: &Raster, quality: u8) -> Result<Vec<u8>, Refusal> {
    let edge = |pixels: u32| u16::try_from(pixels).map_err(Refusal::broken);
    let mut copy = Vec::with_capacity(TARGET_BYTES);
    let mut encoder = Encoder::new(&mut copy, quality);
    encoder.set_sampling_factor(SamplingFactor::R_4_2_0);
    encoder
        .encode(&picture.pixels, edge(picture.width)?, edge(picture.height)?, ColorType::Rgb)
        .map_err(Refusal::broken)?;
    Ok(copy)
}
