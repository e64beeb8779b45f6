//! Archives: the chain of the register, bags that are gone or new, what else lies there, questions.

use std::fs;
use std::path::Path;

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::queries::{Due, due, find, head};
use splitcase::archive::verify::verify;

use super::made::Made;

fn judged(archive: &Path) -> Judgement {
    verify(archive, &Against::default())
}

/// Code and place of each flaw.
fn flaws(judged: &Judgement) -> Vec<(&str, &str)> {
    judged.flaws.iter().map(|flaw| (flaw.code, flaw.place.as_str())).collect()
}

fn codes(judged: &Judgement) -> Vec<&str> {
    judged.not_shown.iter().map(|one| one.code).collect()
}

#[test]
fn a_sealed_archive_agrees_with_itself_and_says_what_that_means() {
    let made = Made::with_bags();
    let judged = judged(&made.archive);
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let shown: Vec<&str> = judged.shown.iter().map(|one| one.text.as_str()).collect();
    assert_eq!(shown[0], "all 3 bags match their own lists: 15 files");
    assert_eq!(shown[1], "3 papers list the photos and the sheets that are with them");
    assert!(shown[2].starts_with("bags that hold the digest of"), "{shown:?}");
    assert!(shown[3].starts_with("each of the 3 lines of the register holds"), "{shown:?}");
    assert_eq!(
        codes(&judged),
        [
            "archive/no-voucher",
            "archive/pages-not-compared",
            "archive/unsigned",
            "archive/camera-clock",
            "archive/own-clock",
            "archive/head-not-noted",
        ]
    );
}

#[test]
fn a_line_taken_out_of_the_register_shows_at_the_next() {
    let made = Made::with_bags();
    let path = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&path).unwrap();
    let rest: String = text.split_inclusive('\n').skip(1).collect();
    fs::write(&path, rest).unwrap();
    let judged = judged(&made.archive);
    assert!(
        judged.flaws.iter().any(|flaw| flaw.message == "line 1 does not follow the line before it")
    );
    assert!(flaws(&judged).contains(&("archive/not-registered", "HD-2614/HD-2614-v1")));
}

#[test]
fn lines_taken_off_the_end_show_by_the_bag_or_by_the_noted_head() {
    let made = Made::with_bags();
    let noted = head(&made.archive).unwrap();
    assert_eq!(noted.lines, 3);
    let path = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.split_inclusive('\n').take(2).collect::<String>()).unwrap();
    assert_eq!(flaws(&judged(&made.archive)), [("archive/not-registered", "HD-2620/HD-2620-v1")]);
    fs::remove_dir_all(made.archive.join("HD-2620")).unwrap();
    assert_eq!(
        judged(&made.archive).outcome(),
        Outcome::AgreesWithItself,
        "nothing here can know of it"
    );
    let against = Against { head: Some(&noted.digest), ..Against::default() };
    assert_eq!(flaws(&verify(&made.archive, &against)), [("archive/register", "register.jsonl")]);
}

#[test]
fn an_earlier_head_is_found_in_the_chain_by_its_first_32_digits_too() {
    let made = Made::new();
    made.seal("HD-2614", "grinding", false);
    let noted = head(&made.archive).unwrap().digest;
    made.seal("HD-2620", "no fault", false);
    let grouped = format!("{} {}", &noted[..16], &noted[16..32]);
    for noted in [noted.as_str(), grouped.as_str()] {
        let judged = verify(&made.archive, &Against { head: Some(noted), ..Against::default() });
        let said = "the head that was noted is that of line 1 of 2: no line up to there was \
                    changed, and 1 line came after it";
        assert!(judged.shown.iter().any(|one| one.text == said), "{judged:#?}");
        assert!(!codes(&judged).contains(&"archive/head-not-noted"));
        assert_eq!(judged.outcome(), Outcome::VouchedFor);
    }
    for short in ["1234", &noted[..31]] {
        let short = Against { head: Some(short), ..Against::default() };
        assert_eq!(verify(&made.archive, &short).outcome(), Outcome::CannotBeJudged);
    }
}

#[test]
fn a_noted_head_proves_nothing_of_lines_that_do_not_hang_together_before_it() {
    let made = Made::with_bags();
    let noted = head(&made.archive).unwrap().digest;
    let path = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replacen("14:05:08", "14:05:09", 1)).unwrap();
    let judged = verify(&made.archive, &Against { head: Some(&noted), ..Against::default() });
    assert!(!judged.shown.iter().any(|one| one.code == "archive/head-found"), "{judged:#?}");
    assert_eq!(
        judged.flaws.iter().filter(|flaw| flaw.message.contains("that was noted")).count(),
        1
    );
}

#[test]
fn a_head_is_not_told_of_a_register_with_flaws() {
    let made = Made::with_bags();
    let path = made.archive.join("register.jsonl");
    fs::write(&path, fs::read_to_string(&path).unwrap().replace("HD-2620", "HD-2621")).unwrap();
    fs::write(&path, fs::read_to_string(&path).unwrap() + "{").unwrap();
    assert!(head(&made.archive).is_err());
    assert!(head(&made.archive.join("HD-2614")).is_err(), "no archive");
}

