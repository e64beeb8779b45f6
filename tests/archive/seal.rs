//! Sealing: what lies in a bag and its tar, versions, names, files that change, and disks as found.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{Read, Write};
use std::sync::atomic::{AtomicBool, Ordering};

use splitcase::archive::bag::{self_check, tar as bag_tar};
use splitcase::archive::layout;
use splitcase::archive::request::Remark;
use splitcase::digest::Digest;
use splitcase::failure::Failure;

use super::sealing::{Desk, Wish, day, in_memory, manifest_line, tree};

fn desk_with_photos() -> Desk {
    let desk = Desk::new();
    desk.file("bearing.jpg", b"a photo").file("strip-down/cage.jpg", b"another photo");
    desk
}

fn full_wish() -> Wish<'static> {
    let mut wish = Wish::new("HD-2614").with(&["strip-down/cage.jpg", "bearing.jpg"]);
    wish.in_memory.push(in_memory("workshop.yaml", "name: Hollowmere Drive Works\n"));
    wish.in_memory.push(in_memory("papers/return-report.pdf", b"%PDF-1.7\n%%EOF\n"));
    wish
}

#[test]
fn a_bag_holds_originals_texts_and_papers_and_says_what_it_holds() {
    let desk = desk_with_photos();
    let sealed = desk.seal(&full_wish()).unwrap();
    assert_eq!(sealed.path, desk.path("archive/HD-2614/HD-2614-v1"));
    assert_eq!((sealed.version, sealed.line, sealed.is_new), (1, 1, true));
    assert_eq!((sealed.tar, sealed.remarks), (None, Vec::new()));

    let manifest = manifest_line("data/findings.yaml", "job: HD-2614\n")
        + &manifest_line("data/originals/bearing.jpg", "a photo")
        + &manifest_line("data/originals/strip-down/cage.jpg", "another photo")
        + &manifest_line("data/papers/return-report.pdf", "%PDF-1.7\n%%EOF\n")
        + &manifest_line("data/workshop.yaml", "name: Hollowmere Drive Works\n");
    let info = "Source-Organization: Hollowmere Drive Works\nBagging-Date: 2026-11-25\n\
                Keep-Until: 2032-11-25\nBag-Size: 77 B\nPayload-Oxum: 77.5\n";
    let declaration = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
    let head = format!("Register-Line: 0\nRegister-Head: {}\n", "0".repeat(64));
    let tags = manifest_line("bag-info.txt", info)
        + &manifest_line("bagit.txt", declaration)
        + &manifest_line("how-to-check.txt", layout::HOW_TO_CHECK_BAG)
        + &manifest_line("manifest-sha256.txt", &manifest)
        + &manifest_line("register-head.txt", &head);
    assert_eq!(sealed.digest, Digest::of(tags.as_bytes()));
    let how_to = layout::HOW_TO_CHECK_BAG;
    let wanted: BTreeMap<String, Vec<u8>> = [
        ("bag-info.txt", info),
        ("bagit.txt", declaration),
        ("data/", ""),
        ("data/findings.yaml", "job: HD-2614\n"),
        ("data/originals/", ""),
        ("data/originals/bearing.jpg", "a photo"),
        ("data/originals/strip-down/", ""),
        ("data/originals/strip-down/cage.jpg", "another photo"),
        ("data/papers/", ""),
        ("data/papers/return-report.pdf", "%PDF-1.7\n%%EOF\n"),
        ("data/workshop.yaml", "name: Hollowmere Drive Works\n"),
        ("how-to-check.txt", how_to),
        ("manifest-sha256.txt", &manifest),
        ("register-head.txt", &head),
        ("tagmanifest-sha256.txt", &tags),
    ]
    .map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec()))
    .into();
    assert_eq!(tree(&sealed.path), wanted);
    let top = ["HD-2614", "how-to-check.txt", "register.jsonl", "register.lock"];
    assert_eq!(desk.names("archive"), top);
    assert_eq!(desk.names("archive/HD-2614"), ["HD-2614-v1"]);
}

