//! Colours: embedded profiles, printing inks.
//!
//! Reference values: littlecms 2 (through Pillow's `ImageCms`, 8 bits, to its built-in sRGB) with the
//! same two profiles, `wide-display.icc` relative colorimetric, `soft-inks.icc` perceptual.

use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder, ImageFormat, Rgb, RgbImage};
use jpeg_encoder::{ColorType, Encoder};
use splitcase::photo::Colour;

use super::{assert_quarters, file, maker, near, pixels, prepared};

/// A profile with the primaries of SMPTE EG 432-1 and the curve of sRGB.
const WIDE_DISPLAY: &[u8] = include_bytes!("wide-display.icc");

/// A profile for four inks on a grid of five points an ink.
const SOFT_INKS: &[u8] = include_bytes!("soft-inks.icc");

/// Colours in the wide space, and in sRGB by littlecms.
const WIDE: [([u8; 3], [u8; 3]); 5] = [
    ([180, 60, 60], [196, 47, 54]),
    ([90, 160, 90], [61, 162, 81]),
    ([70, 90, 170], [64, 91, 176]),
    ([128, 128, 128], [128, 128, 128]),
    ([200, 180, 120], [204, 179, 111]),
];

#[test]
fn wide_gamut_colours_are_converted_as_littlecms_does() {
    for (stored, wanted) in WIDE {
        let picture = RgbImage::from_pixel(48, 48, Rgb(stored));
        let mut png = Vec::new();
        let mut encoder = PngEncoder::new(&mut png);
        encoder.set_icc_profile(WIDE_DISPLAY.to_vec()).expect("PNG takes profiles");
        encoder
            .write_image(picture.as_raw(), 48, 48, ExtendedColorType::Rgb8)
            .expect("our own picture");
        let jpeg = maker::jpeg_with_profile(&file(picture, ImageFormat::Jpeg), WIDE_DISPLAY);
        for bytes in [png, jpeg] {
            let photo = prepared(&bytes).expect("a sound photo");
            assert_eq!(photo.facts.colour, Colour::Converted);
            let found = pixels(&photo).get_pixel(24, 24).0;
            assert!(near(found, wanted, 4), "{:?}: {found:?}, {wanted:?}", photo.facts.format);
        }
    }
}

#[test]
fn a_damaged_profile_is_left_out_and_told() {
    let picture = RgbImage::from_pixel(48, 48, Rgb([180, 60, 60]));
    let jpeg = maker::jpeg_with_profile(&file(picture, ImageFormat::Jpeg), &WIDE_DISPLAY[..90]);
    let photo = prepared(&jpeg).expect("a sound photo");
    assert_eq!(photo.facts.colour, Colour::ProfileIgnored);
    assert!(near(pixels(&photo).get_pixel(24, 24).0, [180, 60, 60], 4));
}

#[test]
fn a_grey_photo_takes_the_brightness_of_its_profile() {
    let grey = image::GrayImage::from_pixel(48, 48, image::Luma([128]));
    let jpeg = maker::jpeg_with_profile(&file(grey, ImageFormat::Jpeg), WIDE_DISPLAY);
    let photo = prepared(&jpeg).expect("a sound photo");
    assert_eq!(photo.facts.colour, Colour::Converted);
    assert!(near(pixels(&photo).get_pixel(24, 24).0, [128; 3], 2));
}

#[test]
fn printing_inks_without_a_profile_come_out_near() {
    // Paper, cyan, magenta, yellow; full ink takes its own channel away and nothing else.
    let photo = prepared(include_bytes!("inks.jpg")).expect("a sound photo");
    assert_eq!(photo.facts.colour, Colour::PlainInks);
    assert_quarters(&photo, [[255, 255, 255], [0, 255, 255], [255, 0, 255], [255, 255, 0]]);
}

#[test]
fn printing_inks_are_converted_by_their_profile() {
    let inks = [
        ([0, 0, 0, 0], [255, 255, 255]),
        ([255, 0, 0, 0], [0, 167, 227]),
        ([0, 255, 0, 0], [218, 56, 133]),
        ([0, 0, 255, 0], [255, 238, 56]),
        ([128, 64, 0, 32], [133, 149, 184]),
    ];
    for (ink, wanted) in inks {
        let mut jpeg = Vec::new();
        let encoder = Encoder::new(&mut jpeg, 95);
        encoder.encode(&ink.repeat(48 * 48), 48, 48, ColorType::Cmyk).expect("our own picture");
        let jpeg = maker::jpeg_with_profile(&jpeg, SOFT_INKS);
        let photo = prepared(&jpeg).expect("a sound photo");
        assert_eq!(photo.facts.colour, Colour::Converted);
        let found = pixels(&photo).get_pixel(24, 24).0;
        assert!(near(found, wanted, 8), "{ink:?}: {found:?}, {wanted:?}");
    }
}
