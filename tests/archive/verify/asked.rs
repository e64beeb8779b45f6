//! Asking whose signature or time stamp it is where there is none, or with a file of no use.

use std::fs;
use std::path::Path;

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::made::{Made, held, key};

const NO_SIGNATURE: &str = "this bag has no signature, and you asked whose it is";
const NO_STAMP: &str = "this bag has no time stamp, and you asked whose it is";

/// Places of the flaws with this message.
fn places<'a>(judged: &'a Judgement, message: &str) -> Vec<&'a str> {
    let flaws = judged.flaws.iter().filter(|flaw| flaw.message == message);
    flaws.map(|flaw| flaw.place.as_str()).collect()
}

fn signers() -> String {
    fs::read_to_string(key("ed25519.pub")).unwrap()
}

fn certificates() -> Vec<u8> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/archive/stamps");
    fs::read(folder.join("ca.pem")).unwrap()
}

#[test]
fn a_bag_without_a_signature_is_not_intact_for_who_asks_whose_it_is() {
    let made = Made::new();
    let bag = made.seal("HD-2614", "grinding", true);
    let copy = [held("findings.yaml", "job: HD-2614\n"), held("photos/bearing.jpg", "a bearing")];
    let copy = made.seal_with("HD-2614-owner", &[], &copy, &[], false);
    let signers = signers();
    let against = Against { signers: Some(&signers), ..Against::default() };
    for path in [&bag, &bag.with_extension("tar"), &copy] {
        let judged = verify(path, &against);
        assert_eq!(places(&judged, NO_SIGNATURE), ["tagmanifest-sha256.txt.sig"], "{path:?}");
        assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
        assert_eq!(verify(path, &Against::default()).outcome(), Outcome::AgreesWithItself);
    }
}

#[test]
fn the_bags_of_an_archive_that_have_no_signature_are_named_to_who_asks() {
    let mut made = Made::new();
    made.seal("HD-2614", "grinding", false);
    made.signs = true;
    made.seal("HD-2620", "no fault", false);
    let signers = signers();
    let judged = verify(&made.archive, &Against { signers: Some(&signers), ..Against::default() });
    let place = "HD-2614/HD-2614-v1/tagmanifest-sha256.txt.sig";
    assert_eq!(places(&judged, NO_SIGNATURE), [place], "{judged:#?}");
    assert_eq!(judged.flaws.len(), 1);
}

#[test]
fn a_bag_without_a_time_stamp_is_not_intact_for_who_asks_whose_it_is() {
    let made = Made::new();
    let bag = made.seal("HD-2614", "grinding", false);
    let authority = certificates();
    let against = Against { authority: Some(&authority), ..Against::default() };
    assert_eq!(places(&verify(&bag, &against), NO_STAMP), [""]);
    assert_eq!(places(&verify(&made.archive, &against), NO_STAMP), ["HD-2614/HD-2614-v1"]);
}

#[test]
fn a_file_without_any_key_or_certificate_could_not_judge_even_what_is_not_signed() {
    let made = Made::with_bags();
    let bag = made.archive.join("HD-2614/HD-2614-v1");
    for path in [&bag, &made.archive] {
        for list in ["", "# nobody yet\n", "no key at all", "ssh-ed25519 AAAA nobody"] {
            let judged = verify(path, &Against { signers: Some(list), ..Against::default() });
            assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{list:?} {judged:#?}");
            assert_eq!(judged.could_not.len(), 1);
        }
        for file in [&b""[..], b"no certificate", b"\x30\x03\x02\x01\x01"] {
            let judged = verify(path, &Against { authority: Some(file), ..Against::default() });
            assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{file:?} {judged:#?}");
            assert_eq!(judged.could_not.len(), 1);
        }
    }
}

#[test]
fn a_list_of_signers_with_names_and_options_holds_a_key() {
    let mut made = Made::new();
    made.signs = true;
    let bag = made.seal("HD-2614", "grinding", false);
    let list = format!("# ours\nbench@hollowmere.example namespaces=\"splitcase\" {}", signers());
    let judged = verify(&bag, &Against { signers: Some(&list), ..Against::default() });
    assert_eq!(judged.outcome(), Outcome::VouchedFor, "{judged:#?}");
    assert_eq!((judged.vouchers.len(), judged.vouchers[0].by), (1, "signer"));
    assert!(judged.text(&bag).contains("vouched for by the signer of `bench@hollowmere.example`"));
}

/// Manual page of `ssh-keygen`, ALLOWED SIGNERS: `valid-before` is held against the present.
#[test]
fn a_key_that_the_list_accepts_at_other_times_only_vouches_for_nothing() {
    let mut made = Made::new();
    made.signs = true;
    let bag = made.seal("HD-2614", "grinding", false);
    for (limit, ending) in [
        ("valid-before=\"20260401\"", Outcome::DoesNotAgree),
        ("valid-after=\"20260601Z\"", Outcome::DoesNotAgree),
        ("valid-before=\"soon\"", Outcome::DoesNotAgree),
        ("valid-after=\"20260101\",valid-before=\"20270101120000Z\"", Outcome::VouchedFor),
    ] {
        let list = format!("bench@hollowmere.example {limit} {}", signers());
        let now = Some("2026-05-01T08:00:00Z".parse().unwrap());
        let against = Against { signers: Some(&list), now, ..Against::default() };
        assert_eq!(verify(&bag, &against).outcome(), ending, "{limit}");
    }
}

/// OpenSSH knows P-521; that it is not known here makes nothing wrong.
#[test]
fn a_signature_of_a_kind_that_is_not_known_here_cannot_be_judged() {
    let made = Made::new();
    let bag = made.seal("HD-2614", "grinding", false);
    fs::copy(key("p521.sig"), bag.join("tagmanifest-sha256.txt.sig")).unwrap();
    let judged = verify(&bag, &Against::default());
    assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{judged:#?}");
    assert!(judged.flaws.is_empty() && judged.could_not.len() == 1, "{judged:#?}");
}
