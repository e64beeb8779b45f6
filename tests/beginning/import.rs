//! Photos from a card: names, times, days, twice the same, and that originals are left alone.

use std::fs;
use std::time::{Duration, UNIX_EPOCH};

use exif::Tag;
use serde_json::Value;

use crate::photo::maker;
use crate::workshop::{Workshop, jpeg, sheet};

/// A photo with the time at which its camera took it.
pub fn photo(seed: u32, taken: Option<&str>) -> Vec<u8> {
    let plain = jpeg(80, 60, seed);
    match taken {
        Some(time) => {
            let block = maker::exif(&[maker::text(Tag::DateTimeOriginal, time)]);
            maker::jpeg_with_exif(&plain, &block)
        }
        None => plain,
    }
}

/// A shop with a job and a card whose folders are in no order of time.
fn shop() -> Workshop {
    let shop = Workshop::new();
    shop.file("jobs/HD-1/findings.yaml", sheet("HD-1"));
    shop.file("card/DCIM/100MEDIA/IMG_0102.JPG", photo(2, Some("2026:03:02 10:15:00")));
    shop.file("card/DCIM/100MEDIA/IMG_0101.JPG", photo(1, Some("2026:03:02 10:14:00")));
    shop.file("card/DCIM/101MEDIA/IMG_0001.JPG", photo(3, Some("2026:03:01 09:00:00")));
    shop
}

fn copied(out: &str) -> Vec<(&str, &str)> {
    let lines =
        out.lines().filter_map(|line| line.split_once("  ").zip(line.split_once("  from ")));
    lines.map(|((name, _), (_, from))| (name, from)).collect()
}

#[test]
fn photos_of_a_card_come_in_the_order_in_which_they_were_taken() {
    let shop = shop();
    let card_before = files(&shop, "card");
    let run = shop.run(&["import", "card", "jobs/HD-1"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    assert_eq!(
        copied(&run.out),
        [
            ("HD-1-01.jpg", "DCIM/101MEDIA/IMG_0001.JPG"),
            ("HD-1-02.jpg", "DCIM/100MEDIA/IMG_0101.JPG"),
            ("HD-1-03.jpg", "DCIM/100MEDIA/IMG_0102.JPG"),
        ],
        "{}",
        run.out
    );
    assert!(run.out.ends_with(
        "\n3 photos copied into jobs/HD-1\n\
         for the sheet: photos: [HD-1-01.jpg, HD-1-02.jpg, HD-1-03.jpg]\n"
    ));
    assert_eq!(shop.read("jobs/HD-1/HD-1-02.jpg"), shop.read("card/DCIM/100MEDIA/IMG_0101.JPG"));
    assert_eq!(files(&shop, "card"), card_before, "the card is as it was");
    assert_eq!(shop.read("jobs/HD-1/findings.yaml"), sheet("HD-1").as_bytes());
    // Nothing half made is left beside them.
    assert_eq!(fs::read_dir(shop.path("jobs/HD-1")).unwrap().count(), 4);
}

/// Every file below a folder with its bytes and time.
fn files(shop: &Workshop, below: &str) -> Vec<(String, Vec<u8>, std::time::SystemTime)> {
    let mut open = vec![shop.path(below)];
    let mut found = Vec::new();
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            match path.is_dir() {
                true => open.push(path),
                false => {
                    let time = fs::metadata(&path).unwrap().modified().unwrap();
                    found.push((path.display().to_string(), fs::read(&path).unwrap(), time));
                }
            }
        }
    }
    found.sort();
    found
}

