//! `seal` and `verify` as they are typed: what is written, what is said, how they end.

use std::fs;

use splitcase::digest::Digest;

use crate::workshop::{Workshop, jpeg};

fn sheet(job: &str, photo: &str) -> String {
    format!(
        "job: {job}\ncustomer: {{name: Nadia Ferrow}}\nunit: {{kind: mid-drive, model: Kestmar C2}}\n\
         arrival: {{date: 2026-03-02, photos: [{photo}], internal: told in confidence}}\n\
         outcome: no-fault-found\nreturned: 2026-03-11\n"
    )
}

const PROFILE: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nevidence: {keep-months: 72}\n\
    models:\n  - {model: Kestmar C2}\n  - {model: Kestmar C4}\n";

fn shop() -> Workshop {
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

#[test]
fn papers_are_sealed_as_they_were_issued() {
    let shop = shop();
    shop.run(&["render", "jobs", "--out", "out"]);
    let issued = shop.read("out/A-1/return-report.pdf");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1", "a.jpg").replace("Ferrow", "Farrow"));
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--papers", "out"]);
    assert!(seal.err.contains("warning[archive/papers-differ]"), "{}", seal.err);
    assert_eq!(shop.read("archive/A-1/A-1-v1/data/papers/return-report.pdf"), issued);
    // What the paper was made from is not what lies beside it now, and the bag says so.
    let verify = shop.run(&["verify", "archive/A-1/A-1-v1"]);
    assert_eq!(verify.code, 0, "{}", verify.out);
    assert!(
        verify.out.contains("was issued before the sheet beside it was changed"),
        "{}",
        verify.out
    );
    shop.file("jobs/A-2/findings.yaml", sheet("A-2", "b.jpg"))
        .file("jobs/A-2/b.jpg", jpeg(80, 60, 3));
    fs::create_dir_all(shop.path("out/A-2")).unwrap();
    for (paper, cause) in
        [(issued.as_slice(), "a paper of the job `A-1`"), (b"%PDF-1.7", "not a paper")]
    {
        shop.file("out/A-2/return-report.pdf", paper);
        let other = shop.run(&["seal", "jobs/A-2", "--archive", "archive", "--papers", "out"]);
        assert_eq!(other.code, 1);
        assert!(other.err.contains(cause), "{}", other.err);
        assert!(!shop.has("archive/A-2/A-2-v1"));
    }
    let none = shop.run(&["seal", "jobs", "--archive", "other", "--papers", "nowhere"]);
    assert_eq!(none.code, 1);
    assert!(none.err.contains("leave out `--papers`"), "{}", none.err);
}

/// Writes the lists of a bag and its line in a register of one line anew, as a forger would.
fn redo(shop: &Workshop, bag: &str) {
    let folder = shop.path(bag);
    let line = |path: &str| {
        let bytes = fs::read(folder.join(path)).unwrap();
        format!("{}  {path}\n", Digest::of(&bytes).hex())
    };
    let old = String::from_utf8(shop.read(&format!("{bag}/manifest-sha256.txt"))).unwrap();
    let listed: Vec<&str> = old.lines().map(|line| line.split_once("  ").unwrap().1).collect();
    let bytes: u64 = listed.iter().map(|path| folder.join(path).metadata().unwrap().len()).sum();
    fs::write(
        folder.join("manifest-sha256.txt"),
        listed.iter().map(|path| line(path)).collect::<String>(),
    )
    .unwrap();
    let info = String::from_utf8(shop.read(&format!("{bag}/bag-info.txt"))).unwrap();
    let info: String = info
        .lines()
        .map(|line| match line.starts_with("Payload-Oxum") {
            true => format!("Payload-Oxum: {bytes}.{}\n", listed.len()),
            false => format!("{line}\n"),
        })
        .collect();
    fs::write(folder.join("bag-info.txt"), info).unwrap();
    let tags = String::from_utf8(shop.read(&format!("{bag}/tagmanifest-sha256.txt"))).unwrap();
    let old = Digest::of(tags.as_bytes()).hex();
    let tags: String = tags.lines().map(|one| line(one.split_once("  ").unwrap().1)).collect();
    fs::write(folder.join("tagmanifest-sha256.txt"), &tags).unwrap();
    let register = String::from_utf8(shop.read("archive/register.jsonl")).unwrap();
    let register = register.replace(&old, &Digest::of(tags.as_bytes()).hex());
    fs::write(shop.path("archive/register.jsonl"), register).unwrap();
}

#[test]
fn a_paper_is_made_again_from_its_bag_and_one_with_other_pages_does_not_agree() {
    let shop = shop();
    shop.run(&["seal", "jobs/A-1", "--archive", "archive", "--tar"]);
    let bag = "archive/A-1/A-1-v1";
    let sound = shop.run(&["verify", bag]);
    assert_eq!(sound.code, 0, "{}", sound.out);
    assert!(
        sound.out.contains("made again from this bag's sheet, profile and photos: the same bytes"),
        "{}",
        sound.out
    );
    assert!(!sound.out.contains("were not compared"), "{}", sound.out);
    let tar = shop.run(&["verify", &format!("{bag}.tar")]);
    assert!(tar.out.contains("were not compared") && tar.out.contains("unpacked"), "{}", tar.out);
    let archive = shop.run(&["verify", "archive"]);
    assert!(
        archive.out.lines().nth(2).unwrap().contains("the pages of 2 papers were not compared"),
        "{}",
        archive.out
    );
    // A later part of the file can show other pages; here it shows nothing, and is seen all the same.
    let paper = format!("{bag}/data/papers/return-report.pdf");
    let mut bytes = shop.read(&paper);
    bytes.extend(b"% another page\n");
    fs::write(shop.path(&paper), bytes).unwrap();
    fs::remove_file(shop.path(&format!("{bag}.tar"))).unwrap();
    redo(&shop, bag);
    let forged = shop.run(&["verify", bag]);
    assert_eq!(forged.code, 1, "{}", forged.out);
    assert!(
        forged.out.contains("making it again from the bag gives other bytes"),
        "{}",
        forged.out
    );
    // The whole archive does not compare pages, and says so.
    let archive = shop.run(&["verify", "archive"]);
    assert_eq!(archive.code, 0, "{}", archive.out);
    assert!(archive.out.lines().nth(2).unwrap().contains("were not compared"), "{}", archive.out);
}

#[test]
fn a_logo_lies_in_the_bag_so_that_papers_can_be_made_again_from_it() {
    let shop = shop();
    shop.file("workshop.yaml", format!("{PROFILE}logo: mark.svg\n"));
    shop.file("mark.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20\" height=\"20\"><rect width=\"20\" height=\"20\"/></svg>");
    let seal = shop.run(&["seal", "jobs/A-1", "--archive", "archive"]);
    assert_eq!(seal.code, 0, "{}", seal.err);
    let verify = shop.run(&["verify", "archive/A-1/A-1-v1"]);
    assert!(verify.out.contains("made again from this bag"), "{}", verify.out);
}

#[test]
fn an_issued_paper_whose_pages_were_changed_is_not_sealed() {
    let shop = shop();
    shop.run(&["render", "jobs", "--out", "out"]);
    let mut bytes = shop.read("out/A-1/return-report.pdf");
    bytes.extend(b"% another page\n");
    shop.file("out/A-1/return-report.pdf", bytes);
    let seal = shop.run(&["seal", "jobs", "--archive", "archive", "--papers", "out"]);
    assert_eq!(seal.code, 1, "{}", seal.err);
    assert!(seal.err.contains("it was changed after it was made"), "{}", seal.err);
    assert!(!shop.has("archive/A-1/A-1-v1"));
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