#[test]
fn the_same_job_gives_the_same_bag_and_the_same_tar() {
    let (one, other) = (desk_with_photos(), desk_with_photos());
    let mut wish = full_wish().tar();
    one.seal(&wish).unwrap();
    wish.originals.reverse();
    wish.in_memory.reverse();
    other.seal(&wish).unwrap();
    assert_eq!(tree(&one.path("archive/HD-2614")), tree(&other.path("archive/HD-2614")));
    assert_eq!(one.read("archive/register.jsonl"), other.read("archive/register.jsonl"));
}

#[test]
fn an_unchanged_job_is_not_sealed_twice_but_a_missing_tar_is_made() {
    let desk = desk_with_photos();
    let first = desk.seal(&full_wish()).unwrap();
    let before = tree(&desk.archive());
    let again = desk.seal(&full_wish()).unwrap();
    assert_eq!((again.version, again.line, again.is_new), (1, 1, false));
    assert_eq!((&again.path, again.digest), (&first.path, first.digest));
    assert_eq!(tree(&desk.archive()), before);

    let with_tar = desk.seal(&full_wish().tar()).unwrap();
    assert!(!with_tar.is_new);
    let fresh = desk_with_photos();
    fresh.seal(&full_wish().tar()).unwrap();
    assert!(
        desk.read("archive/HD-2614/HD-2614-v1.tar") == fresh.read("archive/HD-2614/HD-2614-v1.tar")
    );
    let mut after = tree(&desk.archive());
    assert!(after.remove("HD-2614/HD-2614-v1.tar").is_some());
    assert_eq!(after, before);
}

#[test]
fn a_changed_job_becomes_version_2_beside_an_untouched_version_1() {
    let desk = desk_with_photos();
    let first = desk.seal(&full_wish().tar()).unwrap();
    let before = tree(&desk.path("archive/HD-2614"));
    desk.file("bearing.jpg", b"a photo, retouched");
    let second = desk.seal(&full_wish().tar()).unwrap();
    assert_eq!((second.version, second.line, second.is_new), (2, 2, true));
    assert_ne!(second.digest, first.digest);
    let after = tree(&desk.path("archive/HD-2614"));
    assert!(before.iter().all(|(path, bytes)| after.get(path) == Some(bytes)));
    assert_eq!(
        desk.names("archive/HD-2614"),
        ["HD-2614-v1", "HD-2614-v1.tar", "HD-2614-v2", "HD-2614-v2.tar"]
    );

    desk.file("bearing.jpg", b"a photo");
    let back = desk.seal(&full_wish()).unwrap();
    assert_eq!((back.version, back.is_new), (1, false));
    assert_eq!(back.remarks, [Remark::NewerVersion { newest: 2 }]);
}

#[test]
fn numbers_of_versions_that_went_missing_are_not_given_again() {
    let desk = desk_with_photos();
    desk.seal(&full_wish()).unwrap();
    fs::rename(desk.path("archive/HD-2614/HD-2614-v1"), desk.path("elsewhere")).unwrap();
    let again = desk.seal(&full_wish()).unwrap();
    assert_eq!((again.version, again.is_new), (2, true));
    let missing = Remark::SealedAgain {
        bag: "HD-2614/HD-2614-v1".to_owned(),
        cause: "it is not there".to_owned(),
    };
    assert_eq!(again.remarks, [missing]);
    fs::write(desk.path("archive/HD-2614/HD-2614-v7.tsr"), b"a reply").unwrap();
    desk.file("bearing.jpg", b"new");
    assert_eq!(desk.seal(&full_wish()).unwrap().version, 8);
}

#[test]
fn a_damaged_bag_is_left_as_it_is_and_the_job_sealed_again() {
    let desk = desk_with_photos();
    let first = desk.seal(&full_wish()).unwrap();
    fs::write(first.path.join("data/originals/bearing.jpg"), b"A photo").unwrap();
    let second = desk.seal(&full_wish()).unwrap();
    assert_eq!((second.version, second.is_new), (2, true));
    let cause = "`data/originals/bearing.jpg` was changed".to_owned();
    let damaged = Remark::SealedAgain { bag: "HD-2614/HD-2614-v1".to_owned(), cause };
    let replaces = Remark::Replaces {
        bag: "HD-2614/HD-2614-v1".to_owned(),
        changes: "no file differs".to_owned(),
    };
    assert_eq!(second.remarks, [damaged, replaces]);
    assert_eq!(desk.read("archive/HD-2614/HD-2614-v1/data/originals/bearing.jpg"), b"A photo");
    assert_eq!(desk.seal(&full_wish()).unwrap().version, 2);
}

