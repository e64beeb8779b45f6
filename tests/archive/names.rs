//! Names in a bag: of jobs, of files, and those that another disk or tool reads differently.

use std::fs;

use splitcase::archive::bag::self_check;
use splitcase::archive::request::Remark;

use super::sealing::{Desk, Wish, in_memory, original};

#[test]
fn hostile_job_numbers_are_refused_before_anything_is_made() {
    let desk = Desk::new();
    // 40 letters of a job, and the longer ending of a copy.
    let long = "x".repeat(50);
    let hostile = [
        "", ".", "..", "../x", "a/b", "a\\b", ".x", "-x", "a.b", "a b", "é", "a\n", "a\0", "CON",
        "nul", "com1", "LPT9", &long,
    ];
    for job in hostile {
        let failure = desk.seal(&Wish::new(job)).unwrap_err();
        assert_eq!(failure.cause, "its number cannot name a folder", "{job:?}");
        assert!(!failure.to_string().contains(['\n', '\0']), "{job:?}");
    }
    assert!(!desk.archive().exists());
    for job in ["HD-2614", "com", "COM10", "a", "0_1-x", &"x".repeat(40)] {
        assert!(desk.seal(&Wish::new(job)).unwrap().is_new, "{job:?}");
    }
}

#[test]
fn hostile_file_names_are_refused_before_anything_is_made() {
    let desk = Desk::new();
    desk.file("real.jpg", b"real");
    for name in ["", "/etc/hosts", "../real", "a/../b", "./a", "a//b", "a/", ".", "..", "a\0b"] {
        for is_original in [true, false] {
            let mut wish = Wish::new("HD-1");
            match is_original {
                true => wish.originals.push(original(name)),
                false => wish.in_memory.push(in_memory(name, "x")),
            }
            let failure = desk.seal(&wish).unwrap_err();
            assert_eq!(
                failure.cause, "its name is not a plain path below the job folder",
                "{name:?}"
            );
        }
    }
    let mut twice = Wish::new("HD-1").with(&["real.jpg"]);
    twice.in_memory.push(in_memory("originals/real.jpg", "other"));
    assert_eq!(desk.seal(&twice).unwrap_err().cause, "two files would be in its place");
    assert!(!desk.archive().exists());
}

#[test]
fn line_ends_and_percent_signs_in_names_are_written_by_their_codes() {
    let desk = Desk::new();
    let names = ["100%.jpg", "%0A.jpg", "a\nb.jpg", "a\rb.jpg", "a b%25.jpg"];
    for name in names {
        desk.file(name, name);
    }
    let sealed = desk.seal(&Wish::new("HD-1").with(&names)).unwrap();
    let manifest = fs::read_to_string(sealed.path.join("manifest-sha256.txt")).unwrap();
    let written: Vec<&str> = manifest.lines().map(|line| &line[66..]).collect();
    assert_eq!(
        written,
        [
            "data/findings.yaml",
            "data/originals/%250A.jpg",
            "data/originals/100%25.jpg",
            "data/originals/a%0Ab.jpg",
            "data/originals/a%0Db.jpg",
            "data/originals/a b%2525.jpg",
        ]
    );
    assert_eq!(self_check::check(&sealed.path).unwrap().digest, sealed.digest);
    let odd = |path: &str| Remark::NotPortable { path: format!("originals/{path}") };
    assert_eq!(sealed.remarks, [odd("a\nb.jpg"), odd("a\rb.jpg")]);
}

#[test]
fn names_that_another_disk_would_take_for_one_are_kept_and_told() {
    let desk = Desk::new();
    let (composed, decomposed) = ("caf\u{e9}.jpg", "cafe\u{301}.jpg");
    let names =
        ["Bearing.JPG", "bearing.jpg", composed, decomposed, "A/x.jpg", "a/y.jpg", "aux.txt"];
    for name in names {
        desk.file(name, name);
    }
    let sealed = desk.seal(&Wish::new("HD-1").with(&names)).unwrap();
    let clash = |one: &str, other: &str| Remark::Clash {
        one: format!("originals/{one}"),
        other: format!("originals/{other}"),
    };
    let odd = Remark::NotPortable { path: "originals/aux.txt".to_owned() };
    assert_eq!(
        sealed.remarks,
        [clash("A", "a"), clash("Bearing.JPG", "bearing.jpg"), clash(decomposed, composed), odd]
    );
    for name in names {
        assert_eq!(
            fs::read(sealed.path.join("data/originals").join(name)).unwrap(),
            name.as_bytes()
        );
    }
}

#[test]
fn fields_are_kept_to_one_line_and_labels_to_one_word() {
    let desk = Desk::new();
    let mut wish = Wish::new("HD-1");
    wish.keep_until = None;
    wish.info = [
        ("External-Description", "Rust\r\nKeep-Until: 1999-01-01\u{7}\u{2028}  deep"),
        ("Contact-Name", " \n"),
    ]
    .map(|(label, value)| (label.to_owned(), value.to_owned()))
    .into();
    let sealed = desk.seal(&wish).unwrap();
    assert_eq!(
        fs::read_to_string(sealed.path.join("bag-info.txt")).unwrap(),
        "External-Description: Rust Keep-Until: 1999-01-01 deep\nBagging-Date: 2026-11-25\n\
         Bag-Size: 10 B\nPayload-Oxum: 10.1\n"
    );
    for label in ["", "A:B", "A B", "A\nB", "payload-oxum", "Keep-Until"] {
        wish.info = vec![(label.to_owned(), "x".to_owned())];
        assert_eq!(desk.seal(&wish).unwrap_err().action, "write `bag-info.txt`", "{label:?}");
    }
}
