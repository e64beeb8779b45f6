//! A walk over the markers of a JPEG (ITU-T T.81, annex B): bytes -> is it whole, and what is it?
//!
//! Decoders fill what is missing with grey and say nothing; evidence must say it. Phones append films
//! and depth maps behind the end, so the end need not be the file's last bytes. Not here: whether the
//! data between the markers make sense.

/// What the markers say.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Markers {
    /// Bytes up to the picture data of the first scan.
    pub(super) header_bytes: usize,
    /// Width and height of the first frame in pixels.
    pub(super) size: Option<(u32, u32)>,
    /// The frame is progressive: each scan refines the picture.
    pub(super) progressive: bool,
    /// Passes over the picture.
    pub(super) scans: u32,
    /// At least one byte of picture data follows the first scan header.
    pub(super) has_picture: bool,
    /// The end marker follows the picture data.
    pub(super) complete: bool,
    /// Adobe's marker is present: inks are stored inverted.
    pub(super) adobe: bool,
}

const PROGRESSIVE: u8 = 0xc2;
const END: u8 = 0xd9;
const SCAN: u8 = 0xda;
const ADOBE: u8 = 0xee;

/// Walks over `bytes`, which start with the marker of a JPEG.
pub(super) fn walk(bytes: &[u8]) -> Markers {
    let mut found = Markers::default();
    let mut rest = bytes.get(2..).unwrap_or_default();
    while let Some((marker, behind)) = next_marker(rest) {
        if marker == END {
            found.complete = found.has_picture;
            break;
        }
        let Some((segment, behind)) = segment(behind) else {
            break;
        };
        match marker {
            SCAN => {
                found.scans += 1;
                if found.scans == 1 {
                    found.header_bytes = bytes.len() - behind.len();
                }
                found.has_picture |= behind.first().is_some_and(|first| *first != 0xff)
                    || behind.get(..2) == Some(&[0xff, 0]);
            }
            ADOBE => found.adobe |= segment.starts_with(b"Adobe"),
            _ if is_frame(marker) && found.size.is_none() => {
                found.size = size(segment);
                found.progressive = marker == PROGRESSIVE;
            }
            _ => {}
        }
        rest = behind;
    }
    found
}

/// The next marker that starts a segment, and what is behind it. Stuffed bytes and restart markers
/// belong to the picture data.
fn next_marker(mut rest: &[u8]) -> Option<(u8, &[u8])> {
    loop {
        let start = rest.iter().position(|byte| *byte == 0xff)?;
        rest = &rest[start + 1..];
        match rest.first()? {
            0xff => {}
            0x00 | 0x01 | 0xd0..=0xd7 => rest = &rest[1..],
            marker => return Some((*marker, &rest[1..])),
        }
    }
}

/// A segment's content by its length field, and what is behind it.
fn segment(rest: &[u8]) -> Option<(&[u8], &[u8])> {
    let length = usize::from(u16::from_be_bytes([*rest.first()?, *rest.get(1)?])).max(2);
    let (segment, behind) = rest.split_at_checked(length)?;
    Some((&segment[2..], behind))
}

/// Start-of-frame markers: C0 to CF without the tables C4, C8 and CC.
fn is_frame(marker: u8) -> bool {
    matches!(marker, 0xc0..=0xc3 | 0xc5..=0xc7 | 0xc9..=0xcb | 0xcd..=0xcf)
}

fn size(frame: &[u8]) -> Option<(u32, u32)> {
    match frame {
        [_, h1, h0, w1, w0, ..] => {
            let edge = |high: u8, low: u8| u32::from(u16::from_be_bytes([high, low]));
            Some((edge(*w1, *w0), edge(*h1, *h0)))
        }
        _ => None,
    }
}
