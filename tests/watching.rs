//! `render --watch` as a process: a saved sheet gives a new paper, a half-saved one does no harm.

#![cfg(unix)]

use std::fs;
use std::io::Read;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::workshop::{Workshop, sheet};

/// How long anything may take before the test gives up: a bound, not a measurement.
const PATIENCE: Duration = Duration::from_secs(90);

fn start(shop: &Workshop, more: &[&str]) -> Child {
    let log = fs::File::create(shop.path("log")).unwrap();
    Command::new(env!("CARGO_BIN_EXE_splitcase"))
        .args(["render", "jobs", "--out", "out", "--watch"])
        .args(more)
        .current_dir(shop.path(""))
        .stdin(Stdio::null())
        .stdout(log.try_clone().unwrap())
        .stderr(log)
        .spawn()
        .unwrap()
}

fn log(shop: &Workshop) -> String {
    String::from_utf8(shop.read("log")).unwrap()
}

fn until(shop: &Workshop, what: &str, is_so: impl Fn() -> bool) {
    let begun = Instant::now();
    while !is_so() {
        assert!(begun.elapsed() < PATIENCE, "{what}: {}", log(shop));
        sleep(Duration::from_millis(30));
    }
}

fn end(mut child: Child, shop: &Workshop) {
    let told = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    assert!(told.success());
    let begun = Instant::now();
    loop {
        if let Some(status) = child.try_wait().unwrap() {
            assert_eq!(status.code(), Some(0), "{}", log(shop));
            return;
        }
        if PATIENCE < begun.elapsed() {
            let _ = child.kill();
            panic!("it did not end: {}", log(shop));
        }
        sleep(Duration::from_millis(30));
    }
}

#[test]
fn a_saved_sheet_gives_a_new_paper_and_a_half_saved_one_leaves_the_old() {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1")).file("jobs/A-2/findings.yaml", sheet("A-2"));
    let child = start(&shop, &[]);
    let said = |words: &str| log(&shop).matches(words).count();
    until(&shop, "the first papers", || said("watching 2 jobs") == 1);
    let paper = || fs::read(shop.path("out/A-1/arrival-note.pdf")).unwrap_or_default();
    let first = paper();
    assert!(first.starts_with(b"%PDF-"));

    // Half of a sheet, as an editor may leave it for a moment or a crash for good.
    let whole = sheet("A-1").replace("Nadia Ferrow", "Priya Okonjo");
    shop.file("jobs/A-1/findings.yaml", &whole[..whole.len() / 2]);
    until(&shop, "the refusal", || said("A-1  refused") == 1);
    assert!(paper() == first, "the paper is as it was");

    // Saved as many editors do: written beside, the old one gone, renamed.
    shop.file("jobs/A-1/findings.yaml~", &whole);
    fs::remove_file(shop.path("jobs/A-1/findings.yaml")).unwrap();
    sleep(Duration::from_millis(400));
    fs::rename(shop.path("jobs/A-1/findings.yaml~"), shop.path("jobs/A-1/findings.yaml")).unwrap();
    until(&shop, "the new paper", || said("A-1  arrival-note.pdf (1 page) written") == 2);
    assert!(paper() != first && paper().starts_with(b"%PDF-"));
    assert!(log(&shop).contains("gone: error["), "{}", log(&shop));
    // The other job was left alone.
    assert_eq!(said("  A-2  "), 1, "{}", log(&shop));

    // The profile is everybody's.
    let profile = crate::workshop::PROFILE.replace("Hollowmere", "Tarnbeck");
    shop.file("workshop.yaml", profile);
    until(&shop, "both papers", || {
        said("  A-2  arrival-note.pdf") == 2 && said("  A-1  arrival-note.pdf") == 3
    });

    // A job that comes later is taken up.
    shop.file("jobs/A-3/findings.yaml", sheet("A-3"));
    until(&shop, "the new job", || said("  A-3  arrival-note.pdf") == 1);
    end(child, &shop);
    assert!(
        log(&shop).ends_with("ended; the papers are as they were last made\n"),
        "{}",
        log(&shop)
    );
    let left: Vec<_> =
        fs::read_dir(shop.path("out/A-1")).unwrap().map(|one| one.unwrap().file_name()).collect();
    assert_eq!(left, ["arrival-note.pdf"]);
}

#[test]
fn scripts_get_one_object_a_round() {
    let shop = Workshop::new();
    shop.file("jobs/A-1/findings.yaml", sheet("A-1"));
    let child = start(&shop, &["--format", "json"]);
    until(&shop, "the first round", || log(&shop).lines().count() == 1);
    shop.file("jobs/A-1/findings.yaml", "job: A-1\n");
    until(&shop, "the second round", || log(&shop).lines().count() == 2);
    end(child, &shop);
    let told: Vec<serde_json::Value> =
        log(&shop).lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(
        (&told[0]["results"][0]["status"], &told[1]["results"][0]["status"]),
        (&"written".into(), &"refused".into())
    );
    assert_eq!(
        (&told[0]["exit-code"], &told[1]["exit-code"], &told[2]["exit-code"]),
        (&0.into(), &1.into(), &0.into())
    );
}

#[test]
fn watching_where_there_is_nothing_ends_at_once() {
    let shop = Workshop::new();
    let mut child = start(&shop, &[]);
    let begun = Instant::now();
    while child.try_wait().unwrap().is_none() {
        assert!(begun.elapsed() < PATIENCE);
        sleep(Duration::from_millis(30));
    }
    assert_eq!(child.wait().unwrap().code(), Some(2));
    let mut text = String::new();
    fs::File::open(shop.path("log")).unwrap().read_to_string(&mut text).unwrap();
    assert!(text.contains("error: could not find"), "{text}");
}
