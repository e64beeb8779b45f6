//! How well photos of other jobs are known again, and how fast: changed copies, strangers, 10,000 photos.
#![expect(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a measurement prints, reads the clock and stops at the first thing that is wrong"
)]

use std::fs;

use image::imageops::{self, FilterType};
use image::{ImageFormat, RgbImage};
use jpeg_encoder::{ColorType, Encoder};
use splitcase::assessment::recognition::{Look, Table};
use splitcase::document;
use splitcase::photo::{self, Photo, PixelBudget, Shade};

fn jpeg(picture: &RgbImage, quality: u8) -> Vec<u8> {
    let mut bytes = Vec::new();
    let encoder = Encoder::new(&mut bytes, quality);
    let (width, height) = picture.dimensions();
    encoder.encode(picture.as_raw(), width as u16, height as u16, ColorType::Rgb).unwrap();
    bytes
}

fn cut(picture: &RgbImage, left: u32, top: u32, right: u32, bottom: u32) -> RgbImage {
    let (w, h) = picture.dimensions();
    let (x, y) = (w * left / 100, h * top / 100);
    imageops::crop_imm(
        picture,
        x,
        y,
        w * (100 - left - right) / 100,
        h * (100 - top - bottom) / 100,
    )
    .to_image()
}

fn drawn(picture: &RgbImage) -> RgbImage {
    let mut picture = picture.clone();
    let (w, h) = picture.dimensions();
    for y in 0..h {
        for x in 0..w {
            let (u, v) = (f64::from(x) / f64::from(w), f64::from(y) / f64::from(w));
            let ring = ((u - 0.45).powi(2) + (v - 0.35).powi(2)).sqrt();
            if (0.14..0.15).contains(&ring) || ((u - v).abs() < 0.006 && u < 0.35) {
                picture.put_pixel(x, y, image::Rgb([230, 20, 20]));
            }
        }
    }
    picture
}

const CHANGES: &[&str] = &[
    "q70",
    "half q70",
    "q30",
    "third q50",
    "mirrored",
    "drawn",
    "brighter",
    "cut 2",
    "cut 5",
    "cut 10",
    "cut 20",
    "cut one side 30",
    "cut to a half",
    "mirrored cut 10 q50",
    "cut 10 third q40 brighter",
    "turned 2",
    "quarter size q60",
];

fn changed(p: &RgbImage, change: &str) -> Vec<u8> {
    let (w, h) = p.dimensions();
    let small = |p: &RgbImage, by: u32| {
        imageops::resize(p, p.width() / by, p.height() / by, FilterType::Triangle)
    };
    match change {
        "q70" => jpeg(p, 70),
        "half q70" => jpeg(&small(p, 2), 70),
        "q30" => jpeg(p, 30),
        "third q50" => jpeg(&small(p, 3), 50),
        "quarter size q60" => jpeg(&small(p, 4), 60),
        "mirrored" => jpeg(&imageops::flip_horizontal(p), 85),
        "drawn" => jpeg(&drawn(p), 85),
        "brighter" => jpeg(&imageops::brighten(p, 40), 85),
        "cut 2" => jpeg(&cut(p, 2, 2, 2, 2), 85),
        "cut 5" => jpeg(&cut(p, 5, 5, 5, 5), 85),
        "cut 10" => jpeg(&cut(p, 10, 10, 10, 10), 85),
        "cut 20" => jpeg(&cut(p, 20, 20, 20, 20), 85),
        "cut one side 30" => jpeg(&cut(p, 30, 0, 0, 0), 85),
        "cut to a half" => jpeg(&cut(p, 15, 30, 35, 20), 85),
        "mirrored cut 10 q50" => jpeg(&imageops::flip_horizontal(&cut(p, 3, 10, 15, 8)), 50),
        "cut 10 third q40 brighter" => {
            jpeg(&imageops::brighten(&small(&cut(p, 8, 10, 12, 6), 3), 25), 40)
        }
        "turned 2" => {
            let (s, c) = 2f64.to_radians().sin_cos();
            let turned = RgbImage::from_fn(w * 9 / 10, h * 9 / 10, |x, y| {
                let (x, y) =
                    (f64::from(x) - f64::from(w) * 0.45, f64::from(y) - f64::from(h) * 0.45);
                let (u, v) =
                    (x * c - y * s + f64::from(w) / 2.0, x * s + y * c + f64::from(h) / 2.0);
                *p.get_pixel((u as u32).min(w - 1), (v as u32).min(h - 1))
            });
            jpeg(&turned, 85)
        }
        _ => panic!(),
    }
}

fn prepare(bytes: &[u8]) -> (Photo, Shade) {
    let budget = PixelBudget::default();
    let print = document::print_size();
    (photo::prepare(bytes, print, &budget).unwrap(), photo::shade(bytes, print, &budget).unwrap().0)
}

fn main() {
    let files: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let mut originals = Vec::new();
    for file in &files {
        let bytes = fs::read(file).unwrap();
        let (photo, shade) = prepare(&bytes);
        let picture = image::load_from_memory_with_format(&photo.jpeg, ImageFormat::Jpeg)
            .unwrap()
            .into_rgb8();
        println!("{file} {}x{} landmarks {}", photo.width, photo.height, photo.landmarks.len());
        originals.push((file, picture, Look::of(&photo), shade));
    }
    let looks: Vec<Look> = originals.iter().map(|one| one.2.clone()).collect();
    let table = Table::of(&looks);
    println!("strangers");
    for (at, (file, _, look, shade)) in originals.iter().enumerate() {
        for one in table.candidates(look, &|known| known != at) {
            let agreement = shade.agreement(&originals[one.known].3, one.fit);
            println!(
                "  {file} {} {} {} {agreement:?}",
                originals[one.known].0, one.mirrored, one.landmarks
            );
        }
    }
    for change in CHANGES {
        let mut quarters = vec![];
        let (mut n, mut middles, mut lowest, mut marks, mut missed, mut wrong) =
            (0, vec![], vec![], vec![], vec![], vec![]);
        for (at, (file, picture, _, _)) in originals.iter().enumerate() {
            let (photo, shade) = prepare(&changed(picture, change));
            let found = table.candidates(&Look::of(&photo), &|_| true);
            n += 1;
            let mut hit = false;
            for one in found {
                let agreement = shade.agreement(&originals[one.known].3, one.fit);
                if one.known == at {
                    hit = true;
                    marks.push(one.landmarks);
                    match agreement {
                        Some(a) => {
                            middles.push(a.middle);
                            quarters.push(a.quarter);
                            lowest.push(a.lowest);
                        }
                        None => missed.push(format!("{file} unjudged")),
                    }
                } else if let Some(a) = agreement {
                    wrong.push(a.middle);
                }
            }
            if !hit {
                missed.push(file.to_string());
            }
        }
        middles.sort_unstable();
        quarters.sort_unstable();
        lowest.sort_unstable();
        marks.sort_unstable();
        wrong.sort_unstable();
        let q = |v: &[i32]| {
            if v.is_empty() {
                String::new()
            } else {
                format!("{} {} {}", v[0], v[v.len() / 10], v[v.len() / 2])
            }
        };
        println!(
            "{change:28} of {n}: judged {} middle {} quarter {} lowest {} marks {:?} wrong most {:?} missed {missed:?}",
            middles.len(),
            q(&middles),
            q(&quarters),
            q(&lowest),
            marks.iter().take(3).collect::<Vec<_>>(),
            wrong.last()
        );
    }
}