#[test]
fn a_photo_that_is_there_is_not_copied_twice_and_a_second_card_goes_on_counting() {
    let shop = shop();
    shop.run(&["import", "card", "jobs/HD-1"]);
    shop.file("card/copy of IMG_0101.JPG", shop.read("card/DCIM/100MEDIA/IMG_0101.JPG"));
    shop.file("card/IMG_0200.JPG", photo(9, Some("2026:02:01 08:00:00")));
    let run = shop.run(&["import", "card", "jobs/HD-1/findings.yaml"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    assert_eq!(copied(&run.out), [("HD-1-04.jpg", "IMG_0200.JPG")]);
    assert_eq!(run.out.matches("is here already").count(), 4, "{}", run.out);
    assert!(run.out.contains("1 photo copied into jobs/HD-1, 4 here already"), "{}", run.out);
    // Whatever name and letters a file has, its number is not given again.
    let shop = super::import::shop();
    shop.file("jobs/HD-1/hd-1-07-close.PNG", "mine").file("jobs/HD-1/HD-1-02.jpg", "mine too");
    let run = shop.run(&["import", "card", "jobs/HD-1"]);
    assert_eq!(
        copied(&run.out).iter().map(|(name, _)| *name).collect::<Vec<_>>(),
        ["HD-1-08.jpg", "HD-1-09.jpg", "HD-1-10.jpg"]
    );
    assert_eq!(shop.read("jobs/HD-1/HD-1-02.jpg"), b"mine too");
}

#[test]
fn days_are_picked_and_the_others_are_counted() {
    for (words, names) in [
        (&["--day", "2026-03-02"][..], 2),
        (&["--since", "2026-03-02"], 2),
        (&["--until", "2026-03-01"], 1),
        (&["--since", "2026-03-01", "--until", "2026-03-02"], 3),
        (&["--day", "2026-03-05"], 0),
    ] {
        let shop = shop();
        let run = shop.run(&[&["import", "card", "jobs/HD-1"], words].concat());
        assert_eq!((run.code, copied(&run.out).len()), (0, names), "{words:?}: {}", run.out);
        let others = 3 - names;
        assert_eq!(run.out.contains(&format!("{others} of other days")), 0 < others, "{}", run.out);
    }
    assert_eq!(shop().run(&["import", "card", "jobs/HD-1", "--day", "yesterday"]).code, 2);
}

#[test]
fn a_photo_without_a_time_of_its_own_goes_by_its_file_and_keeps_that_time() {
    let shop = shop();
    let path = shop.path("card/scan.jpg");
    shop.file("card/scan.jpg", photo(7, None));
    let time = UNIX_EPOCH + Duration::from_millis(1_772_359_200_123);
    fs::File::options().write(true).open(&path).unwrap().set_modified(time).unwrap();
    let run = shop.run(&["import", "card", "jobs/HD-1"]);
    let line = run.out.lines().find(|line| line.contains("scan.jpg")).unwrap();
    assert!(line.ends_with("(time of the file: the camera noted none)"), "{line}");
    let name = line.split("  ").next().unwrap();
    let kept = fs::metadata(shop.path(&format!("jobs/HD-1/{name}"))).unwrap().modified().unwrap();
    assert_eq!(kept, time);
}

#[test]
fn what_is_no_photo_or_cannot_be_read_is_named_and_the_others_are_copied() {
    let shop = shop();
    shop.file("card/DCIM/MVI_1.MP4", b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom");
    shop.file("card/DCIM/broken.jpg", b"\xff\xd8\xff\xe0 nothing more");
    shop.file("card/DCIM/index.dat", "x").file("card/.Trash/gone.jpg", photo(8, None));
    let run = shop.run(&["import", "card", "jobs/HD-1"]);
    assert_eq!((run.code, copied(&run.out).len()), (1, 3), "{}", run.out);
    assert!(run.err.contains("`DCIM/MVI_1.MP4` is a film (MP4) and was not copied"), "{}", run.err);
    assert!(run.err.contains("could not read the photo `card/DCIM/broken.jpg`"), "{}", run.err);
    assert!(run.out.contains("3 photos copied into jobs/HD-1, 1 not read"), "{}", run.out);
    assert!(!run.out.contains("gone.jpg") && !run.err.contains("index.dat"));
}

#[test]
fn a_card_that_is_not_there_a_job_that_is_not_there_and_one_that_is_sealed_are_refused() {
    let shop = shop();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    for (words, said) in [
        (["import", "nowhere", "jobs/HD-1"], "help: is the card mounted"),
        (["import", "card", "jobs/HD-9"], "help: make it first: `splitcase new"),
        (["import", "jobs/HD-1", "jobs/HD-1"], "that is the job's own folder"),
        (["import", "card", "archive/HD-1"], "breaks the seal"),
    ] {
        let before = files(&shop, ".");
        let run = shop.run(&words);
        assert_eq!(run.code, 2, "{words:?}");
        assert!(run.err.contains(said), "{words:?}: {}", run.err);
        assert_eq!(files(&shop, "."), before, "{words:?}");
    }
}

#[test]
fn a_job_below_the_card_s_folder_is_not_imported_into_itself() {
    let shop = shop();
    shop.file("jobs/HD-1/own.jpg", photo(6, None)).file("loose.jpg", photo(5, None));
    let run = shop.run(&["import", ".", "jobs/HD-1"]);
    assert!(!run.out.contains("own.jpg"), "{}", run.out);
    assert_eq!(copied(&run.out).len(), 4, "{}", run.out);
}

#[test]
fn scripts_are_told_each_photo_with_its_time() {
    let run = shop().run(&["import", "card", "jobs/HD-1", "--format", "json"]);
    let told: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(told["results"][0]["file"], "HD-1-01.jpg");
    assert_eq!(told["results"][0]["taken"], "2026-03-01T09:00:00");
    assert_eq!(told["results"][0]["time-by"], "camera");
}
