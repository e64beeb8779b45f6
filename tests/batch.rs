//! Whole runs: what is written, skipped and refused, how it is told, and that nothing is lost.

use std::fs;

use crate::workshop::{RETURNED, Workshop, jpeg, sheet};

fn three_jobs() -> Workshop {
    let shop = Workshop::new();
    for job in ["A-1", "A-2", "A-3"] {
        shop.file(&format!("jobs/{job}/findings.yaml"), sheet(job));
    }
    shop
}

#[test]
fn every_job_below_a_folder_gets_its_paper_in_a_folder_of_its_number() {
    let shop = three_jobs();
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for job in ["A-1", "A-2", "A-3"] {
        assert!(shop.read(&format!("out/{job}/arrival-note.pdf")).starts_with(b"%PDF-"));
    }
    assert_eq!(
        run.out,
        "A-1: written\nA-2: written\nA-3: written\n\n\
         A-1  written                            out/A-1/arrival-note.pdf\n\
         A-2  written                            out/A-2/arrival-note.pdf\n\
         A-3  written                            out/A-3/arrival-note.pdf\n\n\
         3 jobs: 3 written\n"
    );
}

#[test]
fn a_refused_job_is_told_with_its_place_and_the_others_are_written() {
    let shop = three_jobs();
    shop.file("jobs/A-2/findings.yaml", sheet("A-2").replace("mid-drive", "middrive"));
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert!(shop.has("out/A-1/arrival-note.pdf") && shop.has("out/A-3/arrival-note.pdf"));
    assert!(!shop.has("out/A-2"));
    assert!(
        run.err.contains("error[sheet/unknown-word]: there is no kind of unit `middrive`"),
        "{}",
        run.err
    );
    assert!(run.err.contains("jobs/A-2/findings.yaml:3:14"), "{}", run.err);
    assert!(run.err.contains("help: did you mean `mid-drive`?"), "{}", run.err);
    assert!(run.out.ends_with("3 jobs: 1 refused, 2 written\n"), "{}", run.out);
}

#[test]
fn a_job_that_becomes_bad_keeps_its_old_paper() {
    let shop = three_jobs();
    shop.run(&["render", "jobs", "--out", "out"]);
    let before = shop.read("out/A-1/arrival-note.pdf");
    shop.file("jobs/A-1/findings.yaml", "job: A-1\n");
    assert_eq!(shop.run(&["render", "jobs", "--out", "out"]).code, 1);
    assert_eq!(shop.read("out/A-1/arrival-note.pdf"), before);
}

#[test]
fn an_unchanged_job_is_skipped_and_a_changed_one_is_made_again() {
    let shop = three_jobs();
    shop.run(&["render", "jobs", "--out", "out"]);
    let again = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(again.out.ends_with("3 jobs: 3 unchanged\n"), "{}", again.out);
    shop.file("jobs/A-2/findings.yaml", sheet("A-2").replace("Nadia", "Nadja"));
    shop.file("jobs/A-3/new.jpg", jpeg(40, 30, 1));
    let changed = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(changed.out.ends_with("3 jobs: 1 unchanged, 2 written\n"), "{}", changed.out);
    let forced = shop.run(&["render", "jobs", "--out", "out", "--force"]);
    assert!(forced.out.ends_with("3 jobs: 3 written\n"), "{}", forced.out);
}

#[test]
fn a_paper_that_went_missing_is_made_again() {
    let shop = three_jobs();
    shop.run(&["render", "jobs", "--out", "out"]);
    fs::remove_file(shop.path("out/A-1/arrival-note.pdf")).unwrap();
    shop.run(&["render", "jobs", "--out", "out"]);
    assert!(shop.has("out/A-1/arrival-note.pdf"));
}

#[test]
fn a_file_of_somebody_else_is_not_overwritten() {
    let shop = three_jobs();
    shop.file("out/A-1/arrival-note.pdf", b"mine");
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert_eq!(shop.read("out/A-1/arrival-note.pdf"), b"mine");
    assert!(run.err.contains("not one that this program wrote"), "{}", run.err);
    assert!(shop.has("out/A-2/arrival-note.pdf"));
}

#[test]
fn two_jobs_of_one_number_are_both_refused() {
    let shop = three_jobs();
    shop.file("jobs/copy/findings.yaml", sheet("A-1"));
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert!(!shop.has("out/A-1") && shop.has("out/A-2/arrival-note.pdf"));
    assert!(run.err.contains("error[sheet/duplicate-job]"), "{}", run.err);
    assert!(run.out.ends_with("4 jobs: 2 refused, 2 written\n"), "{}", run.out);
}

