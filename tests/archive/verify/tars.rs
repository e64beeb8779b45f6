//! Bags as tar: the same judgement as of the folder, and tars made to hurt.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;
use tar::{Builder, EntryType, Header};

use super::chance::Chance;
use super::described::{Described, sealed_like};

/// A tar that is put together entry by entry.
struct Made {
    place: tempfile::TempDir,
    tar: Builder<Vec<u8>>,
}

impl Made {
    fn new() -> Self {
        Self { place: tempfile::tempdir().unwrap(), tar: Builder::new(Vec::new()) }
    }

    /// The bag that sealing makes, below `top`.
    fn good(top: &str) -> Self {
        let mut made = Self::new();
        for (path, bytes) in sealed_like().files() {
            made.file(&format!("{top}/{path}"), &bytes);
        }
        made
    }

    fn file(&mut self, name: &str, bytes: &[u8]) -> &mut Self {
        self.entry(name, EntryType::Regular, bytes, bytes.len() as u64)
    }

    /// An entry whose name and length are taken as they come.
    fn entry(&mut self, name: &str, kind: EntryType, bytes: &[u8], size: u64) -> &mut Self {
        let mut header = Header::new_gnu();
        header.as_mut_bytes()[..name.len()].copy_from_slice(name.as_bytes());
        header.set_entry_type(kind);
        header.set_size(size);
        header.set_mode(0o644);
        if kind.is_symlink() || kind.is_hard_link() {
            header.set_link_name_literal("../../elsewhere").unwrap();
        }
        header.set_cksum();
        self.tar.append(&header, bytes).unwrap();
        self
    }

    fn bytes(self) -> (tempfile::TempDir, Vec<u8>) {
        (self.place, self.tar.into_inner().unwrap())
    }

    fn judged(self) -> Judgement {
        let (place, bytes) = self.bytes();
        judged(place.path(), &bytes)
    }
}

fn judged(place: &Path, bytes: &[u8]) -> Judgement {
    let path = place.join("bag.tar");
    fs::write(&path, bytes).unwrap();
    verify(&path, &Against::default())
}

fn messages(judged: &Judgement) -> Vec<&str> {
    judged.flaws.iter().map(|flaw| flaw.message.as_str()).collect()
}

#[test]
fn every_bag_is_judged_the_same_as_tar() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/archive/bags");
    let mut paths: Vec<PathBuf> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        let text = fs::read_to_string(&path).unwrap();
        // Links and empty folders are put into tars below.
        if text.contains("\n== link ") || text.contains("\n== folder ") {
            continue;
        }
        let place = tempfile::tempdir().unwrap();
        let described = Described::read(&text);
        described.write(&place.path().join("bag"));
        let mut made = Made::new();
        for (name, bytes) in described.files() {
            made.file(&format!("bag/{name}"), &bytes);
        }
        let (as_tar, as_folder) =
            (made.judged(), verify(&place.path().join("bag"), &Against::default()));
        assert_eq!(as_tar.flaws, as_folder.flaws, "{path:?}");
        assert_eq!(as_tar.shown, as_folder.shown, "{path:?}");
        assert_eq!(as_tar.not_shown, as_folder.not_shown, "{path:?}");
        assert_eq!(as_tar.outcome(), as_folder.outcome(), "{path:?}");
    }
}

#[test]
fn a_tar_with_folders_long_names_and_a_leading_dot_is_as_good() {
    let mut made = Made::new();
    made.entry("./", EntryType::Directory, b"", 0);
    made.entry("./bag/", EntryType::Directory, b"", 0);
    made.entry("./bag/data/", EntryType::Directory, b"", 0);
    let long = format!("data/{}/photo.jpg", ["photos-of-the-bearing"; 8].join("/"));
    let text = format!(
        "== bagit.txt\nBagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n== {long}\nx\n\
         == manifest-sha256.txt\n{{sha256 {long}}}  {long}\n"
    );
    for (name, bytes) in Described::read(&text).files() {
        let mut header = Header::new_gnu();
        header.set_size(bytes.len() as u64);
        header.set_mode(0o644);
        made.tar.append_data(&mut header, format!("bag/{name}"), bytes.as_slice()).unwrap();
    }
    let judged = made.judged();
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
}

#[test]
fn entries_that_lead_out_are_named_and_not_opened() {
    for (name, what) in [
        ("bag/../../x", "a path that climbs out of its folder"),
        ("/etc/x", "an absolute path"),
        ("~/x", "a path into somebody's home folder"),
        ("C:/x", "an absolute path"),
        ("bag//x", "a path with an empty step"),
        ("bag/data\\..\\..\\x", "a path that climbs out of its folder"),
    ] {
        let mut made = Made::good("bag");
        made.file(name, b"x");
        assert_eq!(
            messages(&made.judged()),
            [format!("{what}; nothing there was opened")],
            "{name}"
        );
    }
}

