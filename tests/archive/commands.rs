//! `seal` and `verify` as they are typed: what is written, what is said, how they end.

use std::fs;

use splitcase::digest::Digest;

use crate::workshop::{Workshop, jpeg};

pub fn sheet(job: &str, photo: &str) -> String {
    format!(
        "job: {job}\ncustomer: {{name: Nadia Ferrow}}\nunit: {{kind: mid-drive, model: Kestmar C2}}\n\
         arrival: {{date: 2026-03-02, photos: [{photo}], internal: told in confidence}}\n\
         outcome: no-fault-found\nreturned: 2026-03-11\n"
    )
}

pub const PROFILE: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nevidence: {keep-months: 72}\n\
    models:\n  - {model: Kestmar C2}\n  - {model: Kestmar C4}\n";

pub fn shop() -> Workshop {
    let shop = Workshop::with_profile(PROFILE);
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "a.jpg"));
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1));
    shop.file("jobs/A-1/note.txt", "spoken note, typed up");
    shop
}

#[test]
fn a_sealed_job_holds_originals_sheet_profile_and_papers_and_verifies() {
    let shop = shop();
    let seal = shop.run(&["seal", "jobs/A-1", "--archive", "archive"]);
    assert_eq!((seal.code, seal.err.as_str()), (0, ""));
    let bag = "archive/A-1/A-1-v1/data/";
    assert_eq!(shop.read(&format!("{bag}originals/a.jpg")), shop.read("jobs/A-1/a.jpg"));
    assert_eq!(shop.read(&format!("{bag}originals/note.txt")), b"spoken note, typed up");
    assert_eq!(shop.read(&format!("{bag}findings.yaml")), shop.read("jobs/A-1/findings.yaml"));
    let profile = String::from_utf8(shop.read(&format!("{bag}workshop.yaml"))).unwrap();
    assert!(profile.contains("Kestmar C2") && !profile.contains("Kestmar C4"), "{profile}");
    let info = String::from_utf8(shop.read("archive/A-1/A-1-v1/bag-info.txt")).unwrap();
    assert!(info.contains("Bagging-Date: 2026-03-11\nKeep-Until: 2032-03-11\n"), "{info}");
    let verify = shop.run(&["verify", "archive"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    assert!(verify.out.contains("camera's clock"), "{}", verify.out);
}

#[test]
fn the_contact_sheet_is_made_from_the_photos_and_sealed_with_none_of_them() {
    let shop = shop();
    assert_eq!(shop.run(&["photos", "jobs/A-1"]).code, 0);
    assert!(shop.has("jobs/A-1/photo-sheet.pdf"));
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!((seal.code, seal.err.as_str()), (0, ""));
    assert!(shop.has("archive/A-1/A-1-v1/data/originals/a.jpg"));
    assert!(!shop.has("archive/A-1/A-1-v1/data/originals/photo-sheet.pdf"));
    // Made again with other bytes, it is no new version of the job.
    shop.file("jobs/A-1/photo-sheet.pdf", "%PDF-1.7 another");
    let again = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert!(again.out.contains("A-1: sealed before"), "{}", again.out);
}

#[test]
fn sealing_again_changes_nothing_and_a_change_makes_a_second_version() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    let register = shop.read("archive/register.jsonl");
    let again = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert!(again.out.contains("A-1: sealed before"), "{}", again.out);
    assert_eq!(shop.read("archive/register.jsonl"), register);
    shop.file("jobs/A-1/note.txt", "another note");
    let second = shop.run(&["seal", "jobs", "--archive", "archive"]);
    let said = "it replaces `A-1/A-1-v1`: changed: `originals/note.txt`";
    assert!(second.err.contains(said), "{}", second.err);
    assert_eq!(shop.read("archive/A-1/A-1-v1/data/originals/note.txt"), b"spoken note, typed up");
    assert_eq!(shop.read("archive/A-1/A-1-v2/data/originals/note.txt"), b"another note");
    assert_eq!(shop.run(&["verify", "archive"]).code, 0);
}

#[test]
fn a_job_with_an_error_is_not_sealed_and_the_others_are() {
    let shop = shop();
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "gone.jpg"));
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!(seal.code, 1);
    assert!(seal.err.contains("error[photo/missing]"), "{}", seal.err);
    assert!(shop.path("archive/A-1/A-1-v1").is_dir());
    assert!(!shop.path("archive/A-2").exists());
}

