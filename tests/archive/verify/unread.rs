//! What cannot be read is told as that, and never as missing, changed or added.
//!
//! Paths beyond the system's longest refuse everybody, whoever runs the tests.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::queries::due;
use splitcase::archive::verify::verify;

use super::made::Made;

/// Longest path in bytes that Linux takes.
const LONGEST: usize = 4095;

/// A folder's path of this many bytes in all, its folders made but the last.
fn deep(begin: &Path, length: usize) -> PathBuf {
    let mut path = begin.to_owned();
    loop {
        let rest = length - path.as_os_str().len() - 1;
        if rest <= 250 {
            path.push("e".repeat(rest));
            return path;
        }
        path.push("d".repeat(rest.min(200)));
        fs::create_dir_all(&path).unwrap();
    }
}

/// Judges what lies at `from`, so deep that paths begin to be refused, byte by byte.
fn sunk(from: &Path, judge: &dyn Fn(&Path) -> Judgement) -> usize {
    let place = tempfile::tempdir().unwrap();
    let mut at = from.to_owned();
    let mut refused = 0;
    for room in (8..90).rev() {
        let next = deep(place.path(), LONGEST - room);
        fs::rename(&at, &next).unwrap();
        at = next;
        let judged = judge(&at);
        assert!(judged.flaws.is_empty(), "{room} bytes left: {:#?}", judged.flaws);
        refused += usize::from(judged.outcome() == Outcome::CannotBeJudged);
    }
    fs::rename(&at, from).unwrap();
    refused
}

#[test]
fn a_bag_that_cannot_be_read_in_part_is_not_accused() {
    let made = Made::new();
    let bag = made.seal("HD-2614", "grinding", false);
    let refused = sunk(&bag, &|place| {
        let judged = verify(place, &Against::default());
        // Two photos, sheet, profile and paper are listed, however many of them can be read.
        let said = judged.shown.iter().find_map(|one| one.text.split_once(" listed file"));
        let listed = said.map(|(before, _)| before.rsplit(' ').next().unwrap().to_owned());
        assert!(listed.is_none_or(|listed| listed == "5"), "{judged:#?}");
        judged
    });
    assert!((10..60).contains(&refused), "{refused}");
}

#[test]
fn an_archive_that_cannot_be_read_in_part_is_not_accused() {
    let made = Made::with_bags();
    let refused = sunk(&made.archive, &|place| verify(place, &Against::default()));
    assert!((10..75).contains(&refused), "{refused}");
}

#[test]
fn a_report_is_not_accused_by_a_bag_or_an_archive_that_cannot_be_read_in_part() {
    let made = Made::new();
    let bag = made.seal("HD-2614", "grinding", false);
    let report = made.archive.with_file_name("report.pdf");
    fs::write(&report, made.paper("HD-2614", "grinding")).unwrap();
    let judge =
        |place: &Path| verify(&report, &Against { originals: Some(place), ..Against::default() });
    for from in [&bag, &made.archive] {
        assert!((10..75).contains(&sunk(from, &judge)));
    }
}

#[test]
fn a_folder_of_originals_that_cannot_be_read_in_part_does_not_accuse_a_report() {
    let made = Made::new();
    let folder = made.job_folder("HD-2614", "grinding");
    let report = folder.with_file_name("report.pdf");
    fs::write(&report, made.paper("HD-2614", "grinding")).unwrap();
    let refused = sunk(&folder, &|place| {
        verify(&report, &Against { originals: Some(place), ..Against::default() })
    });
    assert!(refused > 0);
}

/// Bags that cannot be looked for may still be there: nothing is said to be due less than all, or it is refused.
#[test]
fn what_is_due_of_an_archive_that_cannot_be_read_in_part_is_not_told_by_halves() {
    let made = Made::with_bags();
    let place = tempfile::tempdir().unwrap();
    let mut at = made.archive.clone();
    let (mut told, mut refused) = (0, 0);
    for room in (8..90).rev() {
        let next = deep(place.path(), LONGEST - room);
        fs::rename(&at, &next).unwrap();
        at = next;
        match due(&at, "2032-03-12".parse().unwrap()) {
            Ok(due) => {
                assert_eq!(due.len(), 3, "{room} bytes left");
                told += 1;
            }
            Err(_) => refused += 1,
        }
    }
    fs::rename(&at, &made.archive).unwrap();
    assert!(10 <= told && 10 <= refused, "{told} {refused}");
}
