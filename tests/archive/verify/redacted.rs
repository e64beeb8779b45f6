//! One file taken out of a bag for a reason: the lists stay, the register says so, the rest agrees.

use std::fs;
use std::path::Path;

use splitcase::archive::redact::redact;
use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::made::Made;

const BECAUSE: &str = "a number plate is in it";

/// Three bags, from both versions of one job a photo was taken out.
fn redacted() -> Made {
    let made = Made::with_bags();
    let at = "2026-04-01T08:00:00Z".parse().unwrap();
    let gone = redact("HD-2614", "bearing.jpg", None, BECAUSE, &made.archive, at).unwrap();
    let files: Vec<&str> = gone.iter().map(|one| one.file.as_str()).collect();
    assert_eq!(
        files,
        [
            "HD-2614/HD-2614-v1/data/originals/bearing.jpg",
            "HD-2614/HD-2614-v2/data/originals/bearing.jpg"
        ]
    );
    // The tar of the first held the photo too.
    assert!(gone[0].has_tar && !gone[1].has_tar);
    made
}

fn judged(path: &Path) -> Judgement {
    verify(path, &Against::default())
}

fn codes(judged: &Judgement) -> Vec<(&str, &str)> {
    judged.flaws.iter().map(|flaw| (flaw.code, flaw.place.as_str())).collect()
}

#[test]
fn the_archive_agrees_with_itself_afterwards_and_says_what_was_taken_out_in_its_first_lines() {
    let made = redacted();
    let judged = judged(&made.archive);
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let text = judged.text(&made.archive);
    let first: Vec<&str> = text.lines().take_while(|line| !line.is_empty()).collect();
    let said =
        "`data/originals/bearing.jpg` was taken out, by line 4 of the register: a number plate";
    assert!(first.iter().any(|line| line.contains(said)), "{first:#?}");
}

#[test]
fn a_bag_asked_about_alone_says_so_and_elsewhere_the_file_is_missing() {
    let made = redacted();
    let bag = made.archive.join("HD-2614/HD-2614-v2");
    let alone = judged(&bag);
    assert_eq!(alone.outcome(), Outcome::AgreesWithItself, "{alone:#?}");
    assert!(alone.not_shown.iter().any(|one| one.code == "archive/redacted"));
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("HD-2614-v2");
    copied(&bag, &copy);
    let found = judged(&copy);
    assert!(codes(&found).contains(&("archive/missing", "data/originals/bearing.jpg")));
}

#[test]
fn the_paper_is_still_held_against_the_digest_that_the_list_keeps() {
    let made = redacted();
    let paper = made.archive.parent().unwrap().join("report.pdf");
    fs::copy(made.archive.join("HD-2614/HD-2614-v2/data/papers/return-report.pdf"), &paper)
        .unwrap();
    let against = Against { originals: Some(&made.archive), ..Against::default() };
    let found = verify(&paper, &against);
    assert_eq!(found.outcome(), Outcome::VouchedFor, "{found:#?}");
}

#[test]
fn a_file_that_is_gone_without_a_line_is_missing_and_one_that_came_back_is_a_flaw() {
    let made = redacted();
    let seal = made.archive.join("HD-2614/HD-2614-v2/data/originals/photos/seal.jpg");
    let kept = fs::read(&seal).unwrap();
    fs::remove_file(&seal).unwrap();
    let place = "HD-2614/HD-2614-v2/data/originals/photos/seal.jpg";
    assert!(codes(&judged(&made.archive)).contains(&("archive/missing", place)));
    fs::write(&seal, kept).unwrap();

    let back = made.archive.join("HD-2614/HD-2614-v2/data/originals/bearing.jpg");
    fs::write(&back, "a bearing of HD-2614, grinding, then cured").unwrap();
    let place = "HD-2614/HD-2614-v2/data/originals/bearing.jpg";
    assert_eq!(codes(&judged(&made.archive)), [("archive/redacted", place)]);
}

#[test]
fn a_line_that_names_another_digest_explains_nothing() {
    let made = redacted();
    let register = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&register).unwrap();
    let line = text.lines().last().unwrap();
    let digest = line.split("\"sha256\":\"").nth(1).unwrap().split('"').next().unwrap();
    fs::write(&register, text.replace(digest, &"0".repeat(64))).unwrap();
    let found = judged(&made.archive);
    let place = "HD-2614/HD-2614-v2/data/originals/bearing.jpg";
    let found = codes(&found);
    assert!(found.contains(&("archive/missing", place)), "{found:?}");
}

#[test]
fn a_file_that_no_bag_lists_and_a_reason_that_is_none_are_refused() {
    let made = Made::with_bags();
    let at = "2026-04-01T08:00:00Z".parse().unwrap();
    for (file, because) in [("other.jpg", BECAUSE), ("bearing.jpg", " "), ("../x", BECAUSE)] {
        let before = fs::read(made.archive.join("register.jsonl")).unwrap();
        assert!(redact("HD-2614", file, None, because, &made.archive, at).is_err());
        assert_eq!(fs::read(made.archive.join("register.jsonl")).unwrap(), before, "{file}");
    }
}

fn copied(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copied(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}
