//! The register's head in a file of its own: one signature or time stamp for every bag so far.

use std::fs;
use std::path::PathBuf;

use splitcase::archive::note_head::{Beside, note};
use splitcase::archive::store_reply::store;
use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;
use splitcase::digest::Digest;

use super::made::{Made, key};
use crate::archive::authority::{CERTIFICATE, reply};

/// An archive of three unsigned bags with its head noted and signed.
fn noted() -> Made {
    let made = Made::with_bags();
    let key = key("ed25519");
    note(&made.archive, &Beside { key: Some(&key), passphrase: None, query: true }).unwrap();
    made
}

fn by_signer(made: &Made) -> Judgement {
    let signers = fs::read_to_string(key("ed25519.pub")).unwrap();
    verify(&made.archive, &Against { signers: Some(&signers), ..Against::default() })
}

fn head(made: &Made) -> PathBuf {
    made.archive.join("register.head-3.txt")
}

fn stamped(made: &Made, time: &str) -> Judgement {
    let digest = Digest::of(&fs::read(head(made)).unwrap());
    let file = made.archive.parent().unwrap().join("reply.tsr");
    fs::write(&file, reply(&digest, time)).unwrap();
    let at = "2026-03-12T09:00:00Z".parse().unwrap();
    let place = store(&file, &made.archive, at).unwrap();
    assert_eq!(place, made.archive.join("register.head-3.txt.tsr"));
    let now = Some("2026-04-01T08:00:00Z".parse().unwrap());
    let authority = Some(CERTIFICATE.as_bytes());
    verify(&made.archive, &Against { authority, now, ..Against::default() })
}

fn codes(judged: &Judgement) -> Vec<(&str, &str)> {
    judged.flaws.iter().map(|flaw| (flaw.code, flaw.place.as_str())).collect()
}

#[test]
fn one_signature_of_the_head_vouches_for_bags_that_have_none() {
    let made = noted();
    let judged = by_signer(&made);
    assert_eq!(judged.outcome(), Outcome::VouchedFor, "{judged:#?}");
    let text = &judged.vouchers[0].text;
    assert!(text.contains("for the register up to line 3 of 3"), "{text}");
}

#[test]
fn a_bag_that_came_after_the_signed_head_is_not_covered() {
    let made = noted();
    made.seal("HD-2625", "later", false);
    let judged = by_signer(&made);
    let place = "HD-2625/HD-2625-v1/tagmanifest-sha256.txt.sig";
    assert_eq!(codes(&judged), [("archive/no-signature", place)]);
}

#[test]
fn a_register_made_anew_disagrees_with_the_head_that_was_noted() {
    let made = noted();
    let register = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&register).unwrap().replacen("14:05:08Z", "14:05:07Z", 1);
    // Every later line is chained anew, as a forger would.
    let mut forged = String::new();
    for line in text.lines() {
        let mut entry: serde_json::Value = serde_json::from_str(line).unwrap();
        if let Some(last) = forged.lines().last() {
            entry["previous"] = Digest::of(last.as_bytes()).hex().into();
        }
        let previous = entry["previous"].as_str().unwrap();
        let old = line.split("\"previous\":\"").nth(1).unwrap();
        forged += &line.replace(old, &format!("{previous}\"}}"));
        forged.push('\n');
    }
    fs::write(&register, forged).unwrap();
    let judged = by_signer(&made);
    let found = codes(&judged);
    assert!(found.contains(&("archive/head-file", "register.head-3.txt")), "{found:?}");
    assert!(judged.vouchers.is_empty());
}

/// The line after the head holds the digest of the head's own.
#[test]
fn a_line_after_the_head_that_does_not_follow_it_takes_the_head_with_it() {
    let made = noted();
    made.seal("HD-2625", "later", false);
    let register = made.archive.join("register.jsonl");
    let text = fs::read_to_string(&register).unwrap();
    let at = text.rfind("\"previous\":\"").unwrap() + "\"previous\":\"".len();
    let digit = if text.as_bytes()[at] == b'0' { "1" } else { "0" };
    fs::write(&register, format!("{}{digit}{}", &text[..at], &text[at + 1..])).unwrap();
    let found = by_signer(&made);
    assert!(codes(&found).contains(&("archive/head-file", "register.head-3.txt")), "{found:#?}");
}