#[test]
fn bags_that_are_gone_changed_made_anew_or_slipped_in_are_named() {
    let made = Made::with_bags();
    let bag = |name: &str| made.archive.join(name);
    fs::remove_dir_all(bag("HD-2620")).unwrap();
    // Made anew: whole in itself, but not the one that was registered.
    let other = Made::new();
    other.seal("HD-2614", "another story", false);
    fs::remove_dir_all(bag("HD-2614/HD-2614-v2")).unwrap();
    fs::rename(other.archive.join("HD-2614/HD-2614-v1"), bag("HD-2614/HD-2614-v2")).unwrap();
    other.seal("HD-9999", "slipped in", false);
    fs::rename(other.archive.join("HD-9999"), bag("HD-9999")).unwrap();
    let judged = judged(&made.archive);
    assert_eq!(
        flaws(&judged),
        [
            ("archive/other-seal", "HD-2614/HD-2614-v2"),
            ("archive/bag-missing", "HD-2620/HD-2620-v1"),
            ("archive/not-registered", "HD-9999/HD-9999-v1"),
        ]
    );
    assert_eq!(judged.shown[0].text, "1 bag matches its own list, and the register names 3");
}

#[test]
fn what_is_no_part_of_an_archive_is_named_and_what_seals_leave_is_told_of() {
    let made = Made::with_bags();
    let put = |name: &str| {
        let path = made.archive.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, "x").unwrap();
    };
    put("notes.txt");
    put("HD-2614/HD-2614-v1.zip");
    put("HD-2614/HD-2614-v1/notes.txt");
    put("HD-2614/HD-2614-v01/bagit.txt");
    put("bad name/x");
    put("HD-2614/.making-77-1/bag/bagit.txt");
    put("register.torn-1.txt");
    let judged = judged(&made.archive);
    assert_eq!(
        flaws(&judged),
        [
            ("archive/foreign", "HD-2614/HD-2614-v01"),
            ("archive/foreign", "HD-2614/HD-2614-v1.zip"),
            ("archive/added", "HD-2614/HD-2614-v1/notes.txt"),
            ("archive/foreign", "bad name"),
            ("archive/foreign", "notes.txt"),
        ]
    );
    for code in ["archive/making", "archive/torn-aside"] {
        assert!(codes(&judged).contains(&code), "{judged:#?}");
    }
}

#[test]
fn a_torn_last_line_says_what_puts_it_in_order() {
    let made = Made::with_bags();
    let path = made.archive.join("register.jsonl");
    let text = fs::read(&path).unwrap();
    fs::write(&path, &text[..text.len() - 30]).unwrap();
    let judged = judged(&made.archive);
    let torn = judged.flaws.iter().find(|flaw| flaw.place == "register.jsonl").unwrap();
    assert!(torn.message.starts_with("line 3 is torn"), "{torn:?}");
    assert!(torn.hint.as_ref().unwrap().contains("the next `seal`"));
}

#[test]
fn an_archive_without_its_register_is_not_intact() {
    let made = Made::with_bags();
    fs::remove_file(made.archive.join("register.jsonl")).unwrap();
    assert_eq!(judged(&made.archive).outcome(), Outcome::DoesNotAgree);
    fs::remove_file(made.archive.join("register.lock")).unwrap();
    assert!(flaws(&judged(&made.archive)).contains(&("archive/register", "register.jsonl")));
}

#[test]
fn a_register_that_leads_out_of_the_archive_is_not_followed() {
    let made = Made::with_bags();
    let path = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&path).unwrap();
    let line = text.lines().last().unwrap().replace("HD-2620/HD-2620-v1", "../../HD-2620-v1");
    let rest: String = text.split_inclusive('\n').take(2).collect();
    fs::write(&path, format!("{rest}{line}\n")).unwrap();
    let judged = judged(&made.archive);
    let said = "line 3 names `../../HD-2620-v1`, which is not where that bag would be";
    assert!(judged.flaws.iter().any(|flaw| flaw.message == said), "{judged:#?}");
}

#[test]
fn a_bag_that_is_kept_as_tar_alone_is_as_good() {
    let made = Made::with_bags();
    fs::remove_dir_all(made.archive.join("HD-2614/HD-2614-v1")).unwrap();
    let judged = judged(&made.archive);
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    assert!(codes(&judged).contains(&"archive/tar-alone"));
}

#[test]
fn a_day_of_keeping_that_was_changed_in_the_register_differs_from_the_bag() {
    let made = Made::new();
    made.seal("HD-2614", "grinding", false);
    let path = made.archive.join("register.jsonl");
    fs::write(&path, fs::read_to_string(&path).unwrap().replace("2032-03-11", "2027-03-11"))
        .unwrap();
    let judged = judged(&made.archive);
    assert_eq!(flaws(&judged), [("archive/disagrees", "HD-2614/HD-2614-v1/bag-info.txt")]);
}

