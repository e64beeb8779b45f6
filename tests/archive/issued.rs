//! Papers as they were issued: sealed, made again from their bag, and held against it.

use std::fs;

use splitcase::digest::Digest;

use super::commands::{PROFILE, sheet, shop};
use crate::workshop::{Workshop, jpeg};

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
