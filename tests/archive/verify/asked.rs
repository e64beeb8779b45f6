//! Asking whose signature or time stamp it is where there is none, or with a file of no use.

use std::fs;
use std::path::Path;

use splitcase::archive::verify::{Against, Ending, Judgement, verify};

use super::made::{Made, held, key};

const NO_SIGNATURE: &str = "no signature lies in this bag, and you asked whose it is";
const NO_STAMP: &str = "no time stamp lies beside this bag, and you asked whose it is";

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
        assert_eq!(judged.ending(), Ending::NotIntact);
        assert_eq!(verify(path, &Against::default()).ending(), Ending::Intact);
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
            assert_eq!(judged.ending(), Ending::CouldNotCheck, "{list:?} {judged:#?}");
            assert_eq!(judged.could_not.len(), 1);
        }
        for file in [&b""[..], b"no certificate", b"\x30\x03\x02\x01\x01"] {
            let judged = verify(path, &Against { authority: Some(file), ..Against::default() });
            assert_eq!(judged.ending(), Ending::CouldNotCheck, "{file:?} {judged:#?}");
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
    assert_eq!(judged.ending(), Ending::Intact, "{judged:#?}");
}
