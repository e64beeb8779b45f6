//! Damaged, mislabelled and hostile files: each is refused or flagged, none hurts.

use image::ImageFormat;
use splitcase::photo::{Colour, Kind, MAX_PIXELS, Refusal};

use super::{QUARTERS, assert_quarters, drawing, file, maker, near, pixels, prepared};

/// A picture with enough detail that its data are long.
fn detailed() -> image::RgbImage {
    image::RgbImage::from_fn(320, 240, |x, y| {
        image::Rgb([(x * y) as u8, (x * 7 + y * 3) as u8, (x ^ y) as u8])
    })
}

#[test]
fn an_empty_file_is_called_empty() {
    assert_eq!(prepared(b"").expect_err("empty").to_string(), "the file is empty");
}

#[test]
fn a_web_page_saved_as_a_photo_is_called_a_web_page() {
    let page = b"<html><body>404 not found</body></html>";
    let refusal = prepared(page).expect_err("no picture");
    assert_eq!(refusal, Refusal::NotAPicture(Kind::Markup));
    assert_eq!(refusal.to_string(), "the content is a web page or other markup, not a picture");
}

#[test]
fn a_photo_cut_short_is_shown_and_flagged() {
    let jpeg = file(detailed(), ImageFormat::Jpeg);
    for share in [50, 80, 99] {
        let photo = prepared(&jpeg[..jpeg.len() * share / 100]).expect("something is left to show");
        assert!(photo.facts.damaged, "{share} %");
        assert_eq!((photo.width, photo.height), (320, 240));
    }
    let whole = prepared(&jpeg).expect("a sound photo");
    assert!(!whole.facts.damaged);
    // Phones append films and depth maps behind the picture.
    let appended = [jpeg.as_slice(), b"....ftypmp42 a short film"].concat();
    assert!(!prepared(&appended).expect("a sound photo").facts.damaged);
    let top = |photo| pixels(&photo).get_pixel(10, 10).0;
    let cut = prepared(&jpeg[..jpeg.len() / 2]).expect("something is left to show");
    assert!(near(top(cut), top(whole), 12), "the top half is still there");
}

#[test]
fn data_that_make_no_sense_are_shown_and_flagged() {
    let mut jpeg = file(detailed(), ImageFormat::Jpeg);
    let whole = prepared(&jpeg).expect("a sound photo");
    // No code consists of ones alone (ITU-T T.81, annex C); a byte of ones is stuffed with a zero.
    let middle = jpeg.len() / 2;
    jpeg[middle..middle + 400].as_chunks_mut().0.fill([0xff, 0x00]);
    let photo = prepared(&jpeg).expect("the top half is left to show");
    assert!(photo.facts.damaged);
    let top = |photo| pixels(&photo).get_pixel(10, 10).0;
    assert!(near(top(photo), top(whole), 12), "the top half is still there");
}

#[test]
fn colours_that_cannot_be_told_apart_are_refused_rather_than_shown_wrong() {
    // Each colour in a scan of its own, the last one cut short.
    let mut jpeg = Vec::new();
    let mut encoder = jpeg_encoder::Encoder::new(&mut jpeg, 85);
    encoder.set_optimized_huffman_tables(true);
    let picture = detailed();
    let colours = jpeg_encoder::ColorType::Rgb;
    encoder.encode(picture.as_raw(), 320, 240, colours).expect("our own picture");
    assert!(!prepared(&jpeg).expect("a sound photo").facts.damaged);
    let refusal = prepared(&jpeg[..jpeg.len() - 300]).expect_err("a colour is missing");
    assert!(matches!(refusal, Refusal::Broken(_)), "{refusal}");
}

#[test]
fn a_photo_that_ends_before_its_picture_is_refused() {
    let jpeg = file(drawing(64, 48), ImageFormat::Jpeg);
    let scan = jpeg.windows(2).position(|pair| pair == [0xff, 0xda]).expect("a scan");
    for end in [3, 20, scan, scan + 14] {
        let refusal = prepared(&jpeg[..end]).expect_err("no picture data");
        assert!(matches!(refusal, Refusal::Broken(_)), "{end}: {refusal}");
    }
}

#[test]
fn other_formats_cut_short_are_refused() {
    for format in [ImageFormat::Png, ImageFormat::WebP, ImageFormat::Tiff, ImageFormat::Bmp] {
        let bytes = file(detailed(), format);
        let refusal = prepared(&bytes[..bytes.len() / 2]).expect_err("half a file");
        assert!(matches!(refusal, Refusal::Broken(_)), "{format:?}: {refusal}");
    }
}