#[test]
fn a_tar_holds_the_bag_under_one_folder_and_nothing_of_the_machine() {
    let desk = desk_with_photos();
    let long = format!("{}/{}.jpg", "d".repeat(120), "é".repeat(70));
    desk.file(&long, b"deep");
    let wish = Wish::new("HD-2614").with(&["bearing.jpg", &long]).tar();
    let sealed = desk.seal(&wish).unwrap();
    let path = sealed.tar.unwrap();
    let mut found = BTreeMap::new();
    let mut names = Vec::new();
    for entry in tar::Archive::new(File::open(&path).unwrap()).entries().unwrap() {
        let mut entry = entry.unwrap();
        let header = entry.header().clone();
        let mode = if header.entry_type().is_dir() { 0o755 } else { 0o644 };
        assert_eq!(header.mode().unwrap(), mode);
        assert_eq!((header.uid().unwrap(), header.gid().unwrap()), (0, 0));
        assert_eq!(header.mtime().unwrap(), 1_795_564_800, "the start of 2026-11-25");
        let name = entry.path().unwrap().to_str().unwrap().to_owned();
        let mut bytes = Vec::new();
        entry.read_to_end(&mut bytes).unwrap();
        names.push(name.clone());
        if let Some(below) = name.strip_prefix("HD-2614-v1/").filter(|below| !below.is_empty()) {
            found.insert(below.to_owned(), bytes);
        }
    }
    assert_eq!(names[0], "HD-2614-v1/");
    assert!(names.iter().all(|name| name.starts_with("HD-2614-v1/")));
    assert_eq!(found, tree(&sealed.path));
}

#[test]
fn a_tar_header_tells_sizes_of_8_gib_and_more() {
    for size in [0, (8 << 30) - 1, 8 << 30, (8 << 30) + 1, 1 << 40] {
        let header = bag_tar::header(tar::EntryType::Regular, size, day("2026-11-25"));
        assert_eq!(header.entry_size().unwrap(), size);
    }
}

#[test]
fn digests_of_the_manifest_are_those_of_fips_180_4() {
    let desk = Desk::new();
    let two_blocks = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
    desk.file("million", "a".repeat(1_000_000)).file("empty", "");
    let mut wish = Wish::new("HD-1").with(&["million", "empty"]);
    wish.in_memory = vec![in_memory("abc", "abc"), in_memory("two-blocks", two_blocks)];
    let sealed = desk.seal(&wish).unwrap();
    assert_eq!(
        fs::read_to_string(sealed.path.join("manifest-sha256.txt")).unwrap(),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  data/abc\n\
         e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855  data/originals/empty\n\
         cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0  data/originals/million\n\
         248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1  data/two-blocks\n"
    );
}

#[test]
fn a_file_that_is_not_what_the_papers_were_made_from_stops_the_sealing() {
    let desk = desk_with_photos();
    let mut wish = full_wish();
    wish.originals[1].expected = Some(Digest::of(b"a photo"));
    assert!(desk.seal(&wish).unwrap().is_new);
    let before = tree(&desk.archive());
    desk.file("bearing.jpg", b"b photo");
    let failure = desk.seal(&wish).unwrap_err();
    assert_eq!(failure.cause, "the file changed while it was being sealed");
    assert_eq!(failure.path, Some(desk.path("job/bearing.jpg")));
    assert_eq!(tree(&desk.archive()), before);
}

