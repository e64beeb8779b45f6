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

/// A WebP with an Exif block: the picture's own chunk between a `VP8X` head and an `EXIF` chunk
/// (WebP Container Specification, "Extended File Format").
pub fn webp_with_exif(webp: &[u8], size: (u32, u32), orientation: u16, block: &[u8]) -> Vec<u8> {
    let (width, height) = if orientation < 5 { size } else { (size.1, size.0) };
    let chunk = |name: &[u8; 4], content: &[u8]| {
        let pad = vec![0; content.len() % 2];
        [name.as_slice(), &(content.len() as u32).to_le_bytes(), content, &pad].concat()
    };
    let edge = |pixels: u32| (pixels - 1).to_le_bytes()[..3].to_vec();
    let head = [vec![0b1000, 0, 0, 0], edge(width), edge(height)].concat();
    let body = [chunk(b"VP8X", &head), webp[12..].to_vec(), chunk(b"EXIF", block)].concat();
    let length = (body.len() as u32 + 4).to_le_bytes();
    [b"RIFF".as_slice(), &length, b"WEBP", &body].concat()
}

/// An unpacked TIFF of one strip (TIFF 6.0): entries of a tag, a type and a value each, then what lies
/// behind the directory. The strip's place is filled in where an entry says so.
fn tiff_file(is_little: bool, entries: &[(u16, u16, u32, u32)], after: &[u8]) -> Vec<u8> {
    let short = |n: u16| if is_little { n.to_le_bytes() } else { n.to_be_bytes() };
    let long = |n: u32| if is_little { n.to_le_bytes() } else { n.to_be_bytes() };
    let mut out = if is_little { b"II".to_vec() } else { b"MM".to_vec() };
    out.extend(short(42));
    out.extend(long(8));
    out.extend(short(entries.len() as u16));
    for &(tag, kind, count, value) in entries {
        out.extend([short(tag), short(kind)].concat());
        out.extend(long(count));
        match (kind, count) {
            (3, 1) => out.extend([short(value as u16), short(0)].concat()),
            _ => out.extend(long(value)),
        }
    }
    out.extend(long(0));
    out.extend(after);
    out
}

/// Where the bytes behind a directory with this many entries start.
fn behind(entries: u32) -> u32 {
    8 + 2 + 12 * entries + 4
}

/// A TIFF of a picture with an orientation.
pub fn tiff_of(picture: &image::RgbImage, orientation: u16) -> Vec<u8> {
    let (width, height) = picture.dimensions();
    let start = behind(10);
    let bits: Vec<u8> = [8_u16; 3].iter().flat_map(|bits| bits.to_le_bytes()).collect();
    let entries = [
        (256, 4, 1, width),
        (257, 4, 1, height),
        (258, 3, 3, start),
        (259, 3, 1, 1),
        (262, 3, 1, 2),
        (273, 4, 1, start + 6),
        (274, 3, 1, u32::from(orientation)),
        (277, 3, 1, 3),
        (278, 4, 1, height),
        (279, 4, 1, width * height * 3),
    ];
    tiff_file(true, &entries, &[bits, picture.as_raw().clone()].concat())
}

/// A TIFF of four quarters whose pixels are the numbers 7, 11, 200 and 255 of a palette.
pub fn palette_tiff(is_little: bool, orientation: u16, quarters: [[u8; 3]; 4]) -> Vec<u8> {
    let (width, height) = (64_u32, 64_u32);
    let start = behind(10);
    let numbers = [7_u8, 11, 200, 255];
    let mut map = vec![0_u16; 768];
    for (number, colour) in numbers.iter().zip(quarters) {
        for (channel, value) in colour.into_iter().enumerate() {
            map[256 * channel + usize::from(*number)] = u16::from(value) * 257;
        }
    }
    let map = map.iter().flat_map(|n| if is_little { n.to_le_bytes() } else { n.to_be_bytes() });
    let pixels = (0..width * height).map(|at| {
        let (right, below) = (at % width / (width / 2), at / width / (height / 2));
        numbers[(below * 2 + right) as usize]
    });
    let entries = [
        (256, 4, 1, width),
        (257, 4, 1, height),
        (258, 3, 1, 8),
        (259, 3, 1, 1),
        (262, 3, 1, 3),
        (273, 4, 1, start + 1536),
        (274, 3, 1, u32::from(orientation)),
        (278, 4, 1, height),
        (279, 4, 1, width * height),
        (320, 3, 768, start),
    ];
    tiff_file(is_little, &entries, &map.chain(pixels).collect::<Vec<u8>>())
}
