//! HEIC, as phones write it: bytes -> header, and pixels that are upright already.
//!
//! The decoder applies the container's rotation, mirroring and crop, so the Exif orientation, which
//! repeats them, must not be obeyed again. A HEIC may hold several pictures with an Exif block each:
//! the decoder's metadata are the primary picture's, which a plain search would miss.

use heic_decoder::{HeifError, ImageInfo, Metadata};

use crate::photo::colour::Profile;
use crate::photo::header::{Decoded, Header, check_size};
use crate::photo::raster::{Channels, Raster};
use crate::photo::refusal::Refusal;
use crate::photo::turn::Turn;

/// Bytes that the decoder holds for a pixel: four for each sample, in the tiles and in the whole picture
/// at once, and the colours at the end. With half the colour samples in each direction that is 17; more
/// than eight bits a sample take another copy (25 were measured for 63 million pixels of ten bits).
fn bytes_of_a_pixel(info: &ImageInfo) -> u64 {
    let samples_in_two_rows_of_two: u64 = match info.chroma_format_idc {
        0 => 4,
        1 => 6,
        2 => 8,
        _ => 12,
    };
    let alpha = if info.alpha_bit_depth.is_some() { 8 } else { 0 };
    let deep = if 8 < info.bit_depth_luma.max(info.bit_depth_chroma) { 8 } else { 0 };
    samples_in_two_rows_of_two * 2 + 5 + alpha + deep
}

/// Reads the header without decoding pixels.
pub(super) fn open(bytes: &[u8]) -> Result<Header, Refusal> {
    let info = heic_decoder::probe(bytes).map_err(refusal)?;
    let edge = |pixels: usize| u32::try_from(pixels).map_err(Refusal::broken);
    // The whole coded picture is decoded before it is cropped.
    check_size(edge(info.coded_width)?, edge(info.coded_height)?)?;
    let (width, height) = (edge(info.width)?, edge(info.height)?);
    check_size(width, height)?;
    let metadata = heic_decoder::read_metadata(bytes).map_err(refusal)?;
    Ok(Header {
        width,
        height,
        turn: Turn::NONE,
        profile: profile_of(&metadata),
        exif: metadata.exif,
        xmp: metadata.xmp,
        weight: info.coded_width as u64 * info.coded_height as u64 * bytes_of_a_pixel(&info) / 5,
    })
}

/// Decodes the primary picture; the decoder refuses a damaged file.
pub(super) fn decode(bytes: &[u8]) -> Result<Decoded, Refusal> {
    let picture = heic_decoder::decode(bytes).map_err(refusal)?;
    let size = |width: usize, height: usize| (width as u32, height as u32);
    let raster = if picture.alpha.is_some() {
        let rgba = picture.to_rgba8().map_err(refusal)?;
        Raster::new(size(rgba.width, rgba.height), Channels::Rgba, rgba.data)?
    } else {
        let rgb = picture.to_rgb8().map_err(refusal)?;
        Raster::new(size(rgb.width, rgb.height), Channels::Rgb, rgb.data)?
    };
    Ok(Decoded { raster, damaged: false })
}

fn profile_of(metadata: &Metadata) -> Profile {
    if let Some(icc) = &metadata.icc_profile {
        return Profile::Icc(icc.clone());
    }
    let code = |value: u16| u8::try_from(value).ok();
    metadata
        .color_info
        .and_then(|info| {
            let primaries = code(info.color_primaries)?;
            let transfer = code(info.transfer_characteristics)?;
            Some(Profile::Coded { primaries, transfer })
        })
        .unwrap_or(Profile::Absent)
}

fn refusal(error: HeifError) -> Refusal {
    match error {
        HeifError::LimitExceeded(_) => Refusal::broken("it claims more than any camera delivers"),
        other => Refusal::broken(other),
    }
}
