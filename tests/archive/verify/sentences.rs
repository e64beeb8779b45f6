//! Every sentence of `verify` beside the check that licenses it, and a case that says it and one that does not.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::erase::erase;
use splitcase::archive::note_head::{Beside, note};
use splitcase::archive::redact::redact;
use splitcase::archive::verify::judgement::{Against, Judgement};
use splitcase::archive::verify::queries::head;
use splitcase::archive::verify::verify;

use super::described::Described;
use super::made::{Made, WORKSHOP, held, key, manifest, pdf, pdf_carrying, sheet};

/// Codes of sentences and the check that must have held before each may be said. Those of `OTHERS`
/// need an authority for time or a whole program, and are shown where that is at hand.
const LICENCES: &[(&str, &str)] = &[
    (
        "archive/all-whole",
        "every registered bag was read through and nothing in it or of its line was wrong",
    ),
    ("archive/some-whole", "at least one bag was, and another was not or is not registered"),
    (
        "archive/whole",
        "each payload file was read, and has the digests that every payload manifest lists",
    ),
    ("archive/partly", "as many payload files were read and have their listed digests"),
    ("archive/tag-files", "each file of the tag manifest was read and has its listed digest"),
    ("archive/no-tag-manifest", "no tag manifest is there"),
    (
        "archive/unlisted",
        "these tag files are there and in no tag manifest, in a bag of another program",
    ),
    ("archive/empty-folder", "these folders are there and nothing lies in them"),
    ("archive/clash", "the two names are equal once case and Unicode form are taken away"),
    (
        "archive/unicode-form",
        "the listed name is there in another Unicode form, with the same bytes",
    ),
    (
        "archive/tool-names",
        "the name holds `%` or a line break, which RFC 8493 writes with percent codes",
    ),
    ("archive/unsigned", "no signature lies beside the tag manifest"),
    ("archive/weak-digest", "no manifest of the payload uses SHA-2"),
    ("archive/own-clock", "no reply of an authority for time lies beside the bag"),
    ("archive/camera-clock", "photos are among the originals; a camera's clock is held by nothing"),
    (
        "archive/paper-fits",
        "each digest of the attached manifest is that of the file of this name here",
    ),
    ("archive/papers-fit", "the same, counted over an archive"),
    (
        "archive/visits-fit",
        "the attached manifest lists earlier visits, with the digest of the file of this name here",
    ),
    (
        "archive/visits-not-listed",
        "a file of earlier visits is here and the attached manifest lists none",
    ),
    (
        "archive/carried-sheet",
        "the attached sheet has the digest that the attached manifest lists for it",
    ),
    ("archive/pages-not-compared", "the paper lists what is here and was not made again"),
    (
        "archive/earlier-paper",
        "the sheet's digest is not the listed one, and the bag says in its own words that it is later",
    ),
    ("archive/paper-silent", "the PDF carries no manifest that can be read"),
    ("archive/unknown-photo", "photos are here that the attached manifest does not list"),
    ("archive/same-paper", "the SHA-256 of the PDF is that of a PDF in the bag"),
    ("archive/no-paper", "the PDF was held against a folder or bag without any PDF"),
    ("archive/bag-of-paper", "a PDF in that bag carries a manifest with the same SHA-256"),
    ("archive/paper-digest", "it is read from the PDF and said as the PDF's own word"),
    (
        "archive/handover-copy",
        "the bag holds a sheet and no profile, and its number says that it is for handing over",
    ),
    ("archive/owners-copy", "the bag holds a sheet and neither profile nor originals"),
    (
        "archive/workshops-bag",
        "a bag with originals holds a paper with the same manifest as an owner's copy",
    ),
    ("archive/chained", "each line names the SHA-256 of the line before, and no line is wrong"),
    (
        "archive/registered",
        "the register above names this path with the SHA-256 of this tag manifest",
    ),
    (
        "archive/history",
        "the line of that number, before the bag's own, has the SHA-256 that the bag holds",
    ),
    ("archive/head-not-noted", "no head was given"),
    (
        "archive/head-found",
        "a line of the chain has the SHA-256 that begins with the 32 or more digits given",
    ),
    (
        "archive/no-voucher",
        "nothing is wrong, and neither signer, authority, head nor paper vouches",
    ),
    (
        "archive/bag-gone",
        "the bag is gone, and its day had passed for the register and for the reader's clock",
    ),
    ("archive/bag-erased", "the bag is gone, and a later line erases it under the same digest"),
    (
        "archive/redacted",
        "the listed file is gone, and a line names it with the digest that the list has",
    ),
    (
        "archive/head-file",
        "the file holds number and SHA-256 of a line of the register, and no line up to it is wrong",
    ),
    ("archive/torn-aside", "a file of that name lies at the top"),
    ("archive/stamp-not-registered", "a reply lies there and no line names it"),
    ("archive/making", "a folder of that name lies there"),
    ("archive/tar-alone", "the tar is there and its folder is not"),
];