#[test]
fn originals_are_left_as_they_were() {
    let shop = three_jobs();
    shop.file("jobs/A-1/photo.jpg", jpeg(60, 40, 1));
    let state = |shop: &Workshop| {
        let mut files: Vec<_> =
            fs::read_dir(shop.path("jobs/A-1")).unwrap().map(|one| one.unwrap()).collect();
        files.sort_by_key(std::fs::DirEntry::file_name);
        let state = |file: fs::DirEntry| {
            (
                file.file_name(),
                fs::read(file.path()).unwrap(),
                file.metadata().unwrap().modified().unwrap(),
            )
        };
        files.into_iter().map(state).collect::<Vec<_>>()
    };
    let before = state(&shop);
    shop.run(&["render", "jobs", "--out", "out"]);
    shop.run(&["check", "jobs"]);
    assert_eq!(state(&shop), before);
}

#[test]
fn nothing_to_run_on_ends_with_code_2_and_says_what_to_do() {
    let shop = Workshop::new();
    fs::create_dir(shop.path("empty")).unwrap();
    let run = shop.run(&["render", "empty", "--out", "out"]);
    assert_eq!(run.code, 2);
    assert_eq!(
        run.err,
        "error: could not find a job in `empty`: there is no `findings.yaml` in it or below it\n  \
         help: `splitcase new FOLDER` starts a job\n"
    );
    assert_eq!(shop.run(&["render", "nowhere", "--out", "out"]).code, 2);
    assert_eq!(shop.run(&["render"]).code, 2);
}

#[test]
fn a_job_without_a_workshop_is_told_how_to_make_one() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("job")).unwrap();
    fs::write(folder.path().join("job/findings.yaml"), sheet("A-1")).unwrap();
    let run = crate::workshop::run_in(folder.path(), &["check", "job"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("splitcase new --workshop"), "{}", run.err);
}

#[test]
fn a_mistake_in_the_profile_is_told_in_the_profile() {
    let shop = Workshop::with_profile("name: X\ncurrency: pounds\n");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1"));
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("workshop.yaml:2:11"), "{}", run.err);
}

#[test]
fn json_tells_problems_beside_what_came_of_each_job() {
    let shop = three_jobs();
    shop.file("jobs/A-2/findings.yaml", sheet("A-2").replace("2026-03-02", "2026-02-30"));
    let run = shop.run(&["render", "jobs", "--out", "out", "--format", "json"]);
    assert_eq!(run.code, 1);
    let told: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let problem = &told["problems"][0];
    assert_eq!(
        (&problem["subject"], &problem["code"]),
        (&"A-2".into(), &"sheet/impossible-date".into())
    );
    assert_eq!((&problem["line"], &problem["column"]), (&4.into(), &17.into()));
    let statuses = told["results"].as_array().unwrap().iter().map(|job| &job["status"]);
    assert_eq!(statuses.collect::<Vec<_>>(), ["written", "refused", "written"]);
}

#[test]
fn the_same_folder_gives_the_same_bytes_on_any_number_of_workers() {
    let shop = three_jobs();
    let used = "strip-down:\n  date: 2026-03-04\n  findings:\n    - {part: rotor, condition: failed, photos: [a.jpg, b.jpg]}\n";
    for job in ["A-1", "A-2", "A-3"] {
        shop.file(&format!("jobs/{job}/findings.yaml"), sheet(job) + used + RETURNED);
        shop.file(&format!("jobs/{job}/a.jpg"), jpeg(400, 300, 1));
        shop.file(&format!("jobs/{job}/b.jpg"), jpeg(300, 400, 2));
    }
    for (workers, out) in [("1", "one"), ("2", "two"), ("7", "seven")] {
        assert_eq!(shop.run(&["render", "jobs", "--out", out, "--workers", workers]).code, 0);
    }
    for job in ["A-1", "A-2", "A-3"] {
        let of = |out: &str| shop.read(&format!("{out}/{job}/return-report.pdf"));
        assert!(of("one") == of("two") && of("one") == of("seven"), "{job} differs");
    }
}

#[cfg(unix)]
#[test]
fn links_that_leave_the_folder_are_not_followed() {
    let shop = three_jobs();
    shop.file("secret/findings.yaml", sheet("S-1")).file("secret/private.jpg", jpeg(40, 30, 1));
    std::os::unix::fs::symlink(shop.path("secret"), shop.path("jobs/linked")).unwrap();
    std::os::unix::fs::symlink(shop.path("secret/private.jpg"), shop.path("jobs/A-1/inside.jpg"))
        .unwrap();
    let used = "  photos: [inside.jpg]\n";
    shop.file(
        "jobs/A-1/findings.yaml",
        sheet("A-1").replace("arrival: {date: 2026-03-02}\n", "arrival:\n  date: 2026-03-02\n")
            + used,
    );
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert!(!shop.has("out/S-1"));
    assert!(run.err.contains("there is no photo `inside.jpg`"), "{}", run.err);
}

