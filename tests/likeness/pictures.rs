//! Changed copies are known again and other photos of like parts are not.
//!
//! The like parts are painted here: one bench, one light, one kind of bearing, and on each what tells
//! one from the other: where the balls are, scratches, rust, dirt, a camera held a little otherwise.

#![allow(clippy::many_single_char_names, reason = "coordinates have the letters of their formulas")]

use std::path::Path;

use image::imageops::{self, FilterType};
use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use splitcase::assessment::recognition::{self, Candidate, Look, Stored, Table};
use splitcase::digest::Digest;
use splitcase::document;
use splitcase::photo::{self, Agreement, Facts, Photo, PixelBudget, Shade};

/// A prepared photo.
struct Seen {
    photo: Photo,
    shade: Shade,
    facts: Facts,
}

fn seen(bytes: &[u8]) -> Seen {
    let (print, budget) = (document::print_size(), PixelBudget::default());
    let photo = photo::prepare(bytes, print, &budget).unwrap();
    let (shade, facts) = photo::shade(bytes, print, &budget).unwrap();
    assert_eq!(photo.facts, facts);
    Seen { photo, shade, facts }
}

fn jpeg(picture: &RgbImage, quality: u8) -> Vec<u8> {
    let mut bytes = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut bytes, quality);
    let (width, height) = picture.dimensions();
    let (width, height) = (width as u16, height as u16);
    encoder.encode(picture.as_raw(), width, height, jpeg_encoder::ColorType::Rgb).unwrap();
    bytes
}

/// Cuts off this many hundredths: left, top, right, bottom.
fn cut(picture: &RgbImage, [left, top, right, bottom]: [u32; 4]) -> RgbImage {
    let (width, height) = picture.dimensions();
    let (w, h) = (width * (100 - left - right) / 100, height * (100 - top - bottom) / 100);
    imageops::crop_imm(picture, width * left / 100, height * top / 100, w, h).to_image()
}

fn sample(name: &str) -> RgbImage {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(name);
    let picture = image::open(path).unwrap();
    picture.resize(800, 800, FilterType::Triangle).into_rgb8()
}

/// What a photo is held to be a copy of, among known ones.
fn copies(of: &Seen, known: &[Seen]) -> Vec<(usize, Candidate, Agreement)> {
    let looks: Vec<Look> = known.iter().map(|one| Look::of(&one.photo)).collect();
    let found = Table::of(&looks).candidates(&Look::of(&of.photo), &|_| true);
    let same = found.into_iter().filter_map(|one| {
        let other = &known[one.known];
        let agreement = of.shade.agreement(&other.shade, one.fit)?;
        recognition::is_same(&agreement, &of.facts, &other.facts)
            .then_some((one.known, one, agreement))
    });
    same.collect()
}

/// The part of a photo that is left of this share of its area, in hundredths: nearer to the left and to
/// the top by these hundredths of what is cut off.
fn part(picture: &RgbImage, area: u32, [left, top]: [u32; 2]) -> RgbImage {
    let edge = (f64::from(area) / 100.0).sqrt();
    let [width, height] = [picture.width(), picture.height()];
    let [w, h] = [width, height].map(|long| (f64::from(long) * edge) as u32);
    imageops::crop_imm(picture, (width - w) * left / 100, (height - h) * top / 100, w, h).to_image()
}