#[test]
fn absurd_sizes_are_refused_before_anything_is_allocated() {
    let claim = |width, height| Refusal::TooManyPixels { width, height, limit: MAX_PIXELS };
    let side = 60_000_u32;

    let mut jpeg = file(drawing(64, 48), ImageFormat::Jpeg);
    let frame = jpeg.windows(2).position(|pair| pair == [0xff, 0xc0]).expect("a frame");
    jpeg[frame + 5..frame + 9].copy_from_slice(&[0xea, 0x60, 0xea, 0x60]);
    assert_eq!(prepared(&jpeg).expect_err("too large"), claim(side, side));

    let header = [&side.to_be_bytes()[..], &side.to_be_bytes(), &[8, 2, 0, 0, 0]].concat();
    let mut png = b"\x89PNG\r\n\x1a\n".to_vec();
    png.extend(maker::png_chunk(b"IHDR", &header));
    png.extend(maker::png_chunk(b"IDAT", &maker::zeros(10)));
    png.extend(maker::png_chunk(b"IEND", b""));
    assert_eq!(prepared(&png).expect_err("too large"), claim(side, side));

    assert_eq!(prepared(&maker::tiff(side, side, 0)).expect_err("too large"), claim(side, side));

    let mut bmp = file(drawing(64, 48), ImageFormat::Bmp);
    bmp[18..22].copy_from_slice(&side.to_le_bytes());
    bmp[22..26].copy_from_slice(&side.to_le_bytes());
    assert_eq!(prepared(&bmp).expect_err("too large"), claim(side, side));

    // WebP cannot claim more than 16383 pixels a side without a canvas of its own.
    let lossless =
        b"RIFF\x1e\0\0\0WEBPVP8L\x11\0\0\0\x2f\xfe\xbf\xff\x0f\0\0\0\0\0\0\0\0\0\0\0\0\0";
    assert_eq!(prepared(lossless).expect_err("too large"), claim(16_383, 16_383));

    assert_eq!(
        claim(side, side).to_string(),
        "the picture claims 60000 x 60000 pixels; at most 64 million are read"
    );
}

#[cfg(feature = "heic")]
#[test]
fn absurd_sizes_are_refused_in_heic_too() {
    let refusal = prepared(include_bytes!("claims-12000.heic")).expect_err("too large");
    let claim = Refusal::TooManyPixels { width: 12_000, height: 12_000, limit: MAX_PIXELS };
    assert_eq!(refusal, claim);
    let refusal = prepared(include_bytes!("claims-60000.heic")).expect_err("too large");
    assert_eq!(
        refusal.to_string(),
        "the picture is damaged beyond reading: it claims more than any camera delivers"
    );
}

#[test]
fn a_file_too_large_is_refused_unread() {
    let refusal = prepared(&vec![0; (80 << 20) + 1]).expect_err("too large");
    assert_eq!(refusal.to_string(), "the file has more than 83 MB, the most that are read");
}

#[test]
fn a_photo_that_alone_breaks_the_budget_is_refused_before_it_is_decoded() {
    // 64 million pixels of eight bytes, and four more for each while it is shrunk: 0.77 GB.
    let head = [8000_u32.to_be_bytes(), 8000_u32.to_be_bytes()].concat();
    let mut png = b"\x89PNG\r\n\x1a\n".to_vec();
    png.extend(maker::png_chunk(b"IHDR", &[head, vec![16, 6, 0, 0, 0]].concat()));
    png.extend(maker::png_chunk(b"IDAT", &[0x78, 0x9c]));
    let refusal = prepared(&png).expect_err("too large");
    let words = refusal.to_string();
    assert_eq!(words, "the picture claims 8000 x 8000 pixels; at most 53 million are read");
}

#[test]
fn a_profile_that_unpacks_without_end_is_left_out() {
    // 130 kB that unpack to 80 MiB.
    let profile = [b"bomb\0\0".as_slice(), &maker::zeros(325_000)].concat();
    let png = maker::png_with(&file(drawing(64, 48), ImageFormat::Png), b"iCCP", &profile);
    let photo = prepared(&png).expect("the picture itself is sound");
    assert_eq!(photo.facts.colour, Colour::TakenAsSrgb);
    assert_quarters(&photo, QUARTERS);
}

#[test]
fn a_photo_drawn_in_a_thousand_passes_is_refused() {
    let jpeg = file(drawing(64, 48), ImageFormat::Jpeg);
    let scan = jpeg.windows(2).position(|pair| pair == [0xff, 0xda]).expect("a scan");
    let passes = jpeg[scan..jpeg.len() - 2].repeat(1000);
    let refusal = prepared(&[&jpeg[..scan], &passes, &jpeg[jpeg.len() - 2..]].concat());
    assert_eq!(
        refusal.expect_err("too many").to_string(),
        "the picture is damaged beyond reading: it is drawn in 1000 passes; at most 100 are read"
    );
}

#[test]
fn no_mutation_of_a_sound_file_does_more_than_refuse() {
    let mut files: Vec<Vec<u8>> = [
        ImageFormat::Jpeg,
        ImageFormat::Png,
        ImageFormat::WebP,
        ImageFormat::Tiff,
        ImageFormat::Bmp,
    ]
    .map(|format| file(drawing(64, 48), format))
    .to_vec();
    files.push(include_bytes!("upright.heic").to_vec());
    files.push(include_bytes!("inks.jpg").to_vec());
    // Marsaglia's xorshift with a fixed start: the same mutations on every run.
    let mut state = 0x2026_0304_u32;
    let mut next = |below: usize| {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        state as usize % below
    };
    for sound in files {
        for _ in 0..60 {
            let mut bytes = sound.clone();
            for _ in 0..=next(4) {
                let at = next(bytes.len().min(1200));
                bytes[at] = next(256) as u8;
            }
            if let Ok(photo) = prepared(&bytes) {
                pixels(&photo);
            }
        }
    }
}
