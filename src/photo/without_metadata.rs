//! A photo for its owner: bytes of an original -> the same picture without metadata.
//!
//! JPEG, PNG and WebP keep every pixel; only how to turn the picture and its colour profile stay.
//! Not here: formats whose metadata cannot be taken out alone, which go as print copies.

use img_parts::jpeg::{Jpeg, markers};
use img_parts::png::Png;
use img_parts::webp::WebP;
use img_parts::{Bytes, ImageEXIF};

use super::kind::{Format, Kind, kind_of};

/// The picture without metadata; `None` where its format or its form does not allow it.
pub fn without_metadata(bytes: &[u8]) -> Option<Vec<u8>> {
    let Kind::Picture(format) = kind_of(bytes) else { return None };
    match format {
        Format::Jpeg => jpeg(bytes),
        Format::Png => png(bytes),
        Format::WebP => webp(bytes),
        Format::Tiff | Format::Bmp | Format::Heic => None,
    }
}

fn jpeg(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut jpeg = Jpeg::from_bytes(Bytes::copy_from_slice(bytes)).ok()?;
    let turn = jpeg.exif().and_then(|block| orientation(&block));
    jpeg.segments_mut().retain(|segment| match segment.marker() {
        markers::APP2 => segment.contents().starts_with(b"ICC_PROFILE\0"),
        // JFIF's own segment may carry a thumbnail; Adobe's tells how inks are stored.
        markers::APP0 => {
            segment.contents().starts_with(b"JFIF\0") && segment.contents().len() <= 14
        }
        markers::APP14 => true,
        markers::APP1..=markers::APP15 | markers::COM => false,
        _ => true,
    });
    jpeg.set_exif(turn.map(|turn| Bytes::from(only_orientation(turn))));
    Some(jpeg.encoder().bytes().to_vec())
}

fn png(bytes: &[u8]) -> Option<Vec<u8>> {
    /// Chunks that make the picture (PNG, third edition), and its colours.
    const KEPT: [&[u8; 4]; 12] = [
        b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"sBIT",
        b"pHYs", b"cICP",
    ];
    let mut png = Png::from_bytes(Bytes::copy_from_slice(bytes)).ok()?;
    png.chunks_mut().retain(|chunk| KEPT.contains(&&chunk.kind()));
    Some(png.encoder().bytes().to_vec())
}

fn webp(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut webp = WebP::from_bytes(Bytes::copy_from_slice(bytes)).ok()?;
    webp.remove_chunks_by_id(*b"XMP ");
    webp.set_exif(None);
    Some(webp.encoder().bytes().to_vec())
}

/// The orientation of an Exif block (tag 0x0112), where it is one of the eight.
fn orientation(block: &[u8]) -> Option<u8> {
    let exif = exif::Reader::new().read_raw(block.to_vec()).ok()?;
    let field = exif.get_field(exif::Tag::Orientation, exif::In::PRIMARY)?;
    field
        .value
        .get_uint(0)
        .and_then(|turn| u8::try_from(turn).ok())
        .filter(|turn| (1..=8).contains(turn))
}

/// An Exif block (CIPA DC-008) that tells nothing but the orientation.
fn only_orientation(turn: u8) -> Vec<u8> {
    let mut block = b"II*\0\x08\0\0\0\x01\0".to_vec();
    // Tag 0x0112, type SHORT, one value; then no further directory.
    block.extend([0x12, 0x01, 3, 0, 1, 0, 0, 0, turn, 0, 0, 0, 0, 0, 0, 0]);
    block
}
