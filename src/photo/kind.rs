//! What a file is, by its first bytes: bytes -> [`Kind`].
//!
//! A file name is never asked: phones, mail programs and people rename files. Not here: whether the
//! picture inside is sound, which only decoding shows.

/// A picture format that this stage reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Format {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// WebP, still or the first frame of an animation.
    WebP,
    /// TIFF, first page.
    Tiff,
    /// Windows bitmap.
    Bmp,
    /// HEIC, as phones write it.
    Heic,
}

impl Format {
    /// The format's usual name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Jpeg => "JPEG",
            Self::Png => "PNG",
            Self::WebP => "WebP",
            Self::Tiff => "TIFF",
            Self::Bmp => "BMP",
            Self::Heic => "HEIC",
        }
    }
}

/// The container of a film.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Film {
    /// MP4 and its relatives (3GP, M4V).
    Mp4,
    /// `QuickTime` (`.mov`).
    QuickTime,
    /// AVI.
    Avi,
    /// Matroska and `WebM`.
    Matroska,
}

/// What a file looks like from its content.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A picture that this stage reads.
    Picture(Format),
    /// An AVIF picture: a photo, but not read here.
    Avif,
    /// A GIF picture: no camera writes it.
    Gif,
    /// A JPEG XL picture.
    JpegXl,
    /// Raw data of a camera.
    CameraRaw,
    /// A film.
    Film(Film),
    /// A PDF document.
    Pdf,
    /// A web page or other markup, often a download that failed.
    Markup,
    /// A ZIP archive; office documents are such archives too.
    Archive,
    /// No byte at all.
    Empty,
    /// Nothing that is known here.
    Unknown,
}

impl Kind {
    /// What to call it in a sentence, with its article: `a film (MP4)`.
    pub fn phrase(self) -> &'static str {
        match self {
            Self::Picture(Format::Heic) => "a HEIC picture",
            Self::Picture(Format::Jpeg) => "a JPEG picture",
            Self::Picture(Format::Png) => "a PNG picture",
            Self::Picture(Format::WebP) => "a WebP picture",
            Self::Picture(Format::Tiff) => "a TIFF picture",
            Self::Picture(Format::Bmp) => "a BMP picture",
            Self::Avif => "an AVIF picture",
            Self::Gif => "a GIF picture",
            Self::JpegXl => "a JPEG XL picture",
            Self::CameraRaw => "raw data of a camera",
            Self::Film(Film::Mp4) => "a film (MP4)",
            Self::Film(Film::QuickTime) => "a film (QuickTime)",
            Self::Film(Film::Avi) => "a film (AVI)",
            Self::Film(Film::Matroska) => "a film (Matroska or WebM)",
            Self::Pdf => "a PDF document",
            Self::Markup => "a web page or other markup",
            Self::Archive => "a ZIP archive or an office document",
            Self::Empty => "an empty file",
            Self::Unknown => "nothing that is known here",
        }
    }
}

/// Says what `bytes` are from their content, never from a name. Looks at the first 512 bytes.
pub fn kind_of(bytes: &[u8]) -> Kind {
    match bytes {
        [] => Kind::Empty,
        [0xff, 0xd8, 0xff, ..] => Kind::Picture(Format::Jpeg),
        [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n', ..] => Kind::Picture(Format::Png),
        [b'R', b'I', b'F', b'F', _, _, _, _, form @ ..] if form.starts_with(b"WEBP") => {
            Kind::Picture(Format::WebP)
        }
        [b'R', b'I', b'F', b'F', _, _, _, _, form @ ..] if form.starts_with(b"AVI ") => {
            Kind::Film(Film::Avi)
        }
        [b'I', b'I', 42, 0, _, _, _, _, b'C', b'R', ..] => Kind::CameraRaw,
        [b'I', b'I', 42, 0, ..] | [b'M', b'M', 0, 42, ..] => Kind::Picture(Format::Tiff),
        [b'B', b'M', rest @ ..] if rest.len() >= 24 && rest[4..8] == [0; 4] => {
            Kind::Picture(Format::Bmp)
        }
        [b'G', b'I', b'F', b'8', ..] => Kind::Gif,
        [0xff, 0x0a, ..] | [0, 0, 0, 12, b'J', b'X', b'L', b' ', ..] => Kind::JpegXl,
        [0x1a, 0x45, 0xdf, 0xa3, ..] => Kind::Film(Film::Matroska),
        [b'%', b'P', b'D', b'F', b'-', ..] => Kind::Pdf,
        [b'P', b'K', 3, 4, ..] => Kind::Archive,
        [_, _, _, _, b'f', b't', b'y', b'p', ..] => boxed(bytes),
        [_, _, _, _, name @ ..]
            if [b"moov", b"mdat", b"wide"].iter().any(|n| name.starts_with(*n)) =>
        {
            Kind::Film(Film::QuickTime)
        }
        _ if is_markup(bytes) => Kind::Markup,
        _ => Kind::Unknown,
    }
}

/// Distinguishes files of the ISO base media format (ISO/IEC 14496-12) by their brands: the major
/// brand decides, and if it is the general `mif1`, the compatible ones do.
fn boxed(bytes: &[u8]) -> Kind {
    let stated = u32::from_be_bytes([bytes[0], bytes[1], bytes[2], bytes[3]]) as usize;
    let brands = bytes.get(8..stated.min(512).min(bytes.len())).unwrap_or_default();
    let major = brands.get(..4).unwrap_or_default();
    let compatible = |brand: &[u8]| brands.chunks_exact(4).skip(2).any(|found| found == brand);
    match major {
        b"heic" | b"heix" | b"heim" | b"heis" | b"hevc" | b"hevx" => Kind::Picture(Format::Heic),
        b"avif" | b"avis" => Kind::Avif,
        b"mif1" | b"msf1" if compatible(b"avif") => Kind::Avif,
        b"mif1" | b"msf1" => Kind::Picture(Format::Heic),
        b"crx " => Kind::CameraRaw,
        b"qt  " => Kind::Film(Film::QuickTime),
        b"" => Kind::Unknown,
        _ => Kind::Film(Film::Mp4),
    }
}

/// A `<` as the first sign, after a byte order mark and white space.
fn is_markup(bytes: &[u8]) -> bool {
    let start = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let first = start.iter().take(512).find(|byte| !byte.is_ascii_whitespace());
    first == Some(&b'<')
}