#[test]
fn receipts_hold_the_head_after_each_job_and_stay_as_they_are() {
    let shop = shop();
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--receipts", "receipts"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let page = String::from_utf8(shop.read("receipts/A-1/receipt-A-1-v1.txt")).unwrap();
    let register = String::from_utf8(shop.read("archive/register.jsonl")).unwrap();
    let head = Digest::of(register.lines().next().unwrap().as_bytes()).hex();
    assert!(page.contains(&format!("verify . --known-head {head}\n")), "{page}");
    let code = format!("splitcase register head: job A-1, line 1, SHA-256 {head}");
    assert!(page.contains(&code), "{page}");
    for noted in [head.as_str(), &code] {
        let verify = shop.run(&["verify", "archive", "--known-head", noted]);
        assert_eq!(verify.code, 0, "{}", verify.out);
        assert!(verify.out.contains("vouched for by the noted head"), "{}", verify.out);
    }
    // The same job again gives the same page; another file in its place is left alone.
    let again = ["seal", "jobs", "--archive", "archive", "--receipts", "receipts"];
    assert_eq!(shop.run(&again).code, 0);
    assert_eq!(shop.read("receipts/A-1/receipt-A-1-v1.txt"), page.as_bytes());
    shop.file("receipts/A-1/receipt-A-1-v1.txt", "mine");
    assert_eq!(shop.run(&again).code, 1);
    assert_eq!(shop.read("receipts/A-1/receipt-A-1-v1.txt"), b"mine");
}

#[test]
fn a_head_is_noted_and_a_file_is_taken_out_as_typed() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive", "--for-owner"]);
    let noted = shop.run(&["head", "archive", "--stamp-query"]);
    assert_eq!(noted.code, 0, "{}", noted.err);
    assert_eq!(noted.out.lines().count(), 2, "{}", noted.out);
    assert!(shop.has("archive/register.head-2.txt") && shop.has("archive/register.head-2.txt.tsq"));
    let words = ["redact", "A-1", "a.jpg", "--archive", "archive", "--because", "a plate is in it"];
    let gone = shop.run(&words);
    assert_eq!(gone.code, 0, "{}", gone.err);
    for said in ["taken out: A-1/A-1-v1/data/originals/a.jpg", "may still show it", "A-1-owner"] {
        let all = gone.out.clone() + &gone.err;
        assert!(all.contains(said), "{all}");
    }
    let verify = shop.run(&["verify", "archive"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    assert!(verify.out.contains("was taken out, by line 3 of the register"), "{}", verify.out);
    assert_eq!(shop.run(&words).code, 2, "there is nothing more to take out");
}

#[cfg(unix)]
#[test]
fn a_register_that_is_no_file_keeps_nobody_waiting() {
    let shop = shop();
    fs::create_dir_all(shop.path("archive")).unwrap();
    let _held =
        std::os::unix::net::UnixListener::bind(shop.path("archive/register.jsonl")).unwrap();
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_ne!(seal.code, 0);
    assert!(seal.err.contains("it is not a plain file"), "{}", seal.err);
    assert_eq!(shop.run(&["verify", "archive"]).code, 1);
}

#[test]
fn a_paper_leads_back_to_its_bag_and_an_altered_one_does_not_pass() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    let paper = "archive/A-1/A-1-v1/data/papers/return-report.pdf";
    let verify = shop.run(&["verify", paper, "--against", "jobs/A-1"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    let digits = verify.out.split("digest of its material `").nth(1).unwrap();
    let (short, grouped) = (&digits[..12], format!("{} {}", &digits[..4], &digits[4..8]));
    for digest in [short, grouped.as_str()] {
        let found = shop.run(&["verify", "--archive", "archive", "--digest", digest]);
        assert_eq!(found.code, 0, "{digest}: {}", found.err);
        assert!(found.out.contains("A-1/A-1-v1"), "{}", found.out);
    }
    let none = shop.run(&["verify", "--archive", "archive", "--digest", "0123456789ab"]);
    assert_eq!((none.code, none.out.trim()), (1, "no paper in this archive has that digest"));
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 2));
    let verify = shop.run(&["verify", paper, "--against", "jobs/A-1"]);
    assert_eq!(verify.code, 1);
    assert!(verify.out.contains("`a.jpg`"), "{}", verify.out);
}

