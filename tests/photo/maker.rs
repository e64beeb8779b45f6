//! Files made byte by byte: Exif blocks, PNG chunks, headers that lie.

use exif::experimental::Writer;
use exif::{Field, In, Rational, Tag, Value};

/// A text field of an Exif block.
pub fn text(tag: Tag, value: &str) -> Field {
    Field { tag, ifd_num: In::PRIMARY, value: Value::Ascii(vec![value.as_bytes().to_vec()]) }
}

/// A short number of an Exif block.
pub fn short(tag: Tag, value: u16) -> Field {
    Field { tag, ifd_num: In::PRIMARY, value: Value::Short(vec![value]) }
}

/// An angle in degrees.
pub fn degrees(tag: Tag, value: u32) -> Field {
    let part = |num| Rational { num, denom: 1 };
    let value = Value::Rational(vec![part(value), part(30), part(0)]);
    Field { tag, ifd_num: In::PRIMARY, value }
}

/// An Exif block without the `Exif\0\0` that JPEG puts before it.
pub fn exif(fields: &[Field]) -> Vec<u8> {
    let mut writer = Writer::new();
    fields.iter().for_each(|field| writer.push_field(field));
    let mut block = std::io::Cursor::new(Vec::new());
    writer.write(&mut block, false).expect("a block of our own can be written");
    block.into_inner()
}

/// Puts a segment right behind the first marker of a JPEG.
pub fn jpeg_with(jpeg: &[u8], marker: u8, content: &[u8]) -> Vec<u8> {
    let length = u16::try_from(content.len() + 2).expect("a segment is small").to_be_bytes();
    [&jpeg[..2], &[0xff, marker], &length, content, &jpeg[2..]].concat()
}

/// A JPEG with an Exif block.
pub fn jpeg_with_exif(jpeg: &[u8], block: &[u8]) -> Vec<u8> {
    jpeg_with(jpeg, 0xe1, &[b"Exif\0\0", block].concat())
}

/// A JPEG with a colour profile that fits one segment.
pub fn jpeg_with_profile(jpeg: &[u8], profile: &[u8]) -> Vec<u8> {
    jpeg_with(jpeg, 0xe2, &[b"ICC_PROFILE\0\x01\x01", profile].concat())
}

/// One chunk of a PNG, with its checksum (PNG specification, annex D).
pub fn png_chunk(name: &[u8; 4], content: &[u8]) -> Vec<u8> {
    let checked = [name.as_slice(), content].concat();
    let checksum = !checked.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            if sum & 1 == 1 { 0xedb8_8320 ^ (sum >> 1) } else { sum >> 1 }
        })
    });
    let length = u32::try_from(content.len()).expect("a chunk is small").to_be_bytes();
    [length.as_slice(), &checked, &checksum.to_be_bytes()].concat()
}

/// Puts a chunk right behind the header of a PNG.
pub fn png_with(png: &[u8], name: &[u8; 4], content: &[u8]) -> Vec<u8> {
    const HEADER: usize = 8 + 25;
    [&png[..HEADER], &png_chunk(name, content), &png[HEADER..]].concat()
}

/// A zlib stream that unpacks to `runs` times 258 zeros and one more (RFC 1950 and 1951): one fixed
/// block of "the byte before, 258 times", 13 bits each.
pub fn zeros(runs: u32) -> Vec<u8> {
    let mut bits = Bits { bytes: vec![0x78, 0x01], filled: 8 };
    bits.push(0b1, 1); // the last block
    bits.push(0b01, 2); // fixed codes
    bits.push_code(0x30, 8); // the byte 0
    for _ in 0..runs {
        bits.push_code(0xc5, 8); // length 258
        bits.push_code(0, 5); // distance 1
    }
    bits.push_code(0, 7); // end of block
    let sum = (((258 * runs + 1) % 65521) << 16) | 1;
    [bits.bytes, sum.to_be_bytes().to_vec()].concat()
}

/// Bits packed from the low end of each byte.
struct Bits {
    bytes: Vec<u8>,
    filled: u32,
}

impl Bits {
    fn push(&mut self, value: u32, count: u32) {
        for at in 0..count {
            if self.filled == 8 {
                self.bytes.push(0);
                self.filled = 0;
            }
            if let Some(last) = self.bytes.last_mut() {
                *last |= (((value >> at) & 1) << self.filled) as u8;
            }
            self.filled += 1;
        }
    }

    /// Codes go in from their high end.
    fn push_code(&mut self, code: u32, count: u32) {
        self.push(code.reverse_bits() >> (32 - count), count);
    }
}

/// A grey TIFF with one strip (TIFF 6.0, section 3): its claimed size and its `NewSubfileType`. The
/// strip holds 64 bytes.
pub fn tiff(width: u32, height: u32, subfile: u32) -> Vec<u8> {
    let entries = [
        (0x00fe_u16, subfile),
        (0x0100, width),
        (0x0101, height),
        (0x0102, 8),
        (0x0103, 1),
        (0x0106, 1),
        (0x0111, 8 + 2 + 9 * 12 + 4),
        (0x0116, height),
        (0x0117, 64),
    ];
    let mut bytes = b"II*\0\x08\0\0\0\x09\0".to_vec();
    for (tag, value) in entries {
        bytes.extend(tag.to_le_bytes());
        bytes.extend([4, 0, 1, 0, 0, 0]);
        bytes.extend(value.to_le_bytes());
    }
    bytes.extend([0; 4]);
    bytes.extend([128; 64]);
    bytes
}
