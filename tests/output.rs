//! Where papers are written, and what is never written over: only what the record says we wrote, by its
//! digest, and only below the output folder.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::workshop::{Workshop, jpeg, sheet};

fn one_job() -> Workshop {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1"));
    shop
}

/// Every file below a folder whose name has this end.
fn files(folder: &Path, end: &str) -> Vec<String> {
    let all = walkdir::WalkDir::new(folder).sort_by_file_name().into_iter().flatten();
    let names = all.map(|entry| entry.path().strip_prefix(folder).unwrap().display().to_string());
    names.filter(|name| name.ends_with(end)).collect()
}

#[test]
fn a_number_that_is_no_name_of_a_folder_is_refused_and_writes_nothing() {
    for number in [
        "''",
        "' '",
        ".",
        "..",
        "../x",
        "a/b",
        "'a b'",
        "NUL",
        "con",
        "Com1",
        "a.",
        "-a",
        "\"a\\0b\"",
    ] {
        let shop = Workshop::new();
        shop.file(
            "jobs/j/findings.yaml",
            sheet("A-1").replace("job: A-1", &format!("job: {number}")),
        );
        let run = shop.run(&["render", "jobs", "--out", "out"]);
        assert_eq!(run.code, 1, "{number}: {}", run.err);
        assert_eq!(files(&shop.path(""), ".pdf"), [""; 0], "{number}");
        assert_eq!(files(&shop.path(""), ".json"), [""; 0], "{number}");
    }
}

#[test]
fn numbers_that_differ_only_in_case_are_both_refused() {
    let shop = one_job();
    shop.file("jobs/b/findings.yaml", sheet("a-1"));
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert_eq!(files(&shop.path("out"), ".pdf"), [""; 0]);
    assert_eq!(run.err.matches("error[sheet/duplicate-job]").count(), 2, "{}", run.err);
}

/// Starts a run of one worker on many jobs, and changes the sheet of the last one meanwhile.
fn changed_meanwhile(before: &str, after: &str) -> Workshop {
    let shop = Workshop::new();
    for n in 0..6 {
        let job = format!("A-{n}");
        shop.file(&format!("jobs/{job}/findings.yaml"), sheet(&job));
        shop.file(&format!("jobs/{job}/a.jpg"), jpeg(800, 600, n));
    }
    let last = "jobs/Z/findings.yaml";
    shop.file(last, before);
    let mut run = Command::new(env!("CARGO_BIN_EXE_splitcase"))
        .args(["render", "jobs", "--out", "out", "--workers", "1"])
        .current_dir(shop.path(""))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    // The first paper is written: the run has looked at every number, and the last job is far away.
    while !shop.has("out/A-0/arrival-note.pdf") {
        assert!(run.try_wait().unwrap().is_none(), "the run has ended early");
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    shop.file(last, after);
    run.wait().unwrap();
    shop
}

#[test]
fn a_sheet_saved_during_a_run_goes_to_the_folder_of_the_number_that_it_has_then() {
    for before in [String::new(), sheet("B-1")] {
        let shop = changed_meanwhile(&before, &sheet("B-2"));
        assert_eq!(files(&shop.path("jobs"), ".pdf"), [""; 0]);
        assert!(shop.has("out/B-2/arrival-note.pdf") && !shop.has("out/B-1"));
    }
}

#[test]
fn a_number_that_another_job_has_already_is_refused_during_a_run_too() {
    let shop = changed_meanwhile(&sheet("B-1"), &sheet("A-0"));
    let papers = files(&shop.path("out"), ".pdf");
    assert_eq!(papers.len(), 6, "{papers:?}");
    let paper = String::from_utf8_lossy(&shop.read("out/A-0/arrival-note.pdf")).into_owned();
    assert!(paper.contains("Arrival note A-0"));
}

#[test]
fn a_paper_that_somebody_has_annotated_is_not_ours_any_more() {
    let shop = one_job();
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1));
    for (arguments, paper) in [
        (&["render", "jobs", "--out", "out", "--force"][..], "out/A-1/arrival-note.pdf"),
        (&["photos", "jobs/A-1"][..], "jobs/A-1/photo-sheet.pdf"),
        (&["photos", "jobs/A-1", "--out", "sheets"][..], "sheets/A-1/photo-sheet.pdf"),
    ] {
        assert_eq!(shop.run(arguments).code, 0);
        // Ours, unchanged, is made again.
        shop.file("jobs/A-1/findings.yaml", sheet("A-1").replace("Nadia", paper));
        assert_eq!(shop.run(arguments).code, 0, "{paper}");
        // Of the same length: the name and the length alone say nothing.
        let mut annotated = shop.read(paper);
        let at = annotated.len() / 2;
        annotated[at] ^= 1;
        shop.file(paper, &annotated);
        shop.file("jobs/A-1/findings.yaml", sheet("A-1"));
        let run = shop.run(arguments);
        assert_eq!(run.code, 1, "{paper}");
        assert!(run.err.contains("somebody has changed it since"), "{}", run.err);
        assert!(shop.read(paper) == annotated, "{paper}");
    }
}

#[test]
fn what_is_in_a_papers_place_and_is_no_file_of_ours_is_left_there() {
    for in_place in ["folder", "link", "nothing-to-follow"] {
        let shop = one_job();
        let place = shop.path("out/A-1/arrival-note.pdf");
        fs::create_dir_all(place.parent().unwrap()).unwrap();
        match in_place {
            "folder" => fs::create_dir(&place).unwrap(),
            #[cfg(unix)]
            "link" => std::os::unix::fs::symlink(shop.path("workshop.yaml"), &place).unwrap(),
            #[cfg(unix)]
            _ => std::os::unix::fs::symlink(shop.path("gone"), &place).unwrap(),
            #[cfg(not(unix))]
            _ => continue,
        }
        let run = shop.run(&["render", "jobs", "--out", "out"]);
        assert_eq!(run.code, 1, "{in_place}: {}", run.out);
        assert!(!place.is_symlink() || fs::read_link(&place).is_ok(), "{in_place}");
        assert!(shop.read("workshop.yaml").starts_with(b"name: "), "{in_place}");
    }
}