#[test]
fn what_may_be_deleted_is_listed_and_nothing_is_deleted() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    let due = |day: &str| shop.run(&["verify", "--archive", "archive", "--due", day]).out;
    assert!(due("2032-03-11").starts_with("nothing may be deleted yet"), "{}", due("2032-03-11"));
    assert!(due("2032-03-12").contains("A-1/A-1-v1"), "{}", due("2032-03-12"));
    assert!(shop.path("archive/A-1/A-1-v1").is_dir());
    let wrong = shop.run(&["verify", "--archive", "archive", "--due", "soon"]);
    assert_eq!(wrong.code, 2);
}

#[test]
fn a_head_that_was_noted_shows_a_register_made_anew() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    let head = shop.run(&["verify", "archive", "--head"]).out;
    let head = head.split("head: ").nth(1).unwrap().trim().to_owned();
    let line = shop.read("archive/register.jsonl");
    assert_eq!(head, Digest::of(line.trim_ascii_end()).hex());
    for option in ["--known-head", "--head-was"] {
        assert_eq!(shop.run(&["verify", "archive", option, &head]).code, 0, "{option}");
    }
    fs::remove_dir_all(shop.path("archive")).unwrap();
    shop.file("jobs/A-1/note.txt", "forged");
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    for option in ["--known-head", "--head-was"] {
        assert_eq!(shop.run(&["verify", "archive", option, &head]).code, 1, "{option}");
    }
}

#[test]
fn one_photo_in_two_jobs_is_told_within_a_run_and_against_the_archive() {
    let shop = shop();
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "b.jpg"));
    shop.file("jobs/A-2/b.jpg", jpeg(80, 60, 1));
    let told = "warning[photo/two-jobs]: one photo is in several jobs: `a.jpg` of job `A-1`, \
                `b.jpg` of job `A-2`";
    let check = shop.run(&["check", "jobs"]);
    assert!(check.err.contains(told), "{}", check.err);
    for _ in 0..2 {
        // The second time both are skipped as unchanged, and it is told all the same.
        let render = shop.run(&["render", "jobs", "--out", "out"]);
        assert!(render.err.contains(told), "{}", render.err);
    }
    // Sealed before the other job is there at all.
    let shop = self::shop();
    let first = shop.run(&["seal", "jobs/A-1", "--archive", "archive"]);
    assert!(!first.err.contains("photo/two-jobs"), "{}", first.err);
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "b.jpg"));
    shop.file("jobs/A-2/b.jpg", jpeg(80, 60, 1));
    let second = shop.run(&["seal", "jobs/A-2", "--archive", "archive"]);
    assert!(second.err.contains(told), "{}", second.err);
}

#[test]
fn without_a_path_or_a_question_verify_says_how_it_is_asked() {
    let shop = shop();
    let bare = shop.run(&["verify"]);
    assert_eq!(bare.code, 2);
    assert!(bare.err.contains("splitcase verify PATH"), "{}", bare.err);
    let gone = shop.run(&["verify", "nowhere"]);
    assert_eq!(gone.code, 2, "{}", gone.out);
    let seal = shop.run(&["seal", "--archive", "archive"]);
    assert_eq!(seal.code, 2);
}

#[test]
fn an_archive_inside_a_job_and_a_number_like_an_owners_copy_are_refused() {
    let shop = shop();
    let inside = shop.run(&["seal", "jobs/A-1", "--archive", "jobs/A-1/archive"]);
    assert_eq!(inside.code, 1);
    assert!(inside.err.contains("the archive is inside the job's folder"), "{}", inside.err);
    shop.file("jobs/A-1/findings.yaml", sheet("A-1-owner", "a.jpg"));
    let number = shop.run(&["seal", "jobs/A-1", "--archive", "archive"]);
    assert_eq!(number.code, 1);
    assert!(number.err.contains("does not end in `-owner`"), "{}", number.err);
}

