//! Time stamps held against the bag, the register and the reader's clock, and sentences on them.
//!
//! The rule: a stamp says that a digest was there at a time, so it cannot lie before what the bag tells
//! of, before the line that registers the bag, after its own arrival or after now (RFC 3161, 1).

use std::fs;

use splitcase::archive::erase::erase;
use splitcase::archive::store_reply::store;
use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;
use splitcase::digest::Digest;

use super::made::Made;
use crate::archive::authority::{CERTIFICATE, reply};

/// An archive with one bag, sealed and stamped at given times; the sheet's last day is 2026-03-11.
fn stamped(sealed: &'static str, stamp: &str, came: &str) -> Made {
    let mut made = Made::new();
    made.at = sealed;
    let bag = made.seal("HD-2614", "grinding", false);
    let digest = Digest::of(&fs::read(bag.join("tagmanifest-sha256.txt")).unwrap());
    let file = made.archive.parent().unwrap().join("reply.tsr");
    fs::write(&file, reply(&digest, stamp)).unwrap();
    store(&file, &made.archive, came.parse().unwrap()).unwrap();
    made
}

fn judged(made: &Made, now: &str) -> Judgement {
    let authority = Some(CERTIFICATE.as_bytes());
    verify(
        &made.archive,
        &Against { authority, now: Some(now.parse().unwrap()), ..Against::default() },
    )
}

fn flaws(judged: &Judgement) -> Vec<String> {
    judged.flaws.iter().map(|flaw| format!("{}: {}", flaw.place, flaw.message)).collect()
}

#[test]
fn a_stamp_between_seal_and_arrival_vouches() {
    let made = stamped("2026-03-11T14:05:08Z", "20260312080000Z", "2026-03-12T09:00:00Z");
    let judged = judged(&made, "2026-04-01T08:00:00Z");
    assert_eq!(judged.outcome(), Outcome::VouchedFor, "{judged:#?}");
    assert_eq!(judged.vouchers[0].by, "authority");
}

#[test]
fn a_stamp_from_the_future_is_a_flaw_and_vouches_for_nothing() {
    let made = stamped("2026-03-11T14:05:08Z", "20350101080000Z", "2026-03-12T09:00:00Z");
    let judged = judged(&made, "2026-04-01T08:00:00Z");
    assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
    let flaws = flaws(&judged);
    let said = "is dated 2035-01-01T08:00:00Z, after the clock of this machine";
    assert!(flaws.iter().any(|flaw| flaw.contains(said)), "{flaws:#?}");
    assert!(judged.vouchers.is_empty(), "{:?}", judged.vouchers);
}

#[test]
fn a_stamp_before_the_last_day_that_the_bag_tells_of_is_a_flaw() {
    let made = stamped("2026-03-11T14:05:08Z", "20260301080000Z", "2026-03-12T09:00:00Z");
    let flaws = flaws(&judged(&made, "2026-04-01T08:00:00Z"));
    let said = "before 2026-03-11, the last day that the bag names";
    assert!(flaws.iter().any(|flaw| flaw.contains(said)), "{flaws:#?}");
}

#[test]
fn a_stamp_before_the_line_of_its_bag_shows_that_the_line_is_dated_too_late() {
    let made = stamped("2026-03-20T14:05:08Z", "20260315080000Z", "2026-03-21T09:00:00Z");
    let flaws = flaws(&judged(&made, "2026-04-01T08:00:00Z"));
    let said = "before the register says that the bag was sealed";
    assert!(flaws.iter().any(|flaw| flaw.contains(said)), "{flaws:#?}");
}

#[test]
fn a_stamp_after_its_own_arrival_shows_that_the_line_is_dated_too_early() {
    let made = stamped("2026-03-11T14:05:08Z", "20260320080000Z", "2026-03-12T09:00:00Z");
    let flaws = flaws(&judged(&made, "2026-04-01T08:00:00Z"));
    let said = "after the register says that it came";
    assert!(flaws.iter().any(|flaw| flaw.contains(said)), "{flaws:#?}");
}

#[test]
fn days_between_seal_and_stamp_are_said() {
    let made = stamped("2026-03-11T14:05:08Z", "20260401140508Z", "2026-04-02T09:00:00Z");
    let judged = judged(&made, "2026-05-01T08:00:00Z");
    let late = judged.not_shown.iter().find(|one| one.code == "archive/stamped-late").unwrap();
    assert!(late.text.contains("are 21 days"), "{}", late.text);
}

/// A power cut may come between the file of a stamp and its line; storing it again writes the line.
#[test]
fn a_stamp_whose_line_was_lost_gets_it_when_it_is_stored_again() {
    let made = stamped("2026-03-11T14:05:08Z", "20260312080000Z", "2026-03-12T09:00:00Z");
    let register = made.archive.join("register.jsonl");
    let whole = fs::read_to_string(&register).unwrap();
    let cut: String = whole.lines().take(1).map(|line| format!("{line}\n")).collect();
    fs::write(&register, cut).unwrap();
    let file = made.archive.parent().unwrap().join("reply.tsr");
    let at = "2026-03-12T09:00:00Z".parse().unwrap();
    store(&file, &made.archive, at).unwrap();
    assert_eq!(fs::read_to_string(&register).unwrap(), whole);
    // And no second line once it is there.
    store(&file, &made.archive, at).unwrap();
    assert_eq!(fs::read_to_string(&register).unwrap(), whole);
}

/// With a bag whose last day has passed its time stamp may go; with one that must be kept it may not.
#[test]
fn a_stamp_may_go_with_its_bag_and_not_before() {
    let made = stamped("2026-03-11T14:05:08Z", "20260312080000Z", "2026-03-12T09:00:00Z");
    let codes = |made: &Made, now: &str| -> Vec<&'static str> {
        let against = Against { now: Some(now.parse().unwrap()), ..Against::default() };
        verify(&made.archive, &against).flaws.iter().map(|flaw| flaw.code).collect()
    };
    fs::remove_file(made.archive.join("HD-2614/HD-2614-v1.tsr")).unwrap();
    assert_eq!(codes(&made, "2026-04-01T08:00:00Z"), ["archive/stamp"]);
    // The bag is gone as well, before and after its last day.
    fs::remove_dir_all(made.archive.join("HD-2614/HD-2614-v1")).unwrap();
    let early = codes(&made, "2026-04-01T08:00:00Z");
    assert_eq!(early, ["archive/bag-missing", "archive/stamp"]);
    let mut later = made;
    later.at = "2032-03-12T08:00:00Z";
    later.seal("HD-2700", "no fault", false);
    assert!(codes(&later, "2040-01-01T08:00:00Z").is_empty());
}

/// Erased for a reason, the bag takes its stamp with it; both stay named in the register.
#[test]
fn a_stamp_is_erased_with_its_bag_and_not_missed() {
    let made = stamped("2026-03-11T14:05:08Z", "20260312080000Z", "2026-03-12T09:00:00Z");
    // The job has a second bag, so that its folder stays.
    made.seal("HD-2614", "grinding, then cured", false);
    let at = "2026-04-02T08:00:00Z".parse().unwrap();
    erase("HD-2614", Some(1), "the owner asked for it", &made.archive, at).unwrap();
    assert!(!made.archive.join("HD-2614/HD-2614-v1.tsr").exists());
    let judged = verify(&made.archive, &Against::default());
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
}
