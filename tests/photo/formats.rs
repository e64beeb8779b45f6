//! Every format that is read, in all its dresses, and names for those that are not.

use image::{DynamicImage, ImageFormat, Luma, Rgb, Rgba};
use jpeg_encoder::{ColorType, Encoder};
use splitcase::photo::{Film, Format, Kind, Refusal, kind_of};

use super::{QUARTERS, assert_quarters, drawing, file, maker, near, pixels, prepared};

#[test]
fn each_format_is_known_by_its_content_and_comes_out_right() {
    let formats = [
        (ImageFormat::Jpeg, Format::Jpeg),
        (ImageFormat::Png, Format::Png),
        (ImageFormat::WebP, Format::WebP),
        (ImageFormat::Tiff, Format::Tiff),
        (ImageFormat::Bmp, Format::Bmp),
    ];
    for (written, read) in formats {
        let photo = prepared(&file(drawing(64, 48), written)).expect("a sound photo");
        assert_eq!(photo.facts.format, read);
        assert_eq!((photo.width, photo.height), (64, 48), "never enlarged");
        assert!(!photo.facts.damaged);
        assert_quarters(&photo, QUARTERS);
    }
}

#[cfg(feature = "heic")]
#[test]
fn a_heic_comes_out_right() {
    let photo = prepared(include_bytes!("upright.heic")).expect("a sound photo");
    assert_eq!(photo.facts.format, Format::Heic);
    assert_quarters(&photo, QUARTERS);
}

#[test]
fn a_palette_comes_out_right() {
    assert_quarters(&prepared(include_bytes!("palette.png")).expect("a sound photo"), QUARTERS);
}

#[test]
fn a_tiff_with_a_palette_comes_out_right_and_upright_in_both_byte_orders() {
    for is_little in [true, false] {
        for orientation in [1, 6] {
            let tiff = maker::palette_tiff(is_little, orientation, QUARTERS);
            let photo = prepared(&tiff).expect("a sound photo");
            let wanted = match orientation {
                1 => QUARTERS,
                // A quarter turn to the right: the left bottom comes to the left top.
                _ => [QUARTERS[2], QUARTERS[0], QUARTERS[3], QUARTERS[1]],
            };
            assert_quarters(&photo, wanted);
        }
    }
}

#[test]
fn a_sound_file_of_an_unread_variant_is_not_called_damaged() {
    // Palettes of sixteen colours, two numbers in a byte.
    let mut tiff = maker::palette_tiff(true, 1, QUARTERS);
    let bits = tiff.windows(4).position(|entry| entry == [0x02, 0x01, 3, 0]).expect("its entry");
    tiff[bits + 8] = 4;
    let words = prepared(&tiff).expect_err("it is not read").to_string();
    assert!(
        words.starts_with("the picture is written in a way that is not read here: "),
        "{words}"
    );
}

#[test]
fn of_an_animation_the_first_picture_is_shown() {
    assert_quarters(&prepared(include_bytes!("moving.webp")).expect("a sound photo"), QUARTERS);
}

#[test]
fn a_progressive_photo_comes_out_right() {
    let mut jpeg = Vec::new();
    let mut encoder = Encoder::new(&mut jpeg, 90);
    encoder.set_progressive(true);
    encoder.encode(drawing(64, 48).as_raw(), 64, 48, ColorType::Rgb).expect("our own picture");
    let photo = prepared(&jpeg).expect("a sound photo");
    assert!(!photo.facts.damaged);
    assert_quarters(&photo, QUARTERS);
}

#[test]
fn grey_and_sixteen_bit_photos_come_out_right() {
    let grey = image::GrayImage::from_pixel(40, 30, Luma([90]));
    let deep_grey = image::ImageBuffer::<Luma<u16>, _>::from_pixel(40, 30, Luma([90 * 257]));
    let deep = image::ImageBuffer::<Rgb<u16>, _>::from_pixel(40, 30, Rgb([90 * 257; 3]));
    let files = [
        file(grey.clone(), ImageFormat::Jpeg),
        file(grey, ImageFormat::Png),
        file(DynamicImage::ImageLuma16(deep_grey), ImageFormat::Png),
        file(DynamicImage::ImageRgb16(deep.clone()), ImageFormat::Png),
        file(DynamicImage::ImageRgb16(deep), ImageFormat::Tiff),
    ];
    for bytes in files {
        let photo = prepared(&bytes).expect("a sound photo");
        let middle = pixels(&photo).get_pixel(20, 15).0;
        assert!(near(middle, [90; 3], 2), "{:?}: {middle:?}", photo.facts.format);
    }
}

#[test]
fn what_shines_through_is_laid_on_white() {
    let half = image::RgbaImage::from_pixel(40, 30, Rgba([200, 0, 0, 128]));
    let photo = prepared(&file(half, ImageFormat::Png)).expect("a sound photo");
    // 200 * 128/255 + 255 * 127/255 = 227; 0 + 127 = 127.
    let middle = pixels(&photo).get_pixel(20, 15).0;
    assert!(near(middle, [227, 127, 127], 3), "{middle:?}");
}

#[test]
fn films_and_foreign_pictures_are_named() {
    let table: [(&[u8], Kind); 14] = [
        (b"\0\0\0\x18ftypmp42\0\0\0\0isommp42", Kind::Film(Film::Mp4)),
        (b"\0\0\0\x18ftypisom\0\0\0\0isomavc1", Kind::Film(Film::Mp4)),
        (b"\0\0\0\x14ftypqt  \0\0\0\0qt  ", Kind::Film(Film::QuickTime)),
        (b"\0\0\0\x08wide\0\0\0\0mdat", Kind::Film(Film::QuickTime)),
        (b"RIFF\0\0\0\0AVI LIST", Kind::Film(Film::Avi)),
        (b"\x1a\x45\xdf\xa3\x93\x42\x82\x88matroska", Kind::Film(Film::Matroska)),
        (b"\0\0\0\x1cftypavif\0\0\0\0avifmif1", Kind::Avif),
        (b"\0\0\0\x18ftypmif1\0\0\0\0mif1avif", Kind::Avif),
        (b"\0\0\0\x18ftypmif1\0\0\0\0mif1heic", Kind::Picture(Format::Heic)),
        (b"GIF89a\x01\0\x01\0", Kind::Gif),
        (b"%PDF-1.7\n", Kind::Pdf),
        (b"\n <!DOCTYPE html><html>", Kind::Markup),
        (b"PK\x03\x04\x14\0", Kind::Archive),
        (b"BM me when you are back, the photos are on the other phone", Kind::Unknown),
    ];
    for (bytes, kind) in table {
        assert_eq!(kind_of(bytes), kind);
    }
    assert_eq!(
        prepared(b"\0\0\0\x1cftypavif\0\0\0\0avifmif1").expect_err("not read").to_string(),
        "the content is an AVIF picture, which cannot be printed here"
    );
    assert_eq!(
        prepared(b"\0\0\0\x14ftypqt  \0\0\0\0qt  ").expect_err("not read").to_string(),
        "the content is a film (QuickTime), which cannot be printed here"
    );
}

#[test]
fn raw_data_of_a_camera_is_not_taken_for_its_tiny_preview() {
    // A TIFF whose first picture is marked as a reduced copy (TIFF 6.0, NewSubfileType, bit 0).
    let tiff = maker::tiff(8, 8, 1);
    assert_eq!(prepared(&tiff).expect_err("raw"), Refusal::Unsupported(Kind::CameraRaw));
    assert!(prepared(&maker::tiff(8, 8, 0)).is_ok());
}
