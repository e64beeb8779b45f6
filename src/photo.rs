//! The photo stage: the bytes of one photo -> a clean, upright sRGB JPEG at print size, and what the
//! evidence list says about the original.
//!
//! ```text
//! bytes -> kind -> source (header only) -> raster -> scaled -> sRGB -> upright -> JPEG
//!            |        `- capture time, camera, size           (the budget is held from
//!            `- SHA-256                                        raster to JPEG)
//! ```
//!
//! A photo is a stranger's file: it is known by its content, measured before anything is allocated,
//! decoded behind a guard, and leaves as a fresh JPEG that holds pixels and nothing else.
//!
//! Not here: reading files (intake), drawing marks on photos (document), keeping originals (archive).

mod budget;
mod colour;
mod edited;
mod encode;
mod exif_block;
mod facts;
mod guard;
mod header;
#[cfg(feature = "heic")]
mod heic;
mod jpeg;
mod jpeg_markers;
mod kind;
mod print_size;
pub mod problems;
mod quality;
mod raster;
mod refusal;
mod scale;
mod source;
mod taken;
mod tiff_palette;
mod turn;
mod without_metadata;

use crate::digest::Digest;
use raster::Raster;

pub use budget::{Permit, PixelBudget};
pub use colour::Colour;
pub use edited::{EditSign, Edited};
pub use facts::Facts;
pub use header::MAX_PIXELS;
pub use kind::{Film, Format, Kind, kind_of};
pub use print_size::{PRINT_DPI, PrintSize};
pub use quality::{
    Agreement, Fingerprint, Fit, Landmark, Likeness, MOST_LANDMARKS, PLACES, Quality, Sameness,
    Shade,
};
pub use refusal::Refusal;
pub use taken::Taken;
pub use without_metadata::without_metadata;

/// Most bytes that one photo file may have: 80 MiB.
pub const MAX_FILE_BYTES: u64 = 80 << 20;

/// One photo, ready to be set into a paper.
#[derive(Debug, Clone)]
pub struct Photo {
    /// The print copy: a baseline JPEG in sRGB without any metadata.
    pub jpeg: Vec<u8>,
    /// Width of the print copy in pixels.
    pub width: u32,
    /// Height of the print copy in pixels.
    pub height: u32,
    /// What was measured of it.
    pub quality: Quality,
    /// Spots by which it is known again.
    pub landmarks: Vec<Landmark>,
    /// Spots of the sizes between, by which a part of another photo is known again.
    pub between: Vec<Landmark>,
    /// What is known about the original.
    pub facts: Facts,
}

/// A photo of a job folder under its number on paper.
pub struct NamedPhoto {
    /// File name in the job folder.
    pub name: String,
    /// The print copy and what is known of the original.
    pub photo: Photo,
}

/// Makes the print copy of `original` and reads its facts.
///
/// `print` is the room on paper; the copy is never larger than the original. The call waits until
/// `budget` has room for the pixels. The same bytes give the same copy.
///
/// # Errors
/// A [`Refusal`] says why there is no print copy. A panic inside a decoder becomes
/// [`Refusal::Broken`]; the permit is given back.
pub fn prepare(original: &[u8], print: PrintSize, budget: &PixelBudget) -> Result<Photo, Refusal> {
    guard::contain(|| {
        let opened = open(original, print, budget)?;
        let upright = &opened.raster;
        let (quality, (landmarks, between)) = Quality::of(upright);
        Ok(Photo {
            jpeg: encode::jpeg(upright)?,
            width: upright.width,
            height: upright.height,
            quality,
            landmarks,
            between,
            facts: opened.facts(original),
        })
    })
}

/// When a photo was taken, by its header alone; `None` if its camera did not record it.
///
/// # Errors
/// It is no picture that can be read, or one whose header makes no sense.
pub fn taken(original: &[u8]) -> Result<Option<Taken>, Refusal> {
    guard::contain(|| {
        let (header, _) = source::open(original, kind_of(original).readable()?)?;
        Ok(exif_block::read(header.exif.as_deref()).taken)
    })
}

/// Reads the brightness of `original`, prepared as for a print copy, to be laid on another picture.
///
/// # Errors
/// As [`prepare`].
pub fn shade(
    original: &[u8],
    print: PrintSize,
    budget: &PixelBudget,
) -> Result<(Shade, Facts), Refusal> {
    guard::contain(|| {
        let opened = open(original, print, budget)?;
        let shade = Shade::of(&opened.raster);
        Ok((shade, opened.facts(original)))
    })
}

/// A photo as it goes to print, before it is packed.
struct Opened<'a> {
    /// The picture, upright and in sRGB.
    raster: Raster,
    header: header::Header,
    format: Format,
    /// Width and height of the upright original.
    size: (u32, u32),
    damaged: bool,
    colour: Colour,
    /// Room for the pixels.
    permit: Permit<'a>,
}

/// Opens a photo, and makes it as large as it is printed, sRGB and upright.
fn open<'a>(
    original: &[u8],
    print: PrintSize,
    budget: &'a PixelBudget,
) -> Result<Opened<'a>, Refusal> {
    if original.len() as u64 > MAX_FILE_BYTES {
        return Err(Refusal::TooLarge { limit: MAX_FILE_BYTES });
    }
    let format = kind_of(original).readable()?;
    let (header, source) = source::open(original, format)?;
    check_weight(&header)?;
    let permit = budget.wait_for(header.weight);

    let (width, height) = header.turn.swap((header.width, header.height));
    let stored_copy = header.turn.swap(print.fit(width, height));
    let decoded = source.decode(stored_copy)?;
    let small = scale::to_size(decoded.raster, stored_copy)?;
    let (srgb, colour) = colour::to_srgb(small, &header.profile);
    let raster = turn::upright(srgb, header.turn)?;
    let (size, damaged) = ((width, height), decoded.damaged);
    Ok(Opened { raster, header, format, size, damaged, colour, permit })
}

impl Opened<'_> {
    /// The facts; gives the room back.
    fn facts(self, original: &[u8]) -> Facts {
        drop((self.raster, self.permit));
        let exif = exif_block::read(self.header.exif.as_deref());
        let xmp = self.header.xmp.as_deref();
        let edited = edited::of(exif.taken.as_ref(), &exif.last_change, xmp);
        let (width, height) = self.size;
        Facts {
            sha256: Digest::of(original),
            bytes: original.len() as u64,
            format: self.format,
            width,
            height,
            taken: exif.taken,
            camera: exif.camera,
            edited,
            damaged: self.damaged,
            colour: self.colour,
            has_location: exif.has_location,
        }
    }
}

/// Refuses a photo that alone takes more memory than the whole run may.
fn check_weight(header: &header::Header) -> Result<(), Refusal> {
    let (width, height) = (header.width, header.height);
    if header.weight <= PixelBudget::WHOLE {
        return Ok(());
    }
    let limit = u64::from(width) * u64::from(height) * PixelBudget::WHOLE / header.weight;
    Err(Refusal::TooManyPixels { width, height, limit })
}