#[test]
fn copies_that_were_saved_again_mirrored_cut_or_made_smaller_are_known_again() {
    // Grainy ones and smooth ones.
    let names = [
        "hd-2614/bearing-before.jpg",
        "hd-2614/grease-milky.jpg",
        "hd-2620/board-close.jpg",
        "hd-2623/case-crack.jpg",
    ];
    let originals: Vec<RgbImage> = names.iter().map(|name| sample(name)).collect();
    let known: Vec<Seen> = originals.iter().map(|one| seen(&jpeg(one, 92))).collect();
    let flip = |picture: &RgbImage| imageops::flip_horizontal(picture);
    let (mut tried, mut missed) = (0, Vec::new());
    for (at, one) in originals.iter().enumerate() {
        let small =
            DynamicImage::from(one.clone()).resize(400, 400, FilterType::Triangle).into_rgb8();
        let whole = 970..=1000;
        let mut changes = vec![
            ("60 % from the left and top", jpeg(&part(one, 60, [0, 0]), 85), false, 580..=620),
            ("74 %, mirrored", jpeg(&flip(&part(one, 74, [100, 0])), 75), true, 720..=760),
            ("66 %", jpeg(&part(one, 66, [0, 100]), 60), false, 640..=680),
            ("82 %, mirrored", jpeg(&flip(&part(one, 82, [100, 100])), 60), true, 800..=840),
            ("90 %", jpeg(&part(one, 90, [50, 40]), 60), false, 880..=920),
        ];
        changes.push(match at {
            0 => ("saved again", jpeg(one, 40), false, whole),
            1 => ("half the size", jpeg(&small, 70), false, whole),
            2 => ("mirrored", jpeg(&flip(one), 80), true, whole),
            _ => ("brighter", jpeg(&imageops::brighten(one, 30), 80), false, whole),
        });
        // Each photo has three of the six, others first, so that each is tried.
        changes.rotate_left(at * 2);
        for (change, bytes, mirrored, shown) in changes.into_iter().take(3) {
            let found = copies(&seen(&bytes), &known);
            tried += 1;
            let (known, candidate, agreement) = match found.as_slice() {
                [one] => one,
                [] => {
                    missed.push(format!("{} {change}", names[at]));
                    continue;
                }
                several => panic!("{} {change}: {several:?}", names[at]),
            };
            assert_eq!((*known, candidate.mirrored), (at, mirrored), "{} {change}", names[at]);
            assert!(shown.contains(&agreement.shown), "{} {change}: {agreement:?}", names[at]);
        }
    }
    // Measured on all samples: of 31 photos 29 to 31 are known again in each of 25 cuts.
    assert!(missed.len() * 15 <= tried, "missed {} of {tried}: {missed:?}", missed.len());
}

/// A number from 0 to 1 for a place of a grid: the mixing steps of a hash, no pattern.
fn chance(seed: u32, x: u32, y: u32) -> f64 {
    let mut mixed =
        seed.wrapping_mul(0x9e37_79b9) ^ x.wrapping_mul(0x85eb_ca6b) ^ y.wrapping_mul(0xc2b2_ae35);
    for shift in [15, 13, 16] {
        mixed = (mixed ^ (mixed >> shift)).wrapping_mul(0x2c1b_3c6d);
    }
    f64::from(mixed ^ (mixed >> 15)) / f64::from(u32::MAX)
}

/// Soft unevenness of a surface.
fn uneven(seed: u32, x: f64, y: f64, size: f64) -> f64 {
    let (u, v) = (x / size + 1000.0, y / size + 1000.0);
    let (i, j) = (u.floor(), v.floor());
    let (a, b) = (u - i, v - j);
    let at = |di: f64, dj: f64| chance(seed, (i + di) as u32, (j + dj) as u32);
    let line = |dj: f64| at(0.0, dj) * (1.0 - a) + at(1.0, dj) * a;
    line(0.0) * (1.0 - b) + line(1.0) * b
}

/// A bearing of one kind on one bench; `of` tells which one, 0 to 99.
fn bearing(of: u32) -> RgbImage {
    let unit = |n: u32| chance(977, of, n);
    let (across, down) = ((unit(1) - 0.5) * 10.0, (unit(2) - 0.5) * 8.0);
    let (scale, light) = (1.0 + (unit(3) - 0.5) * 0.03, 0.9 + unit(4) * 0.2);
    let turn = unit(5) * std::f64::consts::TAU;
    let mat = (200.0 * unit(8), 200.0 * unit(9));
    let dots: Vec<(f64, f64, f64)> = (0..14)
        .map(|n| {
            let place = |n: u32| (unit(n) - 0.5) * 330.0;
            (place(20 + n), place(40 + n), 2.0 + 4.0 * unit(60 + n))
        })
        .collect();
    RgbImage::from_fn(480, 360, |px, py| {
        // The bench and its mat are the same for all; the part lies elsewhere on it, and the camera is
        // held a little otherwise.
        let (x, y) = (
            (f64::from(px) / 0.75 - 320.0 - across) / scale,
            (f64::from(py) / 0.75 - 240.0 - down) / scale,
        );
        let (mx, my) = (x + mat.0, y + mat.1);
        let mut value = 96.0 + 26.0 * uneven(1, mx, my, 7.0) + 14.0 * uneven(2, mx, my, 31.0);
        if (mx / 40.0).fract().abs() < 0.04 || (my / 40.0).fract().abs() < 0.04 {
            value -= 30.0;
        }
        let (radius, angle) = ((x * x + y * y).sqrt(), y.atan2(x));
        if (60.0..180.0).contains(&radius) {
            value = 150.0 + 40.0 * (angle - 0.7).cos();
            value += 18.0 * uneven(100 + of, angle * 60.0, radius, 9.0);
            if (100.0..140.0).contains(&radius) {
                let step = std::f64::consts::TAU / 11.0;
                let ball = ((angle + turn).rem_euclid(step) - step / 2.0) * 120.0;
                let away = (ball * ball + (radius - 120.0).powi(2)).sqrt();
                value = if away < 17.0 { 230.0 - 6.0 * away } else { 60.0 };
            }
            // Rust and dirt where this one has them.
            let rust = uneven(200 + of, x, y, 24.0);
            if 0.72 < rust {
                value -= 220.0 * (rust - 0.72);
            }
        }
        for &(cx, cy, radius) in &dots {
            if (x - cx).abs() < radius && (x - cx).hypot(y - cy) < radius {
                value -= 55.0;
            }
        }
        let grain = (chance(500 + of, px, py) - 0.5) * 8.0;
        let value = (value * light + grain).clamp(0.0, 255.0) as u8;
        Rgb([value, value, (f64::from(value) * 0.92) as u8])
    })
}

