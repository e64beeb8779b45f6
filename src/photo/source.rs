//! Opening a photo: bytes and format -> header, and later pixels.
//!
//! The header is read first and costs next to nothing; sizes are refused there, before anything of
//! the picture's size is allocated. Not here: JPEG and HEIC, which have their own files.

use std::io::{BufRead, Cursor, Seek};

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

use crate::photo::colour::Profile;
use crate::photo::header::{Decoded, Header, MAX_PIXELS, check_size, raster_of};
#[cfg(feature = "heic")]
use crate::photo::heic;
use crate::photo::kind::{Format, Kind};
use crate::photo::raster::{Channels, Raster};
use crate::photo::refusal::Refusal;
use crate::photo::tiff_palette::{self, Palette};
use crate::photo::turn::Turn;
use crate::photo::{exif_block, jpeg};

/// Most memory that a PNG's side chunks may inflate to, 32 MiB: it bounds a compressed profile that
/// unpacks without end.
const PNG_ALLOCATION: u64 = 32 << 20;

/// Most memory that any other decoder may take for itself: eight bytes a pixel.
const ALLOCATION: u64 = MAX_PIXELS * 8;

/// An opened photo whose pixels are still packed.
pub(super) enum Source<'a> {
    /// A JPEG, which can shrink while it is decoded.
    Jpeg(jpeg::File<'a>),
    /// A HEIC.
    #[cfg(feature = "heic")]
    Heic(&'a [u8]),
    /// A TIFF whose pixels are numbers of a palette.
    Palette(Box<dyn ImageDecoder>, Box<Palette>),
    /// Any other format.
    Other(Box<dyn ImageDecoder + 'a>),
}

/// Reads the header of `bytes`.
///
/// # Errors
/// [`Refusal::TooManyPixels`] by the claimed size, [`Refusal::Unsupported`] for raw data in a TIFF,
/// [`Refusal::Broken`] when the header makes no sense.
pub(super) fn open(bytes: &[u8], format: Format) -> Result<(Header, Source<'_>), Refusal> {
    match format {
        Format::Jpeg => jpeg::open(bytes).map(|(header, file)| (header, Source::Jpeg(file))),
        #[cfg(feature = "heic")]
        Format::Heic => heic::open(bytes).map(|header| (header, Source::Heic(bytes))),
        #[cfg(not(feature = "heic"))]
        Format::Heic => Err(Refusal::Unsupported(Kind::Picture(format))),
        Format::Png => other(bytes, ImageFormat::Png),
        Format::WebP => other(bytes, ImageFormat::WebP),
        Format::Bmp => other(bytes, ImageFormat::Bmp),
        Format::Tiff => {
            let (header, source) = tiff(bytes)?;
            if exif_block::read(header.exif.as_deref()).is_raw {
                return Err(Refusal::Unsupported(Kind::CameraRaw));
            }
            Ok((header, source))
        }
    }
}

fn tiff(bytes: &[u8]) -> Result<(Header, Source<'_>), Refusal> {
    match tiff_palette::as_grey(bytes) {
        None => other(bytes, ImageFormat::Tiff),
        Some((grey, palette)) => {
            let (mut header, decoder) = opened(Cursor::new(grey), ImageFormat::Tiff)?;
            header.exif = Some(bytes.to_vec());
            // The numbers and their colours are both held for a while.
            header.weight *= 2;
            Ok((header, Source::Palette(decoder, palette)))
        }
    }
}

fn other(bytes: &[u8], format: ImageFormat) -> Result<(Header, Source<'_>), Refusal> {
    let (mut header, decoder) = opened(Cursor::new(bytes), format)?;
    if format == ImageFormat::Tiff {
        // A TIFF is its own Exif block.
        header.exif = Some(bytes.to_vec());
    }
    Ok((header, Source::Other(decoder)))
}

fn opened<'a, R: BufRead + Seek + 'a>(
    bytes: R,
    format: ImageFormat,
) -> Result<(Header, Box<dyn ImageDecoder + 'a>), Refusal> {
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(if format == ImageFormat::Png { PNG_ALLOCATION } else { ALLOCATION });
    let mut reader = ImageReader::with_format(bytes, format);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(Refusal::of_decoder)?;
    let (width, height) = decoder.dimensions();
    check_size(width, height)?;
    let profile = decoder.icc_profile().ok().flatten();
    let exif = decoder.exif_metadata().ok().flatten();
    let header = Header {
        width,
        height,
        turn: turn(&mut decoder, format, exif.as_deref()),
        profile: profile.map_or(Profile::Absent, Profile::Icc),
        exif,
        xmp: decoder.xmp_metadata().ok().flatten(),
        weight: (decoder.total_bytes() + u64::from(width) * u64::from(height) * 4) / 5,
    };
    Ok((header, Box::new(decoder)))
}

/// How the picture must be turned. Some programs write `Exif\0\0` before the block of a WebP or PNG, as
/// in a JPEG, and the decoder does not look behind it.
fn turn(decoder: &mut impl ImageDecoder, format: ImageFormat, exif: Option<&[u8]>) -> Turn {
    let block = exif.filter(|_| format != ImageFormat::Tiff);
    let block = block.and_then(|block| block.strip_prefix(b"Exif\0\0"));
    let orientation = match block {
        Some(block) => Orientation::from_exif_chunk(block),
        None => decoder.orientation().ok(),
    };
    Turn::of(orientation.unwrap_or(Orientation::NoTransforms))
}

impl Source<'_> {
    /// Unpacks the pixels. A JPEG may come out smaller than stored, but never smaller than
    /// `at_least` in width and height.
    pub(super) fn decode(self, at_least: (u32, u32)) -> Result<Decoded, Refusal> {
        match self {
            Self::Jpeg(file) => file.decode(at_least),
            #[cfg(feature = "heic")]
            Self::Heic(bytes) => heic::decode(bytes),
            Self::Palette(decoder, palette) => {
                let numbers = DynamicImage::from_decoder(decoder).map_err(Refusal::of_decoder)?;
                let numbers = numbers.into_luma8();
                let pixels = numbers.iter().flat_map(|&number| palette[usize::from(number)]);
                let raster = Raster::new(numbers.dimensions(), Channels::Rgb, pixels.collect())?;
                Ok(Decoded { raster, damaged: false })
            }
            Self::Other(decoder) => {
                let picture = DynamicImage::from_decoder(decoder).map_err(Refusal::of_decoder)?;
                Ok(Decoded { raster: raster_of(picture)?, damaged: false })
            }
        }
    }
}
