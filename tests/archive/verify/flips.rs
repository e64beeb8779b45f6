//! One bit turned over in any file of a bag or an archive shows.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::chance::{Chance, places};
use super::described::sealed_like;
use super::made::Made;

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = walkdir::WalkDir::new(folder).sort_by_file_name().into_iter();
    let files = entries.map(|entry| entry.unwrap()).filter(|entry| entry.file_type().is_file());
    files.map(walkdir::DirEntry::into_path).collect()
}

/// Turns bits over in a file, one at a time, and tells what came of each.
fn flip(path: &Path, many: usize, mut judge: impl FnMut(usize, u8, u8)) {
    let good = fs::read(path).unwrap();
    let mut chance = Chance::new(good.len() as u64);
    for at in places(good.len(), many, &mut chance) {
        let mut bad = good.clone();
        bad[at] ^= 1 << chance.below(8);
        fs::write(path, &bad).unwrap();
        judge(at, good[at], bad[at]);
    }
    fs::write(path, &good).unwrap();
}

fn is_caught(judged: &Judgement) -> bool {
    judged.outcome() == Outcome::DoesNotAgree
}

#[test]
fn a_bit_turned_over_in_a_bag_shows_but_for_the_case_of_a_digit_in_the_last_list() {
    let place = tempfile::tempdir().unwrap();
    sealed_like().write(place.path());
    let mut uncaught = Vec::new();
    for path in files(place.path()) {
        let is_last_list = path.ends_with("tagmanifest-sha256.txt");
        flip(&path, 120, |at, good, bad| {
            let judged = verify(place.path(), &Against::default());
            let is_case = is_last_list && good.eq_ignore_ascii_case(&bad);
            if !is_caught(&judged) && !is_case {
                uncaught.push(format!("{} at {at}: {good} to {bad}", path.display()));
            }
        });
    }
    assert!(uncaught.is_empty(), "{uncaught:#?}");
    assert_eq!(verify(place.path(), &Against::default()).outcome(), Outcome::AgreesWithItself);
}

#[test]
fn a_changed_file_is_named_and_the_others_match() {
    let place = tempfile::tempdir().unwrap();
    sealed_like().write(place.path());
    let path = place.path().join("data/originals/bearing.jpg");
    flip(&path, 20, |_, _, _| {
        let judged = verify(place.path(), &Against::default());
        let named: Vec<(&str, &str)> =
            judged.flaws.iter().map(|flaw| (flaw.code, flaw.place.as_str())).collect();
        assert_eq!(named, [("archive/changed", "data/originals/bearing.jpg")]);
        assert!(judged.shown[0].text.starts_with("3 of the 4 listed files"), "{judged:?}");
    });
}

#[test]
fn a_bit_turned_over_anywhere_in_an_archive_shows_where_its_head_was_noted() {
    let mut made = Made::new();
    made.signs = true;
    made.seal("HD-2614", "grinding", true);
    made.seal("HD-2620", "no fault", false);
    let head = splitcase::archive::verify::queries::head(&made.archive).unwrap().digest;
    let against = Against { head: Some(&head), ..Against::default() };
    assert_eq!(verify(&made.archive, &against).outcome(), Outcome::VouchedFor);
    let mut uncaught = Vec::new();
    for path in files(&made.archive) {
        flip(&path, 16, |at, good, bad| {
            if !is_caught(&verify(&made.archive, &against)) {
                uncaught.push(format!("{} at {at}: {good} to {bad}", path.display()));
            }
        });
    }
    assert!(uncaught.is_empty(), "{uncaught:#?}");
}

#[test]
fn without_a_noted_head_every_line_of_the_register_but_the_last_is_held_by_the_next() {
    let made = Made::with_bags();
    let path = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&path).unwrap();
    let last = text.trim_end().rfind('\n').unwrap();
    let mut uncaught = Vec::new();
    flip(&path, 80, |at, good, bad| {
        if !is_caught(&verify(&made.archive, &Against::default())) && at <= last {
            uncaught.push(format!("at {at}: {good} to {bad}"));
        }
    });
    assert!(uncaught.is_empty(), "{uncaught:#?}");
}