#[test]
fn a_broken_photo_refuses_its_job_and_an_unused_one_only_warns() {
    let shop = three_jobs();
    let whole = jpeg(64, 48, 1);
    shop.file("jobs/A-1/broken.jpg", b"<html>not found</html>");
    shop.file("jobs/A-2/broken.jpg", b"<html>not found</html>");
    shop.file("jobs/A-2/findings.yaml", sheet("A-2").replace("02}", "02, photos: [broken.jpg]}"));
    shop.file("jobs/A-3/cut.jpg", &whole[..whole.len() * 2 / 3]);
    shop.file("jobs/A-3/film.jpg", b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom");
    shop.file("jobs/A-3/findings.yaml", sheet("A-3").replace("02}", "02, photos: [cut.jpg]}"));
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert!(shop.has("out/A-1/arrival-note.pdf") && shop.has("out/A-3/arrival-note.pdf"));
    assert!(!shop.has("out/A-2"));
    for words in [
        "warning[photo/no-picture]",
        "error[photo/no-picture]",
        "warning[photo/damaged]",
        "warning[photo/passed-over]: a film (MP4) is passed over",
    ] {
        assert!(run.err.contains(words), "{words} is missing in {}", run.err);
    }
}

#[test]
fn a_new_job_is_ready_to_fill_in_and_is_never_replaced() {
    let shop = Workshop::new();
    let run = shop.run(&["new", "jobs/A-9", "--all-fields"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let sheet = String::from_utf8(shop.read("jobs/A-9/findings.yaml")).unwrap();
    assert!(
        sheet.starts_with("# yaml-language-server: $schema=../../findings.schema.json\n"),
        "{sheet}"
    );
    assert!(shop.has("findings.schema.json"));
    let again = shop.run(&["new", "jobs/A-9"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("it is there already"), "{}", again.err);
    // Filled in at the needed places only, it is a good sheet.
    let filled = sheet
        .replacen("job: ", "job: A-9 ", 1)
        .replacen("name: ", "name: Nadia Ferrow ", 1)
        .replacen("kind: ", "kind: hub ", 1)
        .replacen("date: ", "date: 2026-03-02 ", 1)
        // A discount is an amount or a share; the sheet offers both.
        .replace("    share: 10 %", "    # share: 10 %");
    shop.file("jobs/A-9/findings.yaml", &filled);
    shop.file("jobs/A-9/ride.gpx", include_bytes!("../samples/hd-2614/ride.gpx"));
    let check = shop.run(&["check", "jobs"]);
    assert_eq!(check.code, 0, "{}\n{filled}", check.err);
}

#[test]
fn a_new_sheet_with_every_comment_taken_off_is_a_sheet_that_reads() {
    let shop = Workshop::new();
    shop.run(&["new", "jobs/A-9", "--all-fields"]);
    let blank = String::from_utf8(shop.read("jobs/A-9/findings.yaml")).unwrap();
    let filled: String = blank
        .lines()
        .skip_while(|line| !line.is_empty())
        .map(|line| line.strip_prefix("# ").unwrap_or(line).to_owned() + "\n")
        .collect();
    let filled = filled
        .replacen("job: ", "job: A-9 ", 1)
        .replacen("name: ", "name: Nadia Ferrow ", 1)
        .replacen("kind: ", "kind: mid-drive ", 1)
        .replacen("date: ", "date: 2026-03-02 ", 1)
        // A discount is an amount or a share, from all or from a part; the sheet offers both.
        .replace("    share: 10 %", "    # share: 10 %")
        .replace("    on: labour", "    # on: labour");
    shop.file("jobs/A-9/findings.yaml", &filled);
    for photo in ["unit-arrived.jpg", "bearing-before.jpg", "bearing-new.jpg", "unit-exchange.jpg"]
    {
        shop.file(&format!("jobs/A-9/{photo}"), jpeg(40, 30, 1));
    }
    shop.file("jobs/A-9/ride.gpx", include_bytes!("../samples/hd-2614/ride.gpx"));
    let check = shop.run(&["check", "jobs"]);
    assert_eq!(check.code, 0, "{}\n{filled}", check.err);
}

#[test]
fn a_contact_sheet_is_written_beside_the_photos() {
    let shop = three_jobs();
    shop.file("jobs/A-1/a.jpg", jpeg(400, 300, 1));
    let run = shop.run(&["photos", "jobs/A-1"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(shop.read("jobs/A-1/photo-sheet.pdf").starts_with(b"%PDF-"));
}