#[test]
fn a_file_that_grows_while_it_is_sealed_stops_the_sealing() {
    let desk = Desk::new();
    desk.file("film.mp4", vec![7; 16 << 20]);
    let path = desk.path("job/film.mp4");
    let (begun, ended) = (AtomicBool::new(false), AtomicBool::new(false));
    let result = std::thread::scope(|scope| {
        scope.spawn(|| {
            let mut file = fs::OpenOptions::new().append(true).open(&path).unwrap();
            while !ended.load(Ordering::Relaxed) {
                file.write_all(b"x").unwrap();
                begun.store(true, Ordering::Relaxed);
            }
        });
        while !begun.load(Ordering::Relaxed) {
            std::thread::yield_now();
        }
        let result = desk.seal(&Wish::new("HD-1").with(&["film.mp4"]));
        ended.store(true, Ordering::Relaxed);
        result
    });
    assert_eq!(result.unwrap_err().cause, "the file changed while it was being sealed");
    assert_eq!(desk.names("archive"), ["register.jsonl", "register.lock"]);
}

#[test]
fn a_refused_first_bag_leaves_nothing_behind() {
    let desk = Desk::new();
    let failure = desk.seal(&Wish::new("HD-1").with(&["gone.jpg"])).unwrap_err();
    assert_eq!(failure.action, "read");
    assert_eq!(desk.names("archive"), ["register.jsonl", "register.lock"]);
    assert_eq!(desk.read("archive/register.jsonl"), b"");
}

#[test]
fn a_new_bag_is_signed_and_the_signature_lies_beside_its_lists() {
    let desk = desk_with_photos();
    let calls = std::cell::RefCell::new(Vec::new());
    let sign = |bytes: &[u8]| -> Result<Vec<(String, Vec<u8>)>, Failure> {
        calls.borrow_mut().push(bytes.to_vec());
        Ok(vec![("tagmanifest-sha256.txt.sig".to_owned(), b"signed".to_vec())])
    };
    let mut wish = full_wish().tar();
    wish.sign = Some(&sign);
    let sealed = desk.seal(&wish).unwrap();
    let again = desk.seal(&wish).unwrap();
    // Asked again only to see whether the same signature lies there.
    assert!(again.remarks.is_empty(), "{:?}", again.remarks);
    let tag_manifest = fs::read(sealed.path.join("tagmanifest-sha256.txt")).unwrap();
    assert_eq!(*calls.borrow(), [tag_manifest.clone(), tag_manifest]);
    assert_eq!(fs::read(sealed.path.join("tagmanifest-sha256.txt.sig")).unwrap(), b"signed");
    let mut archive = tar::Archive::new(File::open(sealed.tar.unwrap()).unwrap());
    let is_signature = |entry: Result<tar::Entry<'_, File>, std::io::Error>| {
        entry.unwrap().path().unwrap().ends_with("HD-2614-v1/tagmanifest-sha256.txt.sig")
    };
    assert!(archive.entries().unwrap().any(is_signature));
}

#[test]
fn a_signature_that_fails_or_would_lie_elsewhere_leaves_the_archive_as_it_was() {
    let desk = desk_with_photos();
    desk.seal(&Wish::new("HD-2614")).unwrap();
    let before = tree(&desk.archive());
    let mut wish = full_wish();
    let refuse = |_: &[u8]| Err(Failure::new("sign", "no key"));
    wish.sign = Some(&refuse);
    assert_eq!(desk.seal(&wish).unwrap_err().cause, "no key");
    for name in ["../x", "data/x", "bagit.txt", "data", ""] {
        let astray = |_: &[u8]| Ok(vec![(name.to_owned(), Vec::new())]);
        let wish = Wish { sign: Some(&astray), ..full_wish() };
        assert!(desk.seal(&wish).is_err(), "{name:?}");
    }
    assert_eq!(tree(&desk.archive()), before);
}

#[test]
fn whatever_stands_in_a_bags_place_stays_and_the_next_number_is_taken() {
    let desk = Desk::new();
    fs::create_dir_all(desk.path("archive/HD-1/HD-1-v1")).unwrap();
    fs::write(desk.path("archive/HD-1/HD-1-v2"), b"a file").unwrap();
    fs::create_dir(desk.path("archive/HD-1/HD-1-v03")).unwrap();
    let sealed = desk.seal(&Wish::new("HD-1")).unwrap();
    assert_eq!(sealed.version, 3);
    let left = |bag: &str, cause: &str| Remark::NotWhole {
        bag: format!("HD-1/{bag}"),
        cause: cause.to_owned(),
    };
    let one = left("HD-1-v1", "`tagmanifest-sha256.txt` is missing");
    assert_eq!(sealed.remarks, [one, left("HD-1-v2", "it is not there")]);
    assert_eq!(desk.read("archive/HD-1/HD-1-v2"), b"a file");
    assert_eq!(desk.names("archive/HD-1/HD-1-v1").len(), 0);
}

