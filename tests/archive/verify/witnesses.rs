//! Every sentence on a signature or a time stamp beside the check that licenses it, and a case that says
//! it; no case says one that is not here.

use std::fs;
use std::path::Path;

use splitcase::archive::store_reply::store;
use splitcase::archive::verify::judgement::{Against, Judgement};
use splitcase::archive::verify::verify;
use splitcase::archive::verify::words::Statement;
use splitcase::digest::Digest;

use super::made::{Made, key};
use crate::archive::authority::{CERTIFICATE, reply};

/// The fixed part of a sentence, and the check that must have held before it may be said.
const LICENCES: &[(&str, &str)] = &[
    ("the seal was signed by the key", "the signature fits the tag manifest by the key it names"),
    (
        "that key is one of those that you accept",
        "the key is in the reader's list for this purpose",
    ),
    (
        "that this key is the workshop's must be known from elsewhere",
        "the signature fits, and the reader named no keys",
    ),
    ("the list limits that key in time", "the reader's list has `valid-after` or `valid-before`"),
    ("when it was signed: only a time stamp says it", "always: SSHSIG holds no time"),
    (
        "a workshop's own key does not bind the workshop",
        "always: whoever has the key can sign anew",
    ),
    (
        "the seal was there at",
        "the reply is over this digest, its signature fits, and the signer descends from a given certificate",
    ),
    ("is vouched for by the certificate that you gave", "the same"),
    ("it is the time stamp number", "the same; read from what was signed"),
    (
        "the time stamp is for this seal and says",
        "the reply is over this digest and its signature fits; no certificate was given",
    ),
    ("it is signed by the certificate that it carries", "the same"),
    ("it has the number", "the same; read from what was signed"),
    ("is an authority for time must be known from elsewhere", "no certificate was given"),
    ("whether the certificate of", "always: nothing is asked of an authority from here"),
    ("that nothing was changed before that time", "always: a stamp bounds a time from above"),
];

/// Sentences of rare replies, shown by files that OpenSSL made: code and test.
const ELSEWHERE: &[(&str, &str)] = &[
    ("the time stamp itself names its maker otherwise", "tests/archive/timestamp.rs"),
    ("which the reply carries along, is under no signature", "tests/archive/timestamp.rs"),
];

/// One signed and stamped bag, judged by readers who know more and less.
fn cases() -> Vec<Judgement> {
    let mut made = Made::new();
    made.signs = true;
    let bag = made.seal("HD-2614", "grinding", false);
    let digest = Digest::of(&fs::read(bag.join("tagmanifest-sha256.txt")).unwrap());
    let file = made.archive.parent().unwrap().join("reply.tsr");
    fs::write(&file, reply(&digest, "20260312080000Z")).unwrap();
    store(&file, &made.archive, "2026-03-12T09:00:00Z".parse().unwrap()).unwrap();
    let public = fs::read_to_string(key("ed25519.pub")).unwrap();
    let limited = format!("workshop valid-before=\"20400101\" {public}");
    let none = Against { now: Some("2026-04-01T08:00:00Z".parse().unwrap()), ..Against::default() };
    let authority = Some(CERTIFICATE.as_bytes());
    let readers = [
        none,
        Against { signers: Some(&public), ..none },
        Against { signers: Some(&limited), authority, ..none },
    ];
    readers.iter().map(|against| verify(&bag, against)).collect()
}

fn said(judged: &Judgement) -> Vec<&Statement> {
    let all = judged.shown.iter().chain(&judged.not_shown);
    all.filter(|one| matches!(one.code, "archive/signature" | "archive/stamp")).collect()
}

#[test]
fn every_sentence_on_a_signature_or_stamp_has_a_licence_and_a_case() {
    let cases = cases();
    for (part, licence) in LICENCES {
        let count = cases.iter().filter(|one| said(one).iter().any(|one| one.text.contains(part)));
        assert!(0 < count.count(), "no case says `{part}`, licensed by: {licence}");
    }
    for statement in cases.iter().flat_map(said) {
        let known = LICENCES.iter().filter(|(part, _)| statement.text.contains(part)).count();
        assert_eq!(known, 1, "`{}` has {known} licences", statement.text);
    }
}

#[test]
fn every_sentence_in_the_source_is_in_the_table() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for file in ["ssh/judgement.rs", "rfc3161/judgement.rs"] {
        let text = fs::read_to_string(root.join("src/archive/trust").join(file)).unwrap();
        for part in ["    pub fn shown(", "    pub fn not_shown("] {
            let from = text.find(part).unwrap();
            let body = &text[from..from + text[from..].find("\n    }\n").unwrap()];
            // Texts of a sentence or more, their line breaks taken out.
            for text in body.split('"').skip(1).step_by(2).filter(|text| 22 < text.len()) {
                let text = text.replace("\\\n", " ");
                let plain: Vec<&str> = text.split_whitespace().collect();
                let plain = plain.join(" ");
                let all = LICENCES.iter().chain(ELSEWHERE);
                let known = all.filter(|(part, _)| plain.contains(part)).count();
                assert!(known == 1, "{file}: `{plain}` has {known} licences");
            }
        }
    }
    for (part, file) in ELSEWHERE {
        assert!(root.join(file).is_file(), "{part}");
    }
}