/// Sentences that are shown elsewhere: code, check, test file.
const OTHERS: &[(&str, &str, &str)] = &[
    (
        "archive/pictures-fit",
        "every JPEG on its pages was laid on a photo here, and their detail agrees in every tile",
        "tests/archive/verify/pictures.rs",
    ),
    (
        "archive/pictures-not-compared",
        "its pages could not be read, or the photos are too many",
        "tests/archive/verify/pictures.rs",
    ),
    (
        "archive/other-pictures",
        "so many pictures on its pages are packed otherwise than as JPEG",
        "tests/archive/verify/pictures.rs",
    ),
    (
        "archive/made-again",
        "the paper made now has the SHA-256 of the paper there",
        "tests/archive/commands.rs",
    ),
    (
        "archive/stamped-late",
        "the stamp's time is eight days or more after the register's line",
        "tests/archive/verify/stamps.rs",
    ),
];

struct Cases(Vec<Judgement>);

impl Cases {
    fn add(&mut self, path: &Path, against: &Against<'_>) {
        self.0.push(verify(path, against));
    }

    fn says(&self, code: &str) -> usize {
        let said = |one: &&Judgement| {
            one.shown.iter().chain(&one.not_shown).any(|statement| statement.code == code)
        };
        self.0.iter().filter(said).count()
    }
}

fn cases() -> Cases {
    let mut cases = Cases(Vec::new());
    let none = Against::default();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/archive/bags");
    for entry in fs::read_dir(folder).unwrap() {
        let place = tempfile::tempdir().unwrap();
        Described::read(&fs::read_to_string(entry.unwrap().path()).unwrap()).write(place.path());
        cases.add(place.path(), &none);
    }
    let mut made = Made::with_bags();
    cases.add(&made.archive, &none);
    cases.add(&made.archive.join("HD-2614/HD-2614-v1"), &none);
    let noted = head(&made.archive).unwrap().digest;
    cases.add(&made.archive, &Against { head: Some(&noted), ..none });
    made.signs = true;
    let signed = made.seal("HD-2625", "signed", true);
    let signers = fs::read_to_string(key("ed25519.pub")).unwrap();
    cases.add(&signed, &Against { signers: Some(&signers), ..none });

    // A paper against its bag, its archive with an owner's copy, and its folder.
    let folder = made.job_folder("HD-2625", "signed");
    let report = folder.parent().unwrap().join("report.pdf");
    let paper = made.paper("HD-2625", "signed");
    fs::write(&report, &paper).unwrap();
    let copy = [held("findings.yaml", "job: HD-2625\n"), held("papers/return-report.pdf", &paper)];
    let copy = made.seal_with("HD-2625-owner", &[], &copy, &[], false);
    fs::write(folder.join("late.jpg"), "late").unwrap();
    for place in [&signed, &made.archive, &folder, &copy] {
        cases.add(&report, &Against { originals: Some(place), ..none });
    }
    cases.add(&made.archive, &none);
    let copy = [held("findings.yaml", "job: HD-2625\n"), held("papers/return-report.pdf", &paper)];
    let names = ["bearing.jpg", "photos/seal.jpg"];
    let copy = made.seal_with("HD-2625-handover", &names, &copy, &[], false);
    cases.add(&copy, &none);

    // A paper with its sheet, one older than the sheet beside it, one that carries nothing.
    let mut form: serde_json::Value =
        serde_json::from_slice(&manifest(&folder, "HD-2625")).unwrap();
    form["findings-yaml"]["issued-sha256"] =
        splitcase::digest::Digest::of(b"job: HD-2625\n").hex().into();
    let form = serde_json::to_vec(&form).unwrap();
    fs::write(&report, pdf_carrying(&form, b"job: HD-2625\n")).unwrap();
    cases.add(&report, &Against { originals: Some(&folder), ..none });
    let older = |fields: &[(&str, &str)], paper: &[u8]| {
        let made = Made::new();
        made.job_folder("HD-2625", "signed");
        let contents = [
            held("findings.yaml", sheet("HD-2625", "later")),
            held("workshop.yaml", WORKSHOP),
            held("papers/return-report.pdf", paper),
        ];
        let names = ["bearing.jpg", "photos/seal.jpg"];
        let bag = made.seal_with("HD-2625", &names, &contents, fields, false);
        verify(&bag, &Against::default())
    };
    let label = [("Internal-Sender-Description", "papers as issued earlier than this sheet")];
    cases.0.push(older(&label, &paper));
    cases.0.push(older(&[], b"%PDF-1.7"));

    // What a paper tells of earlier visits, listed by it, and not.
    for is_listed in [true, false] {
        cases.0.push(with_visits(is_listed, VISITS));
    }

    // A head in a file of its own, and a photo that was taken out.
    let key = key("ed25519");
    note(&made.archive, &Beside { key: Some(&key), passphrase: None, query: false }).unwrap();
    cases.add(&made.archive, &Against { signers: Some(&signers), ..none });
    let at = "2026-04-01T08:00:00Z".parse().unwrap();
    redact("HD-2614", "bearing.jpg", Some(1), "asked for", &made.archive, at).unwrap();
    cases.add(&made.archive, &none);

    // What can lie in an archive beside bags, and a bag that is gone after its day.
    fs::remove_dir_all(&signed).unwrap();
    fs::write(made.archive.join("register.torn-1.txt"), "{").unwrap();
    fs::write(made.archive.join("HD-2614/HD-2614-v1.tsr"), "no reply").unwrap();
    fs::create_dir_all(made.archive.join("HD-2614/.making-7-1")).unwrap();
    cases.add(&made.archive, &none);
    let mut gone = Made::new();
    fs::remove_dir_all(gone.seal("HD-2614", "grinding", false)).unwrap();
    gone.at = "2033-01-01T08:00:00Z";
    gone.seal("HD-2620", "no fault", false);
    let at = "2033-01-01T09:00:00Z".parse().unwrap();
    erase("HD-2620", None, "asked for by the owner", &gone.archive, at).unwrap();
    let now = Some("2033-02-01T08:00:00Z".parse().unwrap());
    cases.add(&gone.archive, &Against { now, ..none });
    cases
}

