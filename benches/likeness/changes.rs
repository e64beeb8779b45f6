//! What is done to a photo before somebody passes it off as another.

use image::imageops::{self, FilterType};
use image::{Rgb, RgbImage};
use jpeg_encoder::{ColorType, Encoder};

/// A change with its name.
type Change = (&'static str, fn(&RgbImage) -> Vec<u8>);

/// Every change.
pub const CHANGES: &[Change] = &[
    ("saved again at quality 70", |p| jpeg(p, 70)),
    ("saved again at quality 30", |p| jpeg(p, 30)),
    ("half the size, quality 70", |p| jpeg(&smaller(p, 2), 70)),
    ("a third of the size, quality 50", |p| jpeg(&smaller(p, 3), 50)),
    ("mirrored", |p| jpeg(&imageops::flip_horizontal(p), 85)),
    ("a ring and an arrow drawn in", |p| jpeg(&drawn(p), 85)),
    ("brighter", |p| jpeg(&imageops::brighten(p, 40), 85)),
    ("cut by 5 % on each side", |p| jpeg(&cut(p, [5; 4]), 85)),
    ("cut by 10 % on each side", |p| jpeg(&cut(p, [10; 4]), 85)),
    ("cut by 20 % on each side", |p| jpeg(&cut(p, [20; 4]), 85)),
    ("cut by 30 % on one side", |p| jpeg(&cut(p, [30, 0, 0, 0]), 85)),
    ("cut to half of each edge", |p| jpeg(&cut(p, [15, 30, 35, 20]), 85)),
    ("mirrored and cut, quality 50", |p| {
        jpeg(&imageops::flip_horizontal(&cut(p, [3, 10, 15, 8])), 50)
    }),
    ("cut, a third, brighter, quality 40", |p| {
        jpeg(&imageops::brighten(&smaller(&cut(p, [8, 10, 12, 6]), 3), 25), 40)
    }),
    ("turned by 2 degrees and cut", |p| jpeg(&turned(p), 85)),
];

fn jpeg(picture: &RgbImage, quality: u8) -> Vec<u8> {
    let mut bytes = Vec::new();
    let (width, height) = picture.dimensions();
    let encoder = Encoder::new(&mut bytes, quality);
    encoder.encode(picture.as_raw(), width as u16, height as u16, ColorType::Rgb).unwrap();
    bytes
}

fn smaller(picture: &RgbImage, by: u32) -> RgbImage {
    let (width, height) = picture.dimensions();
    imageops::resize(picture, width / by, height / by, FilterType::Triangle)
}

/// Cuts off so many hundredths: left, top, right, bottom.
fn cut(picture: &RgbImage, [left, top, right, bottom]: [u32; 4]) -> RgbImage {
    let (width, height) = picture.dimensions();
    let (w, h) = (width * (100 - left - right) / 100, height * (100 - top - bottom) / 100);
    imageops::crop_imm(picture, width * left / 100, height * top / 100, w, h).to_image()
}

fn drawn(picture: &RgbImage) -> RgbImage {
    let mut drawn = picture.clone();
    let width = f64::from(picture.width());
    for (x, y, pixel) in drawn.enumerate_pixels_mut() {
        let (u, v) = (f64::from(x) / width, f64::from(y) / width);
        let ring = (u - 0.45).hypot(v - 0.35);
        if (0.14..0.15).contains(&ring) || ((u - v).abs() < 0.006 && u < 0.35) {
            *pixel = Rgb([230, 20, 20]);
        }
    }
    drawn
}

fn turned(picture: &RgbImage) -> RgbImage {
    let (width, height) = picture.dimensions();
    let (sine, cosine) = 2_f64.to_radians().sin_cos();
    let middle = (f64::from(width) / 2.0, f64::from(height) / 2.0);
    RgbImage::from_fn(width * 9 / 10, height * 9 / 10, |x, y| {
        let (x, y) = (f64::from(x) - middle.0 * 0.9, f64::from(y) - middle.1 * 0.9);
        let (u, v) = (x * cosine - y * sine + middle.0, x * sine + y * cosine + middle.1);
        *picture.get_pixel((u as u32).min(width - 1), (v as u32).min(height - 1))
    })
}