#[test]
fn links_devices_and_sparse_files_are_told_of() {
    for kind in [
        EntryType::Symlink,
        EntryType::Link,
        EntryType::Fifo,
        EntryType::Char,
        EntryType::Block,
        EntryType::GNUSparse,
    ] {
        let mut made = Made::good("bag");
        made.entry("bag/data/x", kind, b"", 0);
        let judged = made.judged();
        assert_eq!(judged.flaws.len(), 1, "{judged:#?}");
        assert_eq!(judged.flaws[0].place, "data/x");
    }
}

#[test]
fn two_entries_of_one_name_are_a_flaw_even_with_the_same_bytes() {
    let mut made = Made::good("bag");
    made.file("bag/data/workshop.yaml", b"name: Hollowmere Drive Works\n");
    let judged = made.judged();
    assert_eq!(messages(&judged), ["it is in the tar twice, and which one counts is not known"]);
}

#[test]
fn a_second_top_folder_is_a_flaw() {
    let mut made = Made::good("bag");
    made.file("other/data/x", b"x");
    made.file("loose", b"x");
    assert_eq!(made.judged().flaws.len(), 2);
}

#[test]
fn a_tar_that_is_cut_short_anywhere_is_not_intact() {
    let (place, good) = Made::good("bag").bytes();
    assert_eq!(judged(place.path(), &good).outcome(), Outcome::AgreesWithItself);
    for length in (0..good.len() - 512).step_by(97) {
        let judged = judged(place.path(), &good[..length]);
        assert_eq!(judged.outcome(), Outcome::DoesNotAgree, "{length}");
    }
}

#[test]
fn bytes_behind_the_end_or_between_entries_are_a_flaw() {
    let (place, good) = Made::good("bag").bytes();
    let mut more = good.clone();
    more.extend([b'x'; 512]);
    assert_eq!(judged(place.path(), &more).outcome(), Outcome::DoesNotAgree);
    let mut filled = good.clone();
    // The first entry is far shorter than its block.
    filled[1023] = b'x';
    assert_eq!(messages(&judged(place.path(), &filled)).len(), 1);
}

#[test]
fn giant_lengths_are_refused_at_once() {
    for size in [u64::MAX, u64::MAX - 511, 1 << 62, 9 << 30, 4096] {
        let mut made = Made::good("bag");
        made.entry("bag/data/x", EntryType::Regular, b"", size);
        let judged = made.judged();
        assert!(messages(&judged)[0].contains("goes on behind the end"), "{size} {judged:#?}");
    }
    for kind in [EntryType::GNULongName, EntryType::XHeader, EntryType::XGlobalHeader] {
        let mut made = Made::good("bag");
        made.entry("x", kind, &vec![b'a'; 70_000], 70_000);
        assert_eq!(made.judged().outcome(), Outcome::DoesNotAgree);
    }
}

#[test]
fn pax_records_rename_only_what_they_may() {
    let record = |key: &str, value: &str| {
        let rest = format!(" {key}={value}\n");
        let mut length = rest.len() + 1;
        while length.to_string().len() + rest.len() != length {
            length += 1;
        }
        format!("{length}{rest}")
    };
    for (kind, text) in [
        (EntryType::XHeader, record("path", "bag/../../x")),
        (EntryType::XHeader, record("size", "99999999999999")),
        (EntryType::XHeader, record("size", "many")),
        (EntryType::XHeader, record("GNU.sparse.major", "1")),
        (EntryType::XGlobalHeader, record("path", "bag/x")),
        (EntryType::XHeader, "99 path=x\n".to_owned()),
        (EntryType::XHeader, "path=x\n".to_owned()),
    ] {
        let mut made = Made::good("bag");
        made.entry("pax", kind, text.as_bytes(), text.len() as u64);
        made.file("bag/data/y", b"");
        let judged = made.judged();
        assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
        assert!(judged.flaws.iter().any(|flaw| flaw.code == "archive/tar"), "{text:?} {judged:#?}");
    }
}

#[test]
fn no_bit_of_a_tar_is_without_a_holder() {
    let (place, good) = Made::good("bag").bytes();
    let mut chance = Chance::new(11);
    let mut uncaught = Vec::new();
    for _ in 0..600 {
        let (at, bit) = (chance.below(good.len()), chance.below(8));
        let mut bad = good.clone();
        bad[at] ^= 1 << bit;
        let ending = judged(place.path(), &bad).outcome();
        // The case of a digit in the last list is what a lone bag cannot show.
        if ending != Outcome::DoesNotAgree && !good[at].eq_ignore_ascii_case(&bad[at]) {
            uncaught.push((at, bit, ending));
        }
    }
    assert!(uncaught.is_empty(), "{uncaught:?}");
}

#[test]
fn a_tar_of_noise_is_told_of() {
    let mut chance = Chance::new(3);
    let place = tempfile::tempdir().unwrap();
    for length in [0, 1, 511, 512, 513, 1024, 5000, 20_480] {
        let noise: Vec<u8> =
            (0..length).map(|_| u8::try_from(chance.below(256)).unwrap()).collect();
        assert_eq!(judged(place.path(), &noise).outcome(), Outcome::DoesNotAgree, "{length}");
        assert_eq!(
            judged(place.path(), &vec![0; length]).outcome(),
            Outcome::DoesNotAgree,
            "{length}"
        );
    }
}