#[test]
fn what_a_killed_maker_left_is_cleared_and_what_a_living_one_makes_is_not() {
    let desk = Desk::new();
    let places = ["killed", "killed-at-once", "living"].map(|maker| {
        let place = desk.path(&format!("archive/HD-1/.making-{maker}-1"));
        fs::create_dir_all(place.join("bag/data")).unwrap();
        place
    });
    File::create(places[0].join("lock")).unwrap();
    let lock = File::create(places[2].join("lock")).unwrap();
    lock.lock().unwrap();
    desk.seal(&Wish::new("HD-1")).unwrap();
    assert_eq!(desk.names("archive/HD-1"), [".making-living-1", "HD-1-v1"]);
    drop(lock);
    desk.seal(&Wish::new("HD-1")).unwrap();
    assert_eq!(desk.names("archive/HD-1"), ["HD-1-v1"]);
}

#[test]
fn every_change_to_a_bag_is_noticed() {
    let desk = desk_with_photos();
    let sealed = desk.seal(&full_wish()).unwrap();
    let files = tree(&sealed.path);
    for (path, bytes) in files.iter().filter(|(path, _)| !path.ends_with('/')) {
        let path = sealed.path.join(path);
        for at in [0, bytes.len() / 2, bytes.len() - 1] {
            let mut other = bytes.clone();
            other[at] ^= 1;
            fs::write(&path, &other).unwrap();
            let is_same =
                self_check::check(&sealed.path).is_ok_and(|it| it.digest == sealed.digest);
            assert!(!is_same, "{path:?} at {at}");
        }
        fs::remove_file(&path).unwrap();
        assert!(self_check::check(&sealed.path).is_err(), "{path:?} taken out");
        fs::write(&path, bytes).unwrap();
    }
    fs::write(sealed.path.join("data/more"), b"").unwrap();
    assert!(self_check::check(&sealed.path).is_err());
    fs::remove_file(sealed.path.join("data/more")).unwrap();
    assert_eq!(self_check::check(&sealed.path).unwrap().digest, sealed.digest);
}

#[cfg(unix)]
#[test]
fn links_are_followed_inside_the_job_folder_only_and_pipes_never_opened() {
    use std::os::unix::fs::symlink;
    let desk = desk_with_photos();
    fs::write(desk.path("secret"), b"secret").unwrap();
    symlink("bearing.jpg", desk.path("job/inside.jpg")).unwrap();
    symlink("../secret", desk.path("job/outside.jpg")).unwrap();
    symlink("nowhere", desk.path("job/dangling.jpg")).unwrap();
    let socket = std::os::unix::net::UnixListener::bind(desk.path("job/socket")).unwrap();
    let is_piped = std::process::Command::new("mkfifo").arg(desk.path("job/pipe")).status();
    let sealed = desk.seal(&Wish::new("HD-1").with(&["inside.jpg"])).unwrap();
    let copy = sealed.path.join("data/originals/inside.jpg");
    assert!(fs::symlink_metadata(&copy).unwrap().is_file());
    assert_eq!(fs::read(copy).unwrap(), b"a photo");
    let cause = |name: &str| desk.seal(&Wish::new("HD-1").with(&[name])).unwrap_err().cause;
    assert_eq!(cause("outside.jpg"), "it leads out of the job folder");
    assert_eq!(cause("strip-down"), "it is not a regular file");
    assert_eq!(cause("socket"), "it is not a regular file");
    assert!(cause("dangling.jpg").contains("No such file"));
    if is_piped.is_ok_and(|status| status.success()) {
        assert_eq!(cause("pipe"), "it is not a regular file");
    }
    drop(socket);
}