#[test]
fn an_archive_below_the_jobs_is_no_job_and_one_folder_spelt_twice_is_one() {
    let shop = shop();
    let seal = shop.run(&["seal", "jobs", "./jobs/A-1", "--archive", "jobs/archive"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let check = shop.run(&["check", "."]);
    assert_eq!(check.code, 0, "{}", check.err);
    assert!(check.out.contains("1 job: 1 in order"), "{}", check.out);
}

#[test]
fn what_was_wanted_too_late_is_said_and_a_foreign_tar_is_left_alone() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    let stamped = shop.run(&["seal", "jobs", "--archive", "archive", "--stamp-query"]);
    assert!(stamped.err.contains("a sealed bag is never changed"), "{}", stamped.err);
    shop.file("archive/A-1/A-1-v1.tar", "foreign");
    let tar = shop.run(&["seal", "jobs", "--archive", "archive", "--tar"]);
    assert!(tar.err.contains("is not this bag's tar"), "{}", tar.err);
    assert_eq!(shop.read("archive/A-1/A-1-v1.tar"), b"foreign");
}

#[test]
fn what_systems_leave_in_folders_is_not_sealed_and_named() {
    let shop = shop();
    shop.file("jobs/A-1/Thumbs.db", "x").file("jobs/A-1/photos/desktop.ini", "x");
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!(seal.code, 0);
    for name in ["Thumbs.db", "desktop.ini"] {
        assert!(
            seal.err.contains("warning[archive/of-system]") && seal.err.contains(name),
            "{}",
            seal.err
        );
    }
    let data = "archive/A-1/A-1-v1/data/originals/";
    assert!(
        !shop.has(&format!("{data}Thumbs.db")) && !shop.has(&format!("{data}photos/desktop.ini"))
    );
}

#[test]
fn an_erased_bag_leaves_its_reason_and_an_archive_that_agrees_with_itself() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive", "--tar", "--for-owner"]);
    let erase =
        |because: &str| shop.run(&["erase", "A-1", "--archive", "archive", "--because", because]);
    assert_eq!(erase(" ").code, 2);
    assert!(shop.has("archive/A-1/A-1-v1"));
    let erased = erase("asked for by the owner");
    assert_eq!(erased.code, 0, "{}", erased.err);
    assert!(erased.out.contains("still there: A-1-owner"), "{}", erased.out);
    assert!(!shop.has("archive/A-1"));
    let verify = shop.run(&["verify", "archive"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    let said = "line 1: its bag was erased, by line 3 of the register: asked for by the owner";
    assert!(verify.out.contains(said), "{}", verify.out);
    // Nothing is left to erase, and what is sealed now gets a new number.
    assert_eq!(erase("again").code, 2);
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert!(shop.has("archive/A-1/A-1-v2"));
    assert_eq!(shop.run(&["verify", "archive"]).code, 0);
    // A bag that is there though it was erased is not part of the archive any more.
    fs::rename(shop.path("archive/A-1/A-1-v2"), shop.path("archive/A-1/A-1-v1")).unwrap();
    assert_eq!(shop.run(&["verify", "archive"]).code, 1);
}

#[test]
fn sealing_an_unfinished_job_warns() {
    let shop = shop();
    shop.file(
        "jobs/A-1/findings.yaml",
        sheet("A-1", "a.jpg").replace("returned: 2026-03-11\n", ""),
    );
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    assert!(seal.err.contains("warning[archive/unfinished]"), "{}", seal.err);
}

#[cfg(unix)]
#[test]
fn what_is_not_sealed_is_named() {
    let shop = shop();
    shop.file("outside.txt", "not of this job");
    std::os::unix::fs::symlink(shop.path("outside.txt"), shop.path("jobs/A-1/link.txt")).unwrap();
    let seal = shop.run(&["seal", "jobs", "--archive", "archive"]);
    assert_eq!(seal.code, 0);
    assert!(seal.err.contains("warning[archive/left-out]"), "{}", seal.err);
    assert!(seal.err.contains("link.txt"), "{}", seal.err);
}

#[test]
fn a_file_name_cannot_steer_the_terminal() {
    let shop = shop();
    shop.file("jobs/A-1/\u{1b}]0;steered\u{7}.jpg", jpeg(80, 60, 4));
    let check = shop.run(&["check", "jobs"]);
    assert!(!check.err.contains('\u{1b}'), "{:?}", check.err);
    let render = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(render.code, 0, "{}", render.err);
}

#[test]
fn every_answer_of_verify_is_json_where_that_is_asked_for() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    for question in [
        &["--head"][..],
        &["--due", "2040-01-01"],
        &["--due", "2026-01-01"],
        &["--digest", "01234567"],
    ] {
        let mut words = vec!["verify", "--archive", "archive", "--format", "json"];
        words.extend(question);
        let run = shop.run(&words);
        assert!(!run.out.is_empty(), "{question:?}: {}", run.err);
        let told: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        assert!(told["results"].is_array(), "{told}");
    }
}
