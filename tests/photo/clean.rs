//! Print copies hold pixels and nothing else, fit their room, and are the same on every run.

use exif::Tag;
use image::ImageFormat;
use splitcase::photo::{PixelBudget, PrintSize, prepare};

use super::{drawing, file, maker, prepared};

/// The markers of a JPEG up to its first scan.
fn markers(jpeg: &[u8]) -> Vec<u8> {
    let mut found = Vec::new();
    let mut at = 2;
    while let Some(&[0xff, marker, high, low]) = jpeg.get(at..at + 4).and_then(|s| s.first_chunk())
    {
        found.push(marker);
        if marker == 0xda {
            break;
        }
        at += 2 + usize::from(u16::from_be_bytes([high, low]));
    }
    found
}

#[test]
fn nothing_but_pixels_is_left_of_what_the_camera_wrote() {
    let block = maker::exif(&[
        maker::text(Tag::Make, "Kestrel"),
        maker::text(Tag::BodySerialNumber, "SN-0042"),
        maker::degrees(Tag::GPSLatitude, 47),
        maker::degrees(Tag::GPSLongitude, 8),
    ]);
    let mut jpeg = maker::jpeg_with_exif(&file(drawing(64, 48), ImageFormat::Jpeg), &block);
    jpeg = maker::jpeg_with_profile(&jpeg, include_bytes!("wide-display.icc"));
    jpeg = maker::jpeg_with(&jpeg, 0xe1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta/>");
    jpeg = maker::jpeg_with(&jpeg, 0xfe, b"a comment of the camera");
    jpeg.extend(b"a film behind the end");

    let copy = prepared(&jpeg).expect("a sound photo").jpeg;
    // JFIF, tables, one baseline frame (ITU-T T.81, table B.1), and all colours in one scan.
    let allowed = [0xe0, 0xdb, 0xc0, 0xc4, 0xda];
    let found = markers(&copy);
    assert!(found.contains(&0xda) && found.iter().all(|m| allowed.contains(m)), "{found:x?}");
    let scans = copy.windows(3).filter(|bytes| *bytes == [0xff, 0xda, 0]).count();
    assert_eq!(scans, 1);
    let traces: [&[u8]; 7] =
        [b"Exif", b"ICC_PROFILE", b"xap", b"Kestrel", b"SN-0042", b"comment", b"film"];
    for trace in traces {
        assert!(jpeg.windows(trace.len()).any(|bytes| bytes == trace));
        assert!(!copy.windows(trace.len()).any(|bytes| bytes == trace));
    }
    assert!(copy.ends_with(&[0xff, 0xd9]));
}

#[test]
fn the_same_photo_gives_the_same_copy() {
    let jpeg = file(drawing(1400, 1000), ImageFormat::Jpeg);
    let first = prepared(&jpeg).expect("a sound photo").jpeg;
    assert!((0..2).all(|_| prepared(&jpeg).expect("a sound photo").jpeg == first));
}

#[test]
fn a_noisy_photo_is_kept_small_enough() {
    let mut state = 7_u32;
    let noise = image::RgbImage::from_fn(1187, 890, |_, _| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        image::Rgb([(state >> 24) as u8, (state >> 16) as u8, (state >> 8) as u8])
    });
    let mild = image::DynamicImage::ImageRgb8(noise).blur(0.7);
    let bytes = file(mild, ImageFormat::Png);
    let copy = prepared(&bytes).expect("a sound photo").jpeg;
    let mut plain = Vec::new();
    let encoder = jpeg_encoder::Encoder::new(&mut plain, 85);
    let pixels = image::load_from_memory(&bytes).expect("our own picture").into_rgb8();
    encoder
        .encode(pixels.as_raw(), 1187, 890, jpeg_encoder::ColorType::Rgb)
        .expect("our own picture");
    assert!(copy.len() < plain.len() * 6 / 10, "{} of {}", copy.len(), plain.len());
}

#[test]
fn a_text_column_of_137_mm_takes_1187_pixels() {
    // 137 mm / 25.4 mm * 220 = 1186.6
    let column = PrintSize::of_mm(137.0, 200.0);
    assert_eq!(column.width(), 1187);
    assert_eq!(column.fit(4032, 3024), (1187, 890));
    assert_eq!(column.fit(3024, 4032), (1187, 1583));
    assert_eq!(PrintSize::of_mm(137.0, 100.0).fit(3024, 4032), (650, 866));
    assert_eq!(column.fit(640, 480), (640, 480), "never enlarged");
    assert_eq!(column.fit(60_000, 10), (1187, 1), "never vanishing");
    assert_eq!(PrintSize::of_mm(f64::NAN, -4.0).fit(640, 480), (1, 1));
}

#[test]
fn a_copy_fits_its_room() {
    let jpeg = file(drawing(650, 450), ImageFormat::Jpeg);
    let room = PrintSize::of_mm(60.0, 30.0);
    let photo = prepare(&jpeg, room, &PixelBudget::default()).expect("a sound photo");
    assert_eq!((photo.width, photo.height), room.fit(650, 450));
    assert_eq!(photo.height, room.height());
}
