//! Pictures stand upright: the eight orientations of Exif (CIPA DC-008, tag 0x0112).

use exif::Tag;
use image::metadata::Orientation;
use image::{DynamicImage, ImageFormat};

use super::{QUARTERS, assert_quarters, drawing, file, maker, prepared};

/// The drawing as a camera stores it when held so that `orientation` applies.
fn stored(orientation: u8) -> DynamicImage {
    // What undoes a turn: quarter turns undo each other, all others undo themselves.
    let undo = match orientation {
        6 => 8,
        8 => 6,
        other => other,
    };
    let mut picture = DynamicImage::ImageRgb8(drawing(96, 64));
    picture.apply_orientation(Orientation::from_exif(undo).expect("one of eight"));
    picture
}

#[test]
fn a_photo_taken_any_way_round_comes_out_upright() {
    for orientation in 1..=8 {
        let block = maker::exif(&[maker::short(Tag::Orientation, orientation)]);
        let jpeg = file(stored(orientation as u8), ImageFormat::Jpeg);
        let photo = prepared(&maker::jpeg_with_exif(&jpeg, &block)).expect("a sound photo");
        assert_eq!((photo.width, photo.height), (96, 64), "orientation {orientation}");
        assert_eq!((photo.facts.width, photo.facts.height), (96, 64), "orientation {orientation}");
        assert_quarters(&photo, QUARTERS);
    }
}

#[test]
fn a_png_taken_sideways_comes_out_upright() {
    let block = maker::exif(&[maker::short(Tag::Orientation, 6)]);
    let png = maker::png_with(&file(stored(6), ImageFormat::Png), b"eXIf", &block);
    let photo = prepared(&png).expect("a sound photo");
    assert_eq!((photo.facts.width, photo.facts.height), (96, 64));
    assert_quarters(&photo, QUARTERS);
}

#[test]
fn a_large_photo_taken_sideways_is_shrunk_and_comes_out_upright() {
    let mut picture = DynamicImage::ImageRgb8(drawing(3000, 2000));
    picture.apply_orientation(Orientation::Rotate270);
    let block = maker::exif(&[maker::short(Tag::Orientation, 6)]);
    let jpeg = maker::jpeg_with_exif(&file(picture, ImageFormat::Jpeg), &block);
    let photo = prepared(&jpeg).expect("a sound photo");
    assert_eq!((photo.facts.width, photo.facts.height), (3000, 2000));
    assert_eq!((photo.width, photo.height), (1187, 791));
    assert_quarters(&photo, QUARTERS);
}

#[test]
fn an_orientation_that_does_not_exist_leaves_the_photo_as_it_is() {
    for orientation in [0, 9, 255] {
        let block = maker::exif(&[maker::short(Tag::Orientation, orientation)]);
        let jpeg = file(drawing(96, 64), ImageFormat::Jpeg);
        let photo = prepared(&maker::jpeg_with_exif(&jpeg, &block)).expect("a sound photo");
        assert_quarters(&photo, QUARTERS);
    }
}

#[cfg(feature = "heic")]
#[test]
fn a_heic_that_states_its_rotation_twice_is_turned_once() {
    // The file holds the upright drawing, a quarter turn in its container, and Exif orientation 6,
    // which repeats the container's.
    let photo = prepared(include_bytes!("turned.heic")).expect("a sound photo");
    assert_eq!((photo.width, photo.height), (48, 64));
    let [top_left, top_right, bottom_left, bottom_right] = QUARTERS;
    assert_quarters(&photo, [bottom_left, top_left, bottom_right, top_right]);
}

#[test]
fn a_webp_whose_block_starts_like_a_jpegs_comes_out_upright() {
    for prefix in [&b""[..], b"Exif\0\0"] {
        for orientation in 1..=8 {
            let block = maker::exif(&[maker::short(Tag::Orientation, orientation)]);
            let webp = file(stored(orientation as u8), ImageFormat::WebP);
            let webp =
                maker::webp_with_exif(&webp, (96, 64), orientation, &[prefix, &block].concat());
            let photo = prepared(&webp).expect("a sound photo");
            assert_eq!((photo.width, photo.height), (96, 64), "orientation {orientation}");
            assert_quarters(&photo, QUARTERS);
        }
    }
}

#[test]
fn a_tiff_taken_any_way_round_comes_out_upright() {
    // The tag 274 of TIFF 6.0 has the meanings of Exif's; Pillow turns the same way (from memory).
    for orientation in 1..=8 {
        let picture = stored(orientation as u8).into_rgb8();
        let photo = prepared(&maker::tiff_of(&picture, orientation)).expect("a sound photo");
        assert_eq!((photo.width, photo.height), (96, 64), "orientation {orientation}");
        assert_quarters(&photo, QUARTERS);
    }
}