#[cfg(unix)]
#[test]
fn no_paper_follows_a_link_out_of_the_output_folder() {
    let shop = one_job();
    fs::create_dir_all(shop.path("out")).unwrap();
    fs::create_dir(shop.path("elsewhere")).unwrap();
    std::os::unix::fs::symlink(shop.path("elsewhere"), shop.path("out/A-1")).unwrap();
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert_eq!(files(&shop.path("elsewhere"), ".pdf"), [""; 0]);
    assert!(run.err.contains("it is a link"), "{}", run.err);
}

#[test]
fn a_paper_whose_last_record_was_not_written_is_known_as_ours() {
    let shop = one_job();
    shop.run(&["render", "jobs", "--out", "out"]);
    // As after a kill between the paper and its last record: the first one says what was to come.
    let record = "out/.splitcase/A-1.papers.json";
    let mut text: serde_json::Value = serde_json::from_slice(&shop.read(record)).unwrap();
    text["inputs"] = "".into();
    shop.file(record, text.to_string());
    shop.file("jobs/A-1/findings.yaml", sheet("A-1").replace("Nadia", "Nadja"));
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("A-1: written"));
}

#[test]
fn a_run_that_cannot_record_writes_no_paper() {
    let shop = one_job();
    shop.file("out/.splitcase", "in the way");
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert_eq!(files(&shop.path("out"), ".pdf"), [""; 0]);
    fs::remove_file(shop.path("out/.splitcase")).unwrap();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1").replace("Nadia", "Nadja"));
    assert_eq!(shop.run(&["render", "jobs", "--out", "out"]).code, 0);
}

#[test]
fn a_record_that_is_damaged_costs_no_file_and_one_that_is_a_folder_is_reported() {
    let shop = one_job();
    shop.run(&["render", "jobs", "--out", "out"]);
    let record = "out/.splitcase/A-1.papers.json";
    shop.file(record, "{");
    // The same paper as before is recognised by itself.
    assert_eq!(shop.run(&["render", "jobs", "--out", "out"]).code, 0);
    shop.file(record, "{");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1").replace("Nadia", "Nadja"));
    let before = shop.read("out/A-1/arrival-note.pdf");
    assert_eq!(shop.run(&["render", "jobs", "--out", "out"]).code, 1);
    assert!(shop.read("out/A-1/arrival-note.pdf") == before);
    fs::remove_file(shop.path(record)).unwrap();
    fs::create_dir(shop.path(record)).unwrap();
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("it is not a record"), "{}", run.err);
}

#[test]
fn what_a_killed_run_left_is_cleaned_up_and_nothing_else() {
    let shop = one_job();
    shop.run(&["render", "jobs", "--out", "out"]);
    let old = ["out/A-1/.splitcase-AbC123", "out/.splitcase/.splitcase-xYz789"];
    let kept =
        ["out/A-1/.splitcase-notes", "out/A-1/.splitcase-AbC124", "out/A-1/splitcase-AbC125"];
    for name in old.iter().chain(&kept) {
        shop.file(name, "x");
        // The second one kept is young: another run may be writing it.
        if !name.ends_with("AbC124") {
            let file = fs::File::options().write(true).open(shop.path(name)).unwrap();
            file.set_modified(std::time::UNIX_EPOCH).unwrap();
        }
    }
    shop.run(&["render", "jobs", "--out", "out", "--force"]);
    assert!(old.iter().all(|name| !shop.has(name)), "something was left");
    assert!(kept.iter().all(|name| shop.has(name)), "something was taken");
}

#[test]
fn nothing_is_written_into_an_archive() {
    let shop = one_job();
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1));
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    for arguments in [
        &["render", "jobs", "--out", "archive"][..],
        &["render", "jobs", "--out", "archive/A-1/papers"][..],
        &["photos", "jobs/A-1", "--out", "archive"][..],
        &["new", "archive/A-2"][..],
        &["photos", "archive/A-1/A-1-v1/data"][..],
    ] {
        let run = shop.run(arguments);
        assert_ne!(run.code, 0, "{arguments:?}");
        assert!(
            run.err.contains("is sealed") || run.err.contains("no `workshop.yaml`"),
            "{}",
            run.err
        );
    }
    assert_eq!(shop.run(&["verify", "archive"]).code, 0);
}

#[test]
fn a_contact_sheet_is_no_original_and_is_not_sealed() {
    let shop = one_job();
    shop.file("jobs/A-1/a.jpg", jpeg(80, 60, 1));
    assert_eq!(shop.run(&["photos", "jobs/A-1"]).code, 0);
    assert_eq!(shop.run(&["seal", "jobs", "--archive", "archive"]).code, 0);
    let sealed = files(&shop.path("archive/A-1/A-1-v1/data"), "");
    assert!(sealed.iter().any(|name| name == "originals/a.jpg"), "{sealed:?}");
    assert!(
        !sealed.iter().any(|name| name.contains("photo-sheet") || name.contains(".splitcase")),
        "{sealed:?}"
    );
}

#[test]
fn an_output_that_is_a_file_ends_with_code_2() {
    let shop = one_job();
    shop.file("out", "a file");
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("could not make the folder `out`"), "{}", run.err);
    assert_eq!(shop.read("out"), b"a file");
}