#[test]
fn bags_are_due_after_their_last_day_and_only_listed() {
    let made = Made::with_bags();
    let due_on = |day: &str| due(&made.archive, day.parse().unwrap()).unwrap();
    assert!(due_on("2032-03-11").is_empty());
    let text: String = due_on("2032-03-12").iter().map(Due::text).collect();
    assert_eq!(
        text,
        "2032-03-11  HD-2614/HD-2614-v1\n2032-03-11  HD-2614/HD-2614-v2\n2032-03-11  HD-2620/HD-2620-v1\n"
    );
    assert!(made.archive.join("HD-2614/HD-2614-v1").is_dir());
}

#[test]
fn a_paper_is_found_by_the_digits_printed_on_it_and_by_its_code() {
    let made = Made::with_bags();
    let folder = made.job_folder("HD-2620", "no fault");
    let digest = splitcase::digest::Digest::of(&super::made::manifest(&folder, "HD-2620")).hex();
    let grouped = format!("{} {} {}", &digest[..4], &digest[4..8], &digest[8..12]);
    let upper = digest[..8].to_ascii_uppercase();
    let code = format!("splitcase HD-2620 {digest}");
    for typed in [digest.as_str(), &grouped, &upper, &code] {
        let found = find(&made.archive, typed).unwrap();
        assert_eq!(found.len(), 1, "{typed}");
        assert_eq!(found[0].bag, "HD-2620/HD-2620-v1");
        assert_eq!(found[0].paper, "data/papers/return-report.pdf");
        assert_eq!(found[0].digest, digest);
    }
    assert!(find(&made.archive, "0000 0000").unwrap().is_empty());
    for typed in ["1234567", "not hex!", "", &format!("{digest}0")] {
        assert!(find(&made.archive, typed).is_err(), "{typed:?}");
    }
}

#[test]
fn a_time_stamp_that_came_is_held_against_its_line() {
    use splitcase::archive::register::entry::Event;
    use splitcase::archive::register::write::{NewEntry, RegisterWriter};
    let made = Made::new();
    made.seal("HD-2614", "grinding", false);
    let stamp = made.archive.join("HD-2614/HD-2614-v1.tsr");
    fs::write(&stamp, "no real reply").unwrap();
    let news = NewEntry {
        event: Event::Stamped,
        job: "HD-2614",
        version: 1,
        bag: "HD-2614/HD-2614-v1.tsr".to_owned(),
        sha256: splitcase::digest::Digest::of(b"no real reply").hex(),
        time: "2026-03-12T09:00:00Z".parse().unwrap(),
        keep_until: None,
        because: None,
    };
    RegisterWriter::open(&made.archive).unwrap().add(&news).unwrap();
    // It is the file that came, but no time stamp.
    assert_eq!(flaws(&judged(&made.archive)), [("archive/stamp", "HD-2614/HD-2614-v1.tsr")]);
    fs::write(&stamp, "another one").unwrap();
    let messages = |judged: &Judgement| -> Vec<String> {
        judged.flaws.iter().map(|flaw| flaw.message.clone()).collect()
    };
    let said = "changed since it came: line 2 of the register holds another digest";
    assert!(messages(&judged(&made.archive)).contains(&said.to_owned()));
    fs::remove_file(&stamp).unwrap();
    assert_eq!(
        messages(&judged(&made.archive)),
        ["missing: line 2 of the register says that this time stamp came"]
    );
}

#[test]
fn signatures_are_judged_by_the_keys_that_are_accepted() {
    let mut made = Made::with_bags();
    made.signs = true;
    let bag = made.seal("HD-2625", "signed", false);
    let public = |name: &str| fs::read_to_string(super::made::key(name)).unwrap();
    let (own, other) = (public("ed25519.pub"), public("p256.pub"));
    let with = |signers: Option<&str>| verify(&bag, &Against { signers, ..Against::default() });
    let open = with(None);
    assert_eq!(open.outcome(), Outcome::AgreesWithItself, "{open:#?}");
    assert!(
        !codes(&open).contains(&"archive/unsigned") && codes(&open).contains(&"archive/signature")
    );
    let accepted = with(Some(&own));
    assert_eq!(accepted.shown.iter().filter(|one| one.code == "archive/signature").count(), 2);
    assert_eq!(flaws(&with(Some(&other))), [("archive/signature", "tagmanifest-sha256.txt.sig")]);
    assert_eq!(with(Some("no key at all")).outcome(), Outcome::CannotBeJudged);
    let all = judged(&made.archive);
    let said = "3 of 4 bags have no signature: for those there is the register alone, and its head \
                noted elsewhere";
    assert!(all.not_shown.iter().any(|one| one.text == said), "{all:#?}");
}
