//! The photo stage: hostile and honest files in, clean upright copies and facts out.
//!
//! Most files are made by the tests themselves. Those beside this file are a few hundred bytes each
//! and show one drawn picture, four quarters of one colour each:
//! `*.heic` (written by libheif; `turned.heic` repeats its rotation in the Exif block, in
//! `two-pictures.heic` the second is the primary one, `claims-*.heic` have an altered size),
//! `inks.jpg`, `moving.webp`, `palette.png` (written by Pillow), and two colour profiles of our own.

use std::io::Cursor;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use splitcase::photo::{Photo, PixelBudget, PrintSize, Refusal, prepare};

/// The budget for pixels.
mod budget;
/// Print copies hold pixels and nothing else, and are the same on every run.
mod clean;
/// Profiles, inks, opacity.
mod colour;
/// What metadata say of changes.
mod edited;
/// Digest, capture time, camera, place.
mod facts;
/// Every format that is read, and names for those that are not.
mod formats;
/// Damaged, mislabelled and hostile files.
mod hostile;
/// Writes small hostile or unusual files byte by byte.
pub mod maker;
/// Sharpness, brightness, fingerprint.
mod quality;
/// Pictures stand upright.
mod upright;

/// The colours of the drawn picture: top left, top right, bottom left, bottom right.
const QUARTERS: [[u8; 3]; 4] = [[200, 30, 30], [30, 160, 60], [40, 60, 200], [230, 210, 40]];

/// The drawn picture.
fn drawing(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let right = u32::from(x >= width / 2);
        let below = u32::from(y >= height / 2);
        Rgb(QUARTERS[(below * 2 + right) as usize])
    })
}

/// The drawn picture as a file.
fn file(picture: impl Into<DynamicImage>, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.into().write_to(&mut bytes, format).expect("a picture of our own can be written");
    bytes.into_inner()
}

/// The stage at the width of a text column.
fn prepared(bytes: &[u8]) -> Result<Photo, Refusal> {
    prepare(bytes, PrintSize::of_mm(137.0, 137.0), &PixelBudget::default())
}

/// The pixels of a print copy.
fn pixels(photo: &Photo) -> RgbImage {
    let copy = image::load_from_memory_with_format(&photo.jpeg, ImageFormat::Jpeg)
        .expect("a print copy is a JPEG")
        .into_rgb8();
    assert_eq!(copy.dimensions(), (photo.width, photo.height));
    copy
}

/// The colours at the middle of each quarter: top left, top right, bottom left, bottom right.
fn quarters(photo: &Photo) -> [[u8; 3]; 4] {
    let copy = pixels(photo);
    let (width, height) = copy.dimensions();
    [(1, 1), (3, 1), (1, 3), (3, 3)].map(|(x, y)| copy.get_pixel(width * x / 4, height * y / 4).0)
}

/// Whether two colours differ by at most `by` in each channel; JPEG itself costs about three.
fn near(found: [u8; 3], wanted: [u8; 3], by: u8) -> bool {
    found.iter().zip(wanted).all(|(found, wanted)| found.abs_diff(wanted) <= by)
}

/// Checks the four quarters.
#[track_caller]
fn assert_quarters(photo: &Photo, wanted: [[u8; 3]; 4]) {
    let found = quarters(photo);
    let fits = found.iter().zip(wanted).all(|(found, wanted)| near(*found, wanted, 6));
    assert!(fits, "found {found:?}, wanted {wanted:?}");
}
