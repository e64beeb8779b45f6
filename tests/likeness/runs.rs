//! One picture in two jobs: said by `check`, `render` and `seal`, within a run, in the folder tree and
//! in the archive; on the customer's paper nothing.

use std::fs;

use image::imageops;
use image::{ImageFormat, RgbImage};

use crate::workshop::Workshop;

fn sheet(job: &str, serial: &str) -> String {
    format!(
        "job: {job}\ncustomer: {{name: Nadia Ferrow}}\n\
         unit: {{kind: mid-drive, model: Kestmar C2, serial: {serial}}}\n\
         arrival: {{date: 2026-03-02, photos: [shot.jpg]}}\n\
         strip-down: {{date: 2026-03-04, findings: [{{part: main-bearing-drive-side, \
         condition: worn, signs: [races-worn-deep]}}]}}\n\
         outcome: returned-unrepaired\nreturned: 2026-03-11\n"
    )
}

fn picture() -> RgbImage {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/samples/hd-2623/case-crack.jpg");
    let picture = image::open(path).unwrap().into_rgb8();
    imageops::resize(&picture, 640, 480, imageops::FilterType::Triangle)
}

fn jpeg(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Jpeg).unwrap();
    bytes.into_inner()
}

fn copy() -> Vec<u8> {
    jpeg(&imageops::flip_horizontal(&imageops::crop_imm(&picture(), 40, 40, 540, 400).to_image()))
}

/// Two jobs of two units, the second with a mirrored cut of the first one's photo.
fn shop() -> Workshop {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "KC2-0012345"));
    shop.file("jobs/A-1/shot.jpg", jpeg(&picture()));
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "KC2-0054321"));
    shop.file("jobs/A-2/shot.jpg", copy());
    shop
}

const SAME: &str = "`shot.jpg` of job `A-2` shows the same picture as `shot.jpg` of job `A-1`";

fn assert_said(err: &str, code: &str, words: &str) {
    let plain = err.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(plain.contains(&format!("warning[{code}]")) && plain.contains(words), "{err}");
}

#[test]
fn a_changed_copy_in_another_job_of_the_run_is_named_with_both_files() {
    let run = shop().run(&["check", "jobs"]);
    assert_eq!(run.code, 0);
    assert_said(&run.err, "photo/other-job", &format!("{SAME}: mirrored, cut to 7"));
    assert_eq!(run.err.matches("shows the same picture").count(), 1, "{}", run.err);
}

#[test]
fn a_photo_of_the_folder_tree_is_known_by_what_render_kept() {
    let shop = shop();
    assert_eq!(shop.run(&["check", "jobs/A-1"]).err, "");
    assert!(!shop.has(".splitcase"));
    assert_eq!(shop.run(&["render", "jobs/A-1", "--out", "out"]).err, "");
    assert!(shop.has(".splitcase/photo-looks"));
    assert_said(&shop.run(&["check", "jobs/A-2"]).err, "photo/other-job", SAME);
    assert_said(&shop.run(&["render", "jobs/A-2", "--out", "out"]).err, "photo/other-job", SAME);
    // A photo that was replaced since is not the one that was looked at.
    shop.file("jobs/A-1/shot.jpg", crate::workshop::jpeg(640, 480, 3));
    assert_eq!(shop.run(&["check", "jobs/A-2"]).err, "");
    // Broken or gone, the file is nothing but a cache.
    shop.file("jobs/A-1/shot.jpg", jpeg(&picture()));
    fs::write(shop.path(".splitcase/photo-looks"), "anything").unwrap();
    assert_eq!(shop.run(&["check", "jobs/A-2"]).err, "");
    shop.run(&["render", "jobs/A-1", "--out", "again"]);
    assert_said(&shop.run(&["check", "jobs/A-2"]).err, "photo/other-job", SAME);
}

#[test]
fn a_sealed_photo_is_known_again_and_the_archive_is_not_written_to() {
    let shop = shop();
    assert_eq!(shop.run(&["seal", "jobs/A-1", "--archive", "archive"]).err, "");
    fs::remove_dir_all(shop.path("jobs/A-1")).unwrap();
    let sealed = format!("{SAME}, sealed in the archive:");
    let check = || shop.run(&["check", "jobs/A-2", "--archive", "archive"]).err;
    assert_said(&check(), "photo/other-job", &sealed);
    // Without the cache the archive is not known until a run that may write has looked at it.
    fs::remove_dir_all(shop.path(".splitcase")).unwrap();
    assert_said(&check(), "archive/not-compared", "one photo of the archive is not known yet");
    let render = shop.run(&["render", "jobs/A-2", "--out", "out", "--archive", "archive"]);
    assert_said(&render.err, "photo/other-job", &sealed);
    assert_said(&check(), "photo/other-job", &sealed);
    let seal = shop.run(&["seal", "jobs/A-2", "--archive", "archive"]);
    assert_said(&seal.err, "photo/other-job", &sealed);
    assert_eq!(shop.run(&["verify", "archive"]).code, 0);
    // What was erased is not remembered.
    shop.run(&["erase", "A-1", "--archive", "archive", "--because", "asked for"]);
    shop.run(&["seal", "jobs/A-2", "--archive", "archive"]);
    assert!(!check().contains("same picture"));
}

#[test]
fn the_customers_paper_says_nothing_of_it() {
    let shop = shop();
    shop.run(&["render", "jobs/A-2", "--out", "alone"]);
    shop.run(&["render", "jobs", "--out", "out"]);
    assert!(shop.read("alone/A-2/return-report.pdf") == shop.read("out/A-2/return-report.pdf"));
}

#[test]
fn the_same_unit_come_again_is_said_in_other_words() {
    let shop = shop();
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "KC2-0012345"));
    let run = shop.run(&["check", "jobs"]);
    assert_said(&run.err, "photo/earlier-visit", "both jobs are for the same serial number");
    assert!(!run.err.contains("photo/other-job"));
    shop.file("jobs/A-2/shot.jpg", jpeg(&picture()));
    let run = shop.run(&["check", "jobs"]);
    assert_said(&run.err, "photo/earlier-visit", "all for the same serial number");
    assert!(!run.err.contains("photo/two-jobs"));
}
