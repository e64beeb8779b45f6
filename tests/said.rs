//! What cannot be printed, started or read is said, with the exit code that scripts ask for; no job is
//! passed over in silence.

use std::fs;
use std::process::{Command, Stdio};

use crate::workshop::{Workshop, jpeg, sheet};

fn one_job() -> Workshop {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1")).file("jobs/A-1/a.jpg", jpeg(80, 60, 1));
    shop
}

#[cfg(unix)]
#[test]
fn an_output_that_cannot_be_written_ends_with_code_2_whatever_was_asked() {
    let shop = one_job();
    shop.run(&["seal", "jobs", "--archive", "archive"]);
    for arguments in [
        &["check", "jobs"][..],
        &["check", "jobs", "--format", "json"],
        &["render", "jobs", "--out", "out"],
        &["render", "jobs", "--out", "out", "--format", "json"],
        &["photos", "jobs/A-1"],
        &["seal", "jobs", "--archive", "archive"],
        &["seal", "jobs", "--archive", "archive", "--format", "json"],
        &["verify", "archive"],
        &["verify", "archive", "--format", "json"],
        &["verify", "archive", "--head"],
        &["new", "jobs/A-9"],
        &["schema"],
        &["words", "rusty"],
        &["--version"],
        &["--help"],
        &["render", "--help"],
    ] {
        let run = |out: Stdio| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_splitcase"));
            command.args(arguments).current_dir(shop.path("")).stdin(Stdio::null());
            command.stdout(out).stderr(Stdio::null()).status().unwrap().code()
        };
        let full = fs::File::options().write(true).open("/dev/full").unwrap();
        assert_eq!(run(full.into()), Some(2), "{arguments:?} to a full disk");
        let _ = fs::remove_dir_all(shop.path("jobs/A-9"));
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        assert_eq!(run(writer.into()), Some(2), "{arguments:?} to a reader that has gone away");
        let _ = fs::remove_dir_all(shop.path("jobs/A-9"));
    }
}

#[cfg(unix)]
#[test]
fn a_job_behind_a_link_is_reported_unless_it_is_worked_on_anyway() {
    use std::os::unix::fs::symlink;
    let shop = one_job();
    shop.file("else/B-1/findings.yaml", sheet("B-1"));
    symlink(shop.path("jobs/A-1"), shop.path("jobs/latest")).unwrap();
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 0, "{}", run.err);
    symlink(shop.path("else/B-1"), shop.path("jobs/B-1")).unwrap();
    fs::create_dir(shop.path("jobs/C-1")).unwrap();
    symlink(shop.path("else/B-1/findings.yaml"), shop.path("jobs/C-1/findings.yaml")).unwrap();
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    for link in ["jobs/B-1`", "jobs/C-1/findings.yaml`"] {
        assert!(run.err.contains(link), "{link}: {}", run.err);
    }
    assert!(run.out.contains("A-1: in order"), "{}", run.out);
}

#[cfg(unix)]
#[test]
fn a_pipe_in_the_place_of_a_file_is_reported_and_never_waited_for() {
    let pipe = |shop: &Workshop, name: &str| {
        fs::create_dir_all(shop.path(name).parent().unwrap()).unwrap();
        assert!(Command::new("mkfifo").arg(shop.path(name)).status().unwrap().success());
    };
    let shop = one_job();
    pipe(&shop, "jobs/P-1/findings.yaml");
    pipe(&shop, "jobs/A-1/b.jpg");
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("jobs/P-1/findings.yaml`: it is not a plain file"), "{}", run.err);
    assert!(run.err.contains("warning[photo/left-out]"), "{}", run.err);

    let shop = one_job();
    fs::remove_file(shop.path("workshop.yaml")).unwrap();
    pipe(&shop, "workshop.yaml");
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("it is a pipe or a device"), "{}", run.err);

    let shop = one_job();
    fs::create_dir(shop.path("archive")).unwrap();
    pipe(&shop, "key");
    assert_ne!(shop.run(&["seal", "jobs", "--archive", "archive", "--key", "key"]).code, 0);
    assert_ne!(shop.run(&["verify", "key"]).code, 0);
    assert_ne!(shop.run(&["verify", "archive", "--signer", "key"]).code, 0);
}