#[test]
fn photos_of_like_parts_on_one_bench_are_not_called_the_same() {
    let known: Vec<Seen> = (0..8).map(|of| seen(&jpeg(&bearing(of), 88))).collect();
    let looks: Vec<Look> = known.iter().map(|one| Look::of(&one.photo)).collect();
    let table = Table::of(&looks);
    let (mut n_candidates, mut likest) = (0, 0);
    for (at, one) in known.iter().enumerate() {
        for candidate in table.candidates(&looks[at], &|other| other < at) {
            n_candidates += 1;
            let other = &known[candidate.known];
            if let Some(agreement) = one.shade.agreement(&other.shade, candidate.fit) {
                likest = likest.max(agreement.middle);
                let is_same = recognition::is_same(&agreement, &one.facts, &other.facts);
                assert!(!is_same, "{at} and {}: {agreement:?}", candidate.known);
            }
        }
    }
    // They are alike enough to be compared at all, and far from what copies reach.
    assert!(6 <= n_candidates, "{n_candidates} candidates");
    assert!(likest < 900, "{likest}");
    // A copy of one of them is told from the other seven.
    let copy = seen(&jpeg(&imageops::flip_horizontal(&cut(&bearing(3), [6, 6, 9, 4])), 70));
    let found: Vec<usize> = copies(&copy, &known).iter().map(|one| one.0).collect();
    assert_eq!(found, [3]);
}

#[test]
fn what_photos_look_like_is_read_back_as_it_was_kept_and_a_changed_file_is_none() {
    // The spots between are for asking alone and are not kept.
    let look = Look { between: Vec::new(), ..Look::of(&seen(&jpeg(&bearing(1), 80)).photo) };
    assert!(20 < look.landmarks.len());
    let mut stored = Stored::default();
    stored.looks.insert(look.sha256, look.clone());
    let blank = Look::blank(Digest::of(b"not a photo"));
    stored.looks.insert(blank.sha256, blank);
    let mark = recognition::Mark { bytes: 7, changed: 1 << 70, sha256: look.sha256 };
    stored.files.insert(("jobs/é".to_owned(), "a/b.jpg".to_owned()), ("A-1".to_owned(), mark));
    let bytes = stored.bytes();
    assert_eq!(Stored::read(&bytes), Some(stored));
    for n in (0..bytes.len()).step_by(97) {
        let mut changed = bytes.clone();
        changed[n] ^= 1;
        assert_eq!(Stored::read(&changed), None, "byte {n}");
        assert_eq!(Stored::read(&bytes[..n]), None, "{n} bytes");
    }
}

#[test]
fn a_mirrored_landmark_is_the_landmark_of_the_mirrored_picture() {
    let picture = bearing(5);
    let photo = seen(&png(&picture)).photo;
    let mirrored = seen(&png(&imageops::flip_horizontal(&picture))).photo;
    assert_eq!(photo.quality.fingerprint.mirrored(), mirrored.quality.fingerprint);
    assert_eq!(photo.quality.fingerprint.mirrored().mirrored(), photo.quality.fingerprint);
    let width = photo::PLACES as u16;
    let found = photo.landmarks.iter().filter(|one| {
        let one = one.mirrored(width);
        let near = |own: u16, other: u16| own.abs_diff(other) <= 2;
        mirrored.landmarks.iter().any(|other| {
            near(one.x, other.x)
                && near(one.y, other.y)
                && one.size == other.size
                && one.unlike(other) <= 2
        })
    });
    // Rounding turns a few of them into others.
    let (found, all) = (found.count(), photo.landmarks.len());
    assert!(all * 4 / 5 <= found, "{found} of {all}");
}

fn png(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Png).unwrap();
    bytes.into_inner()
}
