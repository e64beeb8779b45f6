//! What is particular to Windows, tried on every system: devices, letters' case, backslashes, drives.
//!
//! Names of devices after Microsoft, "Naming Files, Paths, and Namespaces". Not here: line ends and a
//! byte order mark (`hostile.rs`), numbers of jobs that differ only in case (`output.rs`).

use splitcase::archive::bag::names::{clashes, danger, is_portable};
use splitcase::diagnostic::Problems;
use splitcase::sheet::text::{is_device, is_job_number};

/// The codes of the problems of a sheet whose one photo has this name, as typed.
fn codes(photo: &str) -> Vec<&'static str> {
    let sheet = format!(
        "job: HD-1\ncustomer: {{name: Ansel Brook}}\nunit: {{kind: hub}}\n\
         arrival: {{date: 2026-03-02, photos: [{photo}]}}\n"
    );
    let mut problems = Problems::default();
    let workshop = crate::messages::workshop();
    splitcase::sheet::read("findings.yaml", sheet.as_bytes(), &workshop, &mut problems);
    problems.into_sorted().into_iter().map(|one| one.code).collect()
}

#[test]
fn the_names_of_devices_name_no_job_and_no_file_whatever_their_case_and_ending() {
    for name in ["CON", "prn", "Aux", "NUL", "com1", "COM9", "lpt1", "LPT9", "COM¹", "lpt³"] {
        assert!(is_device(name), "{name}");
        assert!(!is_job_number(name), "{name}");
        for ending in [".txt", ".tar.gz", " .txt"] {
            assert!(is_device(&format!("{name}{ending}")), "{name}{ending}");
            assert!(!is_portable(&format!("originals/{name}{ending}")), "{name}{ending}");
        }
    }
    for name in ["console", "com10", "lpt", "nul-1", "a.con", "HD-2614"] {
        assert!(!is_device(name), "{name}");
    }
}

#[test]
fn a_photo_is_named_below_its_folder_by_plain_steps_on_every_system() {
    for name in ["a.jpg", "'day 1/a.jpg'", "./a.jpg"] {
        assert_eq!(codes(name), [""; 0], "{name}");
    }
    for name in [
        r"'C:\a.jpg'",
        "'C:a.jpg'",
        r"'\\shop\photos\a.jpg'",
        r"'day 1\a.jpg'",
        "'a.jpg:stream'",
        r"'..\a.jpg'",
        "../a.jpg",
        "/a.jpg",
    ] {
        assert_eq!(codes(name), ["sheet/path"], "{name}");
    }
}

#[test]
fn a_path_of_a_bag_is_looked_at_as_if_backslashes_and_drives_meant_something() {
    for path in [r"data\..\..\a", r"\a", r"C:\a", "c:a", r"data\\a", r"..\a"] {
        assert!(danger(path).is_some(), "{path}");
    }
    assert_eq!(danger("data/originals/a.jpg"), None);
}

#[test]
fn names_that_are_one_where_case_makes_no_difference_are_found() {
    let paths = ["Photos/a.jpg", "photos/b.jpg", "B.JPG", "b.jpg", "ä.jpg", "Ä.jpg"];
    let found = clashes(paths.into_iter(), 10);
    assert_eq!(found, [("Photos", "photos"), ("B.JPG", "b.jpg"), ("ä.jpg", "Ä.jpg")]);
}
