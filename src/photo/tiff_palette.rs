//! A TIFF whose pixels are numbers of a palette (TIFF 6.0, section 5): bytes -> bytes that a decoder of
//! grey pictures reads, and the palette.
//!
//! The decoder at hand knows no palette, but unpacks the numbers when the file says that they are grey.
//! Not here: unpacking, and palettes of fewer than 256 colours with several numbers in a byte.

/// Tags of TIFF 6.0.
const BITS_PER_SAMPLE: u16 = 258;
const PHOTOMETRIC: u16 = 262;
const COLOR_MAP: u16 = 320;
/// Values of the tag `PhotometricInterpretation`.
const PALETTE: u16 = 3;
const BLACK_IS_ZERO: u16 = 1;
/// Type of a 16-bit number.
const SHORT: u16 = 3;

/// Red, green and blue of each number.
pub(super) type Palette = [[u8; 3]; 256];

/// The file as one of grey pixels, and its palette; `None` for a file without one of 256 colours.
pub(super) fn as_grey(bytes: &[u8]) -> Option<(Vec<u8>, Box<Palette>)> {
    let file = File { bytes, is_little: bytes.starts_with(b"II") };
    let photometric = file.entry(PHOTOMETRIC)?;
    if file.short(photometric + 8)? != PALETTE {
        return None;
    }
    let bits = file.entry(BITS_PER_SAMPLE)?;
    let map = file.entry(COLOR_MAP)?;
    let is_right = file.short(bits + 8)? == 8
        && file.short(map + 2)? == SHORT
        && file.long(map + 4)? == 3 * 256;
    let colours = usize::try_from(file.long(map + 8)?).ok()?;
    if !is_right {
        return None;
    }
    let mut palette = Box::new([[0; 3]; 256]);
    for (number, colour) in palette.iter_mut().enumerate() {
        for (channel, value) in colour.iter_mut().enumerate() {
            // All reds come first, then all greens, then all blues, sixteen bits each.
            let value_at = colours.checked_add(2 * (256 * channel + number))?;
            *value = (file.short(value_at)? >> 8) as u8;
        }
    }
    let mut grey = bytes.to_vec();
    let value =
        if file.is_little { BLACK_IS_ZERO.to_le_bytes() } else { BLACK_IS_ZERO.to_be_bytes() };
    grey.get_mut(photometric + 8..photometric + 10)?.copy_from_slice(&value);
    Some((grey, palette))
}

struct File<'a> {
    bytes: &'a [u8],
    is_little: bool,
}

impl File<'_> {
    fn short(&self, at: usize) -> Option<u16> {
        let two = self.bytes.get(at..at.checked_add(2)?)?.first_chunk::<2>()?;
        Some(if self.is_little { u16::from_le_bytes(*two) } else { u16::from_be_bytes(*two) })
    }

    fn long(&self, at: usize) -> Option<u32> {
        let four = self.bytes.get(at..at.checked_add(4)?)?.first_chunk::<4>()?;
        Some(if self.is_little { u32::from_le_bytes(*four) } else { u32::from_be_bytes(*four) })
    }

    /// Where the entry of a tag starts in the first directory.
    fn entry(&self, tag: u16) -> Option<usize> {
        let directory = usize::try_from(self.long(4)?).ok()?;
        let entries = usize::from(self.short(directory)?);
        let starts = (0..entries).map(|n| directory + 2 + 12 * n);
        starts.into_iter().find(|&at| self.short(at) == Some(tag))
    }
}
