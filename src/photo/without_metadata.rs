//! A photo for its owner: bytes of an original -> the same picture without metadata.
//!
//! JPEG, PNG and WebP keep every pixel; what is not needed to show them goes, and everything behind
//! the end of the picture, where phones keep films and previews. How a JPEG is turned stays; a PNG or
//! WebP that must be turned is no case for this. Not here: formats whose metadata cannot be taken out
//! alone, which go as print copies.

use std::io::Cursor;

use img_parts::png::Png;
use img_parts::webp::WebP;
use img_parts::{Bytes, ImageEXIF};

use super::kind::{Format, Kind, kind_of};

/// The picture without metadata; `None` if its format or its form does not allow it.
pub fn without_metadata(bytes: &[u8]) -> Option<Vec<u8>> {
    let Kind::Picture(format) = kind_of(bytes) else { return None };
    match format {
        Format::Jpeg => jpeg(bytes),
        Format::Png => png(bytes),
        Format::WebP => webp(bytes),
        Format::Tiff | Format::Bmp | Format::Heic => None,
    }
}

/// Copies the segments that show the picture (ITU-T T.81, annex B), up to its end and no further.
fn jpeg(bytes: &[u8]) -> Option<Vec<u8>> {
    const SCAN: u8 = 0xda;
    const END: u8 = 0xd9;
    let mut out = vec![0xff, 0xd8];
    out.extend(orientation(bytes).map(only_orientation).into_iter().flatten());
    let mut at = 2;
    loop {
        if *bytes.get(at)? != 0xff {
            return None;
        }
        // A marker may be filled up with further 0xff.
        while *bytes.get(at + 1)? == 0xff {
            at += 1;
        }
        let marker = bytes[at + 1];
        if marker == END {
            out.extend([0xff, END]);
            return Some(out);
        }
        let length = usize::from(u16::from_be_bytes([*bytes.get(at + 2)?, *bytes.get(at + 3)?]));
        let segment = bytes.get(at..at + 2 + length.max(2))?;
        if is_of_the_picture(marker, &segment[4..]) {
            out.extend_from_slice(segment);
        }
        at += segment.len();
        if marker == SCAN {
            let end = end_of_scan(bytes, at)?;
            out.extend_from_slice(&bytes[at..end]);
            at = end;
        }
    }
}

/// Frames, tables, scans; of the application's segments only how inks and colours are meant.
fn is_of_the_picture(marker: u8, content: &[u8]) -> bool {
    match marker {
        0xc0..=0xcf | 0xda..=0xdd => true,
        // JFIF's own segment may carry a thumbnail.
        0xe0 => content.starts_with(b"JFIF\0") && content.len() == 14 && content[12..] == [0, 0],
        0xe2 => content.starts_with(b"ICC_PROFILE\0"),
        0xee => content.starts_with(b"Adobe") && content.len() == 12,
        _ => false,
    }
}

/// Where the data of a scan end: at the next marker that is neither a stuffed byte nor a restart.
fn end_of_scan(bytes: &[u8], from: usize) -> Option<usize> {
    let is_end = |pair: &[u8]| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xd0..=0xd7);
    bytes.get(from..)?.windows(2).position(is_end).map(|at| from + at)
}

fn png(bytes: &[u8]) -> Option<Vec<u8>> {
    /// Chunks that make the picture (PNG, third edition), and its colours.
    const KEPT: [&[u8; 4]; 12] = [
        b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"sBIT",
        b"pHYs", b"cICP",
    ];
    if orientation(bytes).is_some() {
        return None;
    }
    let mut png = Png::from_bytes(Bytes::copy_from_slice(bytes)).ok()?;
    png.chunks_mut().retain(|chunk| KEPT.contains(&&chunk.kind()));
    Some(png.encoder().bytes().to_vec())
}

fn webp(bytes: &[u8]) -> Option<Vec<u8>> {
    /// Chunks that make the picture (RFC 9649), and its colours.
    const KEPT: [&[u8; 4]; 7] = [b"VP8X", b"VP8 ", b"VP8L", b"ALPH", b"ANIM", b"ANMF", b"ICCP"];
    if orientation(bytes).is_some() {
        return None;
    }
    let mut webp = WebP::from_bytes(Bytes::copy_from_slice(bytes)).ok()?;
    webp.set_exif(None);
    webp.chunks_mut().retain(|chunk| KEPT.contains(&&chunk.id()));
    Some(webp.encoder().bytes().to_vec())
}

/// How the picture must be turned (Exif tag 0x0112), if it must: 2 to 8.
fn orientation(bytes: &[u8]) -> Option<u8> {
    let exif = exif::Reader::new().read_from_container(&mut Cursor::new(bytes)).ok()?;
    let field = exif.get_field(exif::Tag::Orientation, exif::In::PRIMARY)?;
    let turn = u8::try_from(field.value.get_uint(0)?).ok()?;
    (2..=8).contains(&turn).then_some(turn)
}

/// A segment with an Exif block (CIPA DC-008) that holds only the orientation.
fn only_orientation(turn: u8) -> Vec<u8> {
    let mut block = b"Exif\0\0II*\0\x08\0\0\0\x01\0".to_vec();
    // Tag 0x0112, type SHORT, one value; then no further directory.
    block.extend([0x12, 0x01, 3, 0, 1, 0, 0, 0, turn, 0, 0, 0, 0, 0, 0, 0]);
    let length = (block.len() + 2) as u16;
    let mut segment = vec![0xff, 0xe1];
    segment.extend(length.to_be_bytes());
    segment.extend(block);
    segment
}
