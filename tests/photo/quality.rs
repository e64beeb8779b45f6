//! Measured figures: sharpness, brightness, fingerprint.
//!
//! Reference values: numpy 2.4.6 (area averages as products of whole-number matrices, variances with
//! `var`) and `OpenCV` 5.0.0 (`Laplacian` with `ksize` 1; `resize` with `INTER_AREA` agrees with the
//! matrices before rounding). The pictures are drawn by formula, are smaller than the print room, and
//! come as PNG, so that their pixels arrive unchanged.

use image::{ImageFormat, Rgb, RgbImage};
use splitcase::photo::{Likeness, Quality};

use super::{file, prepared};

fn measured(picture: RgbImage) -> Quality {
    prepared(&file(picture, ImageFormat::Png)).expect("a picture of our own").quality
}

fn grey(width: u32, height: u32, value: impl Fn(u32, u32) -> u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| Rgb([value(x, y) as u8; 3]))
}

#[test]
fn a_picture_of_waves_measures_as_numpy_and_opencv_measure_it() {
    let found = measured(RgbImage::from_fn(680, 640, |x, y| {
        Rgb([x * 3 + y, x * x / 64 + y * 2, x * y / 32].map(|value| (value % 256) as u8))
    }));
    // numpy: 5644.55; the variance is cut.
    assert_eq!((found.sharpness, found.brightest, found.burnt), (5644, 208, 0));
    let falls = [0x342a_5554_cd55_aa95, 0x2aa9_caaa_34aa_554a];
    assert_eq!(found.fingerprint.falls[..2], falls);
    let falls = [0x5555_ab55_2aa5_4aaa, 0x80aa_144a_5554_a955];
    assert_eq!(found.fingerprint.falls[2..], falls);
    let rises = [0xc915_aaa1_22aa_552a, 0x9554_2555_c955_aaa5];
    assert_eq!(found.fingerprint.rises[..2], rises);
    let rises = [0x2aaa_54aa_d552_a555, 0x6855_8a95_aaaa_52aa];
    assert_eq!(found.fingerprint.rises[2..], rises);
}

#[test]
fn a_large_picture_is_measured_at_800_pixels() {
    let found = measured(grey(1100, 700, |x, y| 40 + 160 * ((x / 8 + y / 8) % 2)));
    // numpy: 11213.09 at 800 x 509, where squares of 8 pixels have 5.8.
    assert_eq!((found.sharpness, found.brightest, found.burnt), (11213, 200, 0));
    assert_eq!((found.fingerprint.falls, found.fingerprint.rises), ([0; 4], [0; 4]));
}

#[test]
fn a_ramp_rises_everywhere_and_is_not_sharp() {
    let found = measured(grey(680, 640, |x, _| x * 255 / 679));
    // numpy: 0.77, and 20 thousandths from 250 up.
    assert_eq!((found.sharpness, found.brightest, found.burnt), (0, 242, 20));
    assert_eq!((found.fingerprint.falls, found.fingerprint.rises), ([0; 4], [u64::MAX; 4]));
}

#[test]
fn a_ramp_that_starts_over_falls_where_it_does() {
    let found = measured(grey(680, 640, |x, _| x / 2 % 100));
    // numpy: 351 exactly.
    assert_eq!((found.sharpness, found.brightest), (351, 94));
    assert_eq!(found.fingerprint.falls, [0x0842_0842_0842_0842; 4]);
    assert_eq!(found.fingerprint.rises, [0xf7bd_f7bd_f7bd_f7bd; 4]);
}

#[test]
fn a_step_within_the_dead_zone_is_no_slope() {
    // Columns of 40 pixels are the fingerprint's cells.
    let two = measured(grey(680, 640, |x, _| 100 + 2 * (x / 40 % 2))).fingerprint;
    assert_eq!((two.falls, two.rises), ([0; 4], [0; 4]));
    let three = measured(grey(680, 640, |x, _| 100 + 3 * (x / 40 % 2))).fingerprint;
    assert_eq!(
        (three.rises, three.falls),
        ([0xaaaa_aaaa_aaaa_aaaa; 4], [0x5555_5555_5555_5555; 4])
    );
    assert_eq!(two.likeness(&three), Likeness { unlike: 256, slopes: 256 });
}

#[test]
fn a_picture_of_a_few_pixels_is_measured_without_harm() {
    for (width, height) in [(1, 1), (2, 900), (3, 3), (5, 1)] {
        let found = measured(grey(width, height, |x, y| (x * 90 + y * 7) % 256));
        let least = found.fingerprint.likeness(&found.fingerprint);
        assert_eq!(least.unlike, 0, "{width} x {height}");
    }
}

#[test]
fn few_slopes_give_no_answer() {
    let likeness = Likeness { unlike: 21, slopes: 63 };
    assert_eq!(likeness.unlike_permille(64), None);
    assert_eq!(likeness.unlike_permille(63), Some(333));
    assert_eq!(Likeness { unlike: 0, slopes: 0 }.unlike_permille(0), None);
}
