//! What `verify` says of a bag as it is typed: what it speaks of at all, and how much.

use std::fs;

use super::commands::{sheet, shop};

#[test]
fn the_cameras_clock_is_spoken_of_where_a_camera_took_something() {
    let shop = shop();
    let unseen = sheet("A-2", "").replace(", photos: []", "");
    shop.file("jobs/A-2/findings.yaml", unseen);
    shop.file("jobs/A-2/note.txt", "spoken note, typed up");
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    let says = |bag: &str| {
        let run = shop.run(&["verify", bag, "--format", "json"]);
        run.out.contains("archive/camera-clock")
    };
    assert!(says("archive/A-1/A-1-v1"));
    assert!(!says("archive/A-2/A-2-v1"));
}

#[test]
fn flaws_of_one_kind_are_listed_to_fifty_and_the_rest_is_counted() {
    let shop = shop();
    for at in 0..53 {
        shop.file(&format!("jobs/A-1/notes/{at:02}.txt"), "a note");
    }
    shop.run(&["seal", "jobs/A-1", "--archive", "archive"]);
    fs::remove_dir_all(shop.path("archive/A-1/A-1-v1/data/originals/notes")).unwrap();
    let run = shop.run(&["verify", "archive/A-1/A-1-v1"]);
    let said = format!("{}{}", run.out, run.err);
    assert_eq!(run.code, 1, "{said}");
    let n_listed = (0..53).filter(|at| said.contains(&format!("notes/{at:02}.txt"))).count();
    assert_eq!(n_listed, 50, "{said}");
    assert!(said.contains("3 more"), "{said}");
}
