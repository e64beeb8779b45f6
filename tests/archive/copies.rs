//! Copies that leave the workshop: the owner's, and the one for handing over.

use super::commands::shop;
use crate::workshop::jpeg;

#[test]
fn the_owners_copy_holds_no_remark_no_metadata_and_no_track() {
    let shop = shop();
    shop.file("jobs/A-1/ride.gpx", "<gpx/>");
    let original = include_bytes!("../../samples/hd-2614/bearing-before.jpg");
    shop.file("jobs/A-1/a.jpg", original);
    assert!(original.windows(4).any(|part| part == b"Exif"));
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--for-owner"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let data = "archive/A-1-owner/A-1-owner-v1/data/";
    let sheet = String::from_utf8(shop.read(&format!("{data}findings.yaml"))).unwrap();
    assert!(!sheet.contains("in confidence"), "{sheet}");
    let left_out = String::from_utf8(shop.read(&format!("{data}left-out.txt"))).unwrap();
    // How many, and no name: a name may tell what is not the owner's business.
    assert!(left_out.ends_with("may tell a place: 2.\n"), "{left_out}");
    let copy = shop.read(&format!("{data}photos/a.jpg"));
    // Lumen & Oak is the camera of the samples.
    for word in [&b"GPS"[..], b"Lumen", b"http://ns.adobe.com"] {
        assert!(!copy.windows(word.len()).any(|part| part == word));
    }
    let pixels = |bytes: &[u8]| image::load_from_memory(bytes).unwrap().into_rgb8().into_raw();
    assert!(pixels(&copy) == pixels(original), "the picture has changed");
    assert_eq!(shop.run(&["verify", "archive"]).code, 0);
}

#[test]
fn the_copy_for_handing_over_holds_the_originals_whole_and_no_remark() {
    let shop = shop();
    let original = include_bytes!("../../samples/hd-2614/bearing-before.jpg");
    shop.file("jobs/A-1/a.jpg", original);
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--for-handover"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let bag = "archive/A-1-handover/A-1-handover-v1";
    assert_eq!(shop.read(&format!("{bag}/data/originals/a.jpg")), original);
    let sheet = String::from_utf8(shop.read(&format!("{bag}/data/findings.yaml"))).unwrap();
    assert!(!sheet.contains("in confidence"), "{sheet}");
    assert!(!shop.has(&format!("{bag}/data/workshop.yaml")));
    for path in ["archive", bag] {
        let verify = shop.run(&["verify", path]);
        assert_eq!(verify.code, 0, "{}", verify.out);
        assert!(verify.out.contains("this is a copy for handing over"), "{}", verify.out);
    }
    let paper = format!("{bag}/data/papers/return-report.pdf");
    let verify = shop.run(&["verify", &paper, "--against", "archive"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    // Another photo in it is seen, as the paper lists the originals.
    shop.file(&format!("{bag}/data/originals/a.jpg"), jpeg(80, 60, 9));
    assert_eq!(shop.run(&["verify", bag]).code, 1);

    shop.file("jobs/B-1-handover/findings.yaml", crate::workshop::sheet("B-1-handover"));
    let refused = shop.run(&["seal", "jobs/B-1-handover", "--archive", "archive"]);
    assert_eq!(refused.code, 1);
    assert!(refused.err.contains("does not end in `-handover`"), "{}", refused.err);
}

#[test]
fn a_photos_hidden_second_picture_does_not_reach_the_owners_copy() {
    let shop = shop();
    let camera = include_bytes!("../../samples/hd-2614/bearing-before.jpg");
    let mut photo = jpeg(80, 60, 1);
    let first = photo.len();
    photo.extend_from_slice(camera);
    shop.file("jobs/A-1/a.jpg", &photo);
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--for-owner"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let copy = shop.read("archive/A-1-owner/A-1-owner-v1/data/photos/a.jpg");
    assert!(copy.len() <= first, "{} of {first} bytes", copy.len());
    assert_eq!(shop.read("archive/A-1/A-1-v1/data/originals/a.jpg"), photo);
}