/// What the workshop knew of an earlier visit.
const VISITS: &str = "[{\"job\": \"HD-2501\", \"arrived\": \"2025-04-28\"}]\n";

/// A bag whose paper lists [`VISITS`] or none, and that holds these.
fn with_visits(is_listed: bool, there: &str) -> Judgement {
    let made = Made::new();
    let folder = made.job_folder("HD-2625", "back again");
    let mut form: serde_json::Value =
        serde_json::from_slice(&manifest(&folder, "HD-2625")).unwrap();
    if is_listed {
        let sha256 = splitcase::digest::Digest::of(VISITS.as_bytes()).hex();
        form["earlier-visits-json"] = serde_json::json!({ "sha256": sha256 });
    }
    let paper = pdf(&serde_json::to_vec(&form).unwrap(), "back again");
    let contents = [
        held("findings.yaml", sheet("HD-2625", "back again")),
        held("workshop.yaml", WORKSHOP),
        held("earlier-visits.json", there),
        held("papers/return-report.pdf", paper),
    ];
    let names = ["bearing.jpg", "photos/seal.jpg"];
    verify(&made.seal_with("HD-2625", &names, &contents, &[], false), &Against::default())
}

#[test]
fn earlier_visits_that_were_swapped_for_others_are_named() {
    let judged = with_visits(true, &VISITS.replace("2025", "2024"));
    let flaws: Vec<String> = judged.flaws.iter().map(|flaw| format!("{flaw:?}")).collect();
    assert!(flaws.iter().any(|flaw| flaw.contains("earlier-visits.json")), "{flaws:?}");
    assert!(with_visits(true, VISITS).flaws.is_empty());
}

#[test]
fn every_sentence_of_verify_has_a_check_that_licenses_it_and_is_said_only_after_it() {
    let cases = cases();
    for (code, licence) in LICENCES {
        let said = cases.says(code);
        assert!(0 < said, "no case says `{code}`, licensed by: {licence}");
        assert!(said < cases.0.len(), "every case says `{code}`, licensed by: {licence}");
    }
}

#[test]
fn no_sentence_of_verify_is_without_a_licence() {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let mut used = BTreeSet::new();
    for file in ["words.rs", "words/papers.rs"] {
        let text = fs::read_to_string(root.join("src/archive/verify").join(file)).unwrap();
        let codes = text.split('"').filter(|part| part.starts_with("archive/"));
        used.extend(codes.map(str::to_owned));
    }
    let others = OTHERS.iter().map(|(code, ..)| (*code).to_owned());
    let listed: BTreeSet<String> =
        LICENCES.iter().map(|(code, _)| (*code).to_owned()).chain(others).collect();
    assert_eq!(used, listed);
    for (code, licence, file) in OTHERS {
        assert!(root.join(file).is_file(), "{code}, licensed by: {licence}");
    }
}
