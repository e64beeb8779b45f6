//! How a job begins: numbers, short sheets, photos from a card.

mod import;
mod starters;

use std::fs;

use crate::workshop::{PROFILE, Workshop, jpeg, run_in, sheet};

fn arrived(job: &str, day: &str) -> String {
    sheet(job).replace("2026-03-02", day)
}

fn text(shop: &Workshop, name: &str) -> String {
    String::from_utf8(shop.read(name)).unwrap()
}

#[test]
fn the_number_after_the_last_one_is_taken_with_its_letters_and_its_width() {
    for (there, next) in [
        (&["HD-2629", "HD-2630"][..], "HD-2631"),
        (&["HD-9"], "HD-10"),
        (&["HD-0099"], "HD-0100"),
        (&["2026_014", "2026_002"], "2026_015"),
        (&["7"], "8"),
    ] {
        let shop = Workshop::new();
        for job in there {
            shop.file(&format!("jobs/{job}/findings.yaml"), sheet(job));
        }
        let run = shop.run(&["new", "jobs"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{there:?}");
        assert!(
            run.out.starts_with(&format!("written: jobs/{next}/findings.yaml\n")),
            "{}",
            run.out
        );
        assert!(
            text(&shop, &format!("jobs/{next}/findings.yaml")).contains(&format!("job: {next}\n"))
        );
        // From above the jobs' folder and from inside it the next one is the same kind of thing.
        assert_eq!(shop.run(&["new"]).code, 0);
        assert_eq!(run_in(&shop.path("jobs"), &["new"]).code, 0);
        assert_eq!(fs::read_dir(shop.path("jobs")).unwrap().count(), there.len() + 3);
    }
}

#[test]
fn the_last_job_is_the_one_that_came_in_last_whatever_other_letters_there_are() {
    let shop = Workshop::new();
    shop.file("jobs/X-900/findings.yaml", arrived("X-900", "2025-01-01"));
    shop.file("jobs/HD-20/findings.yaml", arrived("HD-20", "2026-05-02"));
    shop.file("jobs/HD-21/findings.yaml", arrived("HD-21", "2026-05-01"));
    assert!(shop.run(&["new", "jobs"]).out.contains("jobs/HD-22/"));
    // A sheet that cannot be read still has its number, and a folder without one its name.
    shop.file("jobs/HD-22/findings.yaml", "job: HD-22\narrival: [\n");
    fs::create_dir(shop.path("jobs/hd-23")).unwrap();
    assert!(shop.run(&["new", "jobs"]).out.contains("jobs/HD-24/"));
}

#[test]
fn a_number_that_was_sealed_is_not_given_again() {
    let profile = format!("{PROFILE}evidence: {{keep-months: 72, archive: archive}}\n");
    let shop = Workshop::with_profile(&profile);
    for job in ["HD-1", "HD-2", "HD-3"] {
        shop.file(&format!("jobs/{job}/findings.yaml"), sheet(job));
    }
    assert_eq!(shop.run(&["seal", "jobs", "--archive", "archive"]).code, 0);
    fs::remove_dir_all(shop.path("jobs/HD-3")).unwrap();
    assert!(shop.run(&["new", "jobs"]).out.contains("jobs/HD-4/"));
    let run = shop.run(&["new", "jobs/HD-3"]);
    assert_eq!(run.code, 0);
    assert!(
        run.err.contains("warning: the archive holds a job with the number HD-3"),
        "{}",
        run.err
    );
    let run = shop.run(&["new", "other/HD-2"]);
    assert!(run.err.contains("has the number HD-2 too"), "{}", run.err);
}

#[test]
fn where_nothing_can_be_counted_on_it_says_how_to_begin() {
    let shop = Workshop::new();
    let run = shop.run(&["new"]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("help: give the first job its folder: `splitcase new HD-1`"),
        "{}",
        run.err
    );
    shop.file("jobs/first/findings.yaml", sheet("first"));
    let run = shop.run(&["new"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("no numbers that can be counted on"), "{}", run.err);
    assert_eq!(shop.run(&["new", "jobs/HD-1"]).code, 0);
}

#[test]
fn a_new_sheet_lists_the_photos_that_are_there_by_time_with_a_guess_that_says_so() {
    let shop = Workshop::new();
    for (n, (name, time)) in [
        ("c.jpg", "2026:03:09 16:00:00"),
        ("b.jpg", "2026:03:04 10:01:00"),
        ("a.jpg", "2026:03:04 10:05:00"),
        ("seal-before.jpg", "2026:03:09 16:05:00"),
    ]
    .into_iter()
    .enumerate()
    {
        shop.file(&format!("jobs/HD-7/{name}"), import::photo(n as u32, Some(time)));
    }
    shop.file("jobs/HD-7/notes.txt", "x");
    let run = run_in(&shop.path("jobs/HD-7"), &["new"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    let sheet = text(&shop, "jobs/HD-7/findings.yaml");
    assert!(sheet.contains("job: HD-7\n"), "{sheet}");
    let lines = "#   b.jpg            2026-03-04 10:01  before?\n\
                 #   a.jpg            2026-03-04 10:05  before?\n\
                 #   c.jpg            2026-03-09 16:00  after?\n\
                 #   seal-before.jpg  2026-03-09 16:05  before?\n";
    assert!(sheet.ends_with(lines), "{sheet}");
    assert!(sheet.contains("are guessed"), "{sheet}");
}

#[test]
fn a_folder_of_photos_without_a_sheet_gets_its_contact_sheet() {
    let shop = Workshop::new();
    shop.file("jobs/HD-7/a.jpg", jpeg(80, 60, 1));
    let run = shop.run(&["photos", "jobs/HD-7"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    assert!(shop.read("jobs/HD-7/photo-sheet.pdf").starts_with(b"%PDF-"));
    // Where there is neither, there is nothing to do.
    fs::create_dir(shop.path("empty")).unwrap();
    assert_eq!(shop.run(&["photos", "empty"]).code, 2);
}
