//! What the evidence list says: digest, capture time, camera, place.

use chrono::{FixedOffset, NaiveDate};
use exif::Tag;
use image::ImageFormat;
use splitcase::digest::Digest;
use splitcase::photo::Taken;

use super::{drawing, file, maker, prepared};

/// A JPEG with these fields.
fn photo_with(fields: &[exif::Field]) -> Vec<u8> {
    maker::jpeg_with_exif(&file(drawing(64, 48), ImageFormat::Jpeg), &maker::exif(fields))
}

fn taken(fields: &[exif::Field]) -> Option<Taken> {
    prepared(&photo_with(fields)).expect("a sound photo").facts.taken
}

#[test]
fn digests_are_those_of_the_standard() {
    // FIPS 180-4, examples published by NIST: "abc" and the message of 448 bits.
    assert_eq!(
        Digest::of(b"abc").hex(),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
    let long = Digest::of(b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq");
    assert_eq!(
        long.to_string(),
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
    );
    assert_eq!(long.short(), "248d6a61d20638b8e5c0");
}

#[test]
fn the_digest_is_that_of_the_whole_original() {
    let bytes = file(drawing(64, 48), ImageFormat::Png);
    let facts = prepared(&bytes).expect("a sound photo").facts;
    assert_eq!(facts.sha256, Digest::of(&bytes));
    assert_eq!(facts.bytes, bytes.len() as u64);
}

#[test]
fn a_capture_time_without_offset_keeps_its_zone_unknown() {
    let found = taken(&[maker::text(Tag::DateTimeOriginal, "2026:03:04 10:20:30")]);
    let local = NaiveDate::from_ymd_opt(2026, 3, 4).and_then(|day| day.and_hms_opt(10, 20, 30));
    assert_eq!(found, local.map(|local| Taken { local, offset: None }));
}

#[test]
fn a_capture_time_with_offset_and_fraction_keeps_both() {
    let found = taken(&[
        maker::text(Tag::DateTimeOriginal, "2026:03:04 10:20:30"),
        maker::text(Tag::SubSecTimeOriginal, "164"),
        maker::text(Tag::OffsetTimeOriginal, "-03:30"),
    ]);
    let day = NaiveDate::from_ymd_opt(2026, 3, 4);
    let local = day.and_then(|day| day.and_hms_milli_opt(10, 20, 30, 164));
    let offset = FixedOffset::west_opt(3 * 3600 + 30 * 60);
    assert_eq!(found, local.map(|local| Taken { local, offset }));
}

#[test]
fn a_clock_that_was_never_set_gives_no_capture_time() {
    for clock in ["0000:00:00 00:00:00", "2026:13:41 10:20:30", "    :  :     :  :  ", "soon"] {
        assert_eq!(taken(&[maker::text(Tag::DateTimeOriginal, clock)]), None, "{clock}");
    }
}

#[test]
fn the_time_a_file_was_changed_is_no_capture_time() {
    assert_eq!(taken(&[maker::text(Tag::DateTime, "2026:03:04 10:20:30")]), None);
}

#[test]
fn a_camera_is_named_once_and_on_one_line() {
    let camera = |make: &str, model: &str| {
        let fields = [maker::text(Tag::Make, make), maker::text(Tag::Model, model)];
        prepared(&photo_with(&fields)).expect("a sound photo").facts.camera
    };
    assert_eq!(camera("Kestrel", "K9"), Some("Kestrel K9".to_owned()));
    assert_eq!(camera("KESTREL", "Kestrel K9 "), Some("Kestrel K9".to_owned()));
    assert_eq!(camera("Kes\u{202e}trel\n", "K9\u{7}"), Some("Kestrel K9".to_owned()));
    assert_eq!(camera("  ", ""), None);
    assert_eq!(camera("K", &"9".repeat(500)).map(|name| name.len()), Some(80));
}

#[test]
fn a_place_in_the_original_is_noticed() {
    let place = [maker::degrees(Tag::GPSLatitude, 47), maker::degrees(Tag::GPSLongitude, 8)];
    assert!(prepared(&photo_with(&place)).expect("a sound photo").facts.has_location);
    let none = [maker::text(Tag::Make, "Kestrel")];
    assert!(!prepared(&photo_with(&none)).expect("a sound photo").facts.has_location);
}

#[test]
fn of_a_damaged_block_the_good_fields_are_kept() {
    let block = maker::exif(&[
        maker::text(Tag::Make, "Kestrel"),
        maker::text(Tag::Model, "Kestrel K9"),
        maker::text(Tag::DateTimeOriginal, "2026:03:04 10:20:30"),
    ]);
    // The capture time stands at the end: cut it off.
    let cut = &block[..block.len() - 12];
    let jpeg = maker::jpeg_with_exif(&file(drawing(64, 48), ImageFormat::Jpeg), cut);
    let facts = prepared(&jpeg).expect("a sound photo").facts;
    assert_eq!(facts.camera.as_deref(), Some("Kestrel K9"));
    assert_eq!(facts.taken, None);
}

#[test]
fn facts_are_read_from_png_and_tiff_and_webp_too() {
    let block = maker::exif(&[maker::text(Tag::Make, "Kestrel"), maker::text(Tag::Model, "K9")]);
    let png = maker::png_with(&file(drawing(64, 48), ImageFormat::Png), b"eXIf", &block);
    let facts = prepared(&png).expect("a sound photo").facts;
    assert_eq!(facts.camera.as_deref(), Some("Kestrel K9"));
}

#[cfg(feature = "heic")]
#[test]
fn of_two_pictures_in_a_heic_the_primary_ones_time_counts() {
    // The other picture, which comes first, says 08:08:08.
    let facts = prepared(include_bytes!("two-pictures.heic")).expect("a sound photo").facts;
    let local = NaiveDate::from_ymd_opt(2026, 3, 4).and_then(|day| day.and_hms_opt(10, 20, 30));
    assert_eq!(facts.taken.map(|taken| taken.local), local);
    assert_eq!(facts.camera.as_deref(), Some("Kestrel K9"));
}