#[test]
fn a_changed_head_a_changed_signature_and_a_signature_alone_are_flaws() {
    let made = noted();
    let text = fs::read_to_string(head(&made)).unwrap();
    fs::write(head(&made), text.replace("Line: 3", "Line: 2")).unwrap();
    assert!(codes(&by_signer(&made)).contains(&("archive/head-file", "register.head-3.txt")));

    fs::write(head(&made), text.clone()).unwrap();
    let signature = made.archive.join("register.head-3.txt.sig");
    let kept = fs::read_to_string(&signature).unwrap();
    let changed = kept.replacen('A', "B", 1);
    fs::write(&signature, changed).unwrap();
    assert!(!by_signer(&made).flaws.is_empty());

    fs::write(&signature, kept).unwrap();
    fs::remove_file(head(&made)).unwrap();
    let found = by_signer(&made);
    assert!(codes(&found).contains(&("archive/head-file", "register.head-3.txt.sig")));
}

#[test]
fn a_stamp_of_the_head_vouches_for_all_bags_so_far() {
    let made = noted();
    let judged = stamped(&made, "20260312080000Z");
    assert_eq!(judged.outcome(), Outcome::VouchedFor, "{judged:#?}");
    let text = &judged.vouchers[0].text;
    assert!(text.contains("up to line 3 of 3 at 2026-03-12T08:00:00Z"), "{text}");
}

#[test]
fn a_reply_to_the_head_is_stored_once_and_another_is_refused() {
    let made = noted();
    stamped(&made, "20260312080000Z");
    // The same reply again changes nothing.
    stamped(&made, "20260312080000Z");
    let other = made.archive.parent().unwrap().join("other.tsr");
    let digest = Digest::of(&fs::read(head(&made)).unwrap());
    fs::write(&other, reply(&digest, "20260313080000Z")).unwrap();
    let kept = fs::read(made.archive.join("register.head-3.txt.tsr")).unwrap();
    let refused = store(&other, &made.archive, "2026-03-14T09:00:00Z".parse().unwrap());
    assert!(refused.unwrap_err().to_string().contains("another one is there already"));
    assert_eq!(fs::read(made.archive.join("register.head-3.txt.tsr")).unwrap(), kept);
}

#[test]
fn a_stamp_of_the_head_from_the_future_or_before_its_line_is_a_flaw() {
    for (time, said) in [
        ("20350101080000Z", "after the clock of this machine"),
        ("20260301080000Z", "before line 3 of the register says that it was written"),
    ] {
        let judged = stamped(&noted(), time);
        let found = judged.flaws.iter().any(|flaw| flaw.message.contains(said));
        assert!(found, "{time}: {:#?}", judged.flaws);
        assert!(judged.vouchers.is_empty(), "{time}");
    }
}

#[test]
fn noting_again_changes_nothing_and_overwrites_nothing() {
    let made = noted();
    let before = fs::read(head(&made)).unwrap();
    note(&made.archive, &Beside::default()).unwrap();
    assert_eq!(fs::read(head(&made)).unwrap(), before);
    fs::write(head(&made), "something else").unwrap();
    let refused = note(&made.archive, &Beside::default()).unwrap_err();
    assert!(refused.to_string().contains("nothing is overwritten"), "{refused}");
    assert_eq!(fs::read(head(&made)).unwrap(), b"something else");
}

#[test]
fn an_archive_without_lines_has_no_head_to_note() {
    let made = Made::new();
    assert!(note(&made.archive, &Beside::default()).is_err());
    assert!(!made.archive.exists());
}
