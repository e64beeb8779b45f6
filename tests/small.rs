//! The samples with smaller photos, for tests that ask nothing of pixels: most of a sample's time is its photos.

use std::fs;
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use image::codecs::jpeg::{JpegDecoder, JpegEncoder};
use image::{DynamicImage, ImageDecoder, ImageEncoder};

/// Longest side of a photo, in pixels.
const LONGEST: u32 = 480;

/// The folder of the samples, their photos made smaller, with the same EXIF data; made once a run.
pub fn samples() -> &'static Path {
    static MADE: OnceLock<PathBuf> = OnceLock::new();
    MADE.get_or_init(|| {
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
        let to = Path::new(env!("CARGO_TARGET_TMPDIR")).join("small-samples");
        if to.exists() {
            fs::remove_dir_all(&to).unwrap();
        }
        for file in walkdir::WalkDir::new(&from).min_depth(1).max_depth(2) {
            let file = file.unwrap();
            let place = to.join(file.path().strip_prefix(&from).unwrap());
            let is_jpeg = file.path().extension().is_some_and(|ending| ending == "jpg");
            if file.file_type().is_file() {
                let bytes = fs::read(file.path()).unwrap();
                fs::create_dir_all(place.parent().unwrap()).unwrap();
                fs::write(place, if is_jpeg { smaller(&bytes) } else { bytes }).unwrap();
            }
        }
        to
    })
}

fn smaller(bytes: &[u8]) -> Vec<u8> {
    let mut decoder = JpegDecoder::new(Cursor::new(bytes)).unwrap();
    let exif = decoder.exif_metadata().unwrap();
    let picture = DynamicImage::from_decoder(decoder).unwrap().thumbnail(LONGEST, LONGEST);
    let mut smaller = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut smaller, 85);
    if let Some(exif) = exif {
        encoder.set_exif_metadata(exif).unwrap();
    }
    let (width, height) = (picture.width(), picture.height());
    let colour = picture.color().into();
    encoder.write_image(picture.as_bytes(), width, height, colour).unwrap();
    smaller
}