#[test]
fn a_name_cannot_steer_or_forge_a_message() {
    let shop = one_job();
    let forged = "a\n\u{1b}[31merror: all lost\u{202e}gpj.jpg";
    shop.file(&format!("jobs/A-1/{forged}"), b"no picture");
    shop.file("jobs/A-1/findings.yaml", sheet("A-1").replace("Kestmar C2", "Kestmar \u{202e}C2"));
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1);
    assert!(!run.err.contains('\u{202e}') && !run.err.contains("\u{1b}[31m"), "{}", run.err);
    assert!(!run.err.lines().any(|line| line.starts_with("error: all lost")), "{}", run.err);
}

#[test]
fn photos_work_on_a_fresh_sheet_and_on_one_that_is_no_yaml() {
    let shop = Workshop::new();
    shop.run(&["new", "jobs/A-9"]);
    shop.file("jobs/A-9/a.jpg", jpeg(80, 60, 1));
    for broken in [None, Some("{{{"), Some(""), Some("job: A-7\narrival: {date: 2026-02-31}\n")] {
        if let Some(text) = broken {
            shop.file("jobs/A-9/findings.yaml", text);
        }
        let run = shop.run(&["photos", "jobs/A-9"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{broken:?}");
        assert!(shop.read("jobs/A-9/photo-sheet.pdf").starts_with(b"%PDF-"));
        let run = shop.run(&["photos", "jobs/A-9", "--out", "sheets"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{broken:?}");
    }
    assert!(shop.has("sheets/A-9/photo-sheet.pdf") && shop.has("sheets/A-7/photo-sheet.pdf"));
}

#[test]
fn a_name_matches_in_either_unicode_form() {
    for (typed, on_disk) in
        [("Lag\u{e9}.jpg", "Lage\u{301}.jpg"), ("Lage\u{301}.jpg", "Lag\u{e9}.jpg")]
    {
        let shop = Workshop::new();
        let text = sheet("A-1").replace("02}", &format!("02, photos: [./{typed}]}}"));
        shop.file("jobs/A-1/findings.yaml", text);
        shop.file(&format!("jobs/A-1/{on_disk}"), jpeg(80, 60, 1));
        let run = shop.run(&["seal", "jobs", "--archive", "archive", "--for-owner"]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(shop.has(&format!("archive/A-1/A-1-v1/data/originals/{on_disk}")));
        assert_eq!(shop.run(&["verify", "archive"]).code, 0);
    }
}

#[test]
fn ten_thousand_files_beside_the_photos_harm_nobody() {
    let shop = one_job();
    for n in 0..10_000 {
        fs::write(shop.path(&format!("jobs/A-1/{n}.txt")), "x").unwrap();
    }
    assert_eq!(shop.run(&["check", "jobs"]).code, 0);
}

#[test]
fn a_locked_pdf_is_called_locked() {
    let shop = one_job();
    shop.run(&["render", "jobs", "--out", "out"]);
    let pdf = shop.read("out/A-1/arrival-note.pdf");
    let at = pdf.windows(9).rposition(|part| part.starts_with(b"trailer")).unwrap();
    let open = at + pdf[at..].windows(2).position(|part| part == b"<<").unwrap() + 2;
    let locked = [&pdf[..open], b"/Encrypt 1 0 R ", &pdf[open..]].concat();
    shop.file("locked.pdf", locked);
    let run = shop.run(&["verify", "locked.pdf", "--against", "jobs/A-1"]);
    assert_eq!(run.code, 2, "{}", run.out);
    assert!(run.out.contains("it is locked by a password"), "{}", run.out);
}
