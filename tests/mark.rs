//! The marking page and what it saved: nothing is fetched, nothing of a sheet is lost.
//!
//! Each file in `mark/` is a sheet, a saved file and what comes of it: the changed sheet or the message.
//! What a browser does with the page is checked by `.ci/outside/marking.py`.

use std::fs;
use std::path::Path;

use splitcase::diagnostic::{Diagnostic, Place, Problems};
use splitcase::marking::{self, Given};

use crate::messages::workshop;
use crate::workshop::{Workshop, jpeg, sheet};

const PHOTOS: [&str; 4] = ["a.jpg", "b.jpg", "c d's.jpg", "d.jpg"];

fn taken(sheet: &[u8], saved: &[u8]) -> Result<Vec<u8>, String> {
    let before = Given { name: "findings.yaml", bytes: sheet };
    let saved = Given { name: "marks.yaml", bytes: saved };
    match marking::take(before, &workshop(), saved, &PHOTOS) {
        Ok(taken) => Ok(taken.sheet),
        Err(problems) => {
            assert!(!problems.is_empty());
            Err(problems.iter().map(in_words).collect())
        }
    }
}

fn in_words(problem: &Diagnostic) -> String {
    let at = |place: &Place| {
        let (line, column) =
            place.source.line_column(place.range.as_ref().map_or(0, |range| range.start));
        format!("{}:{line}:{column}", place.source.name())
    };
    let mut words =
        format!("error[{}] {}: {}\n", problem.code, at(&problem.place), problem.message);
    for (place, text) in &problem.also {
        words += &format!("  also {}: {text}\n", at(place));
    }
    for hint in &problem.hints {
        words += &format!("  help: {}\n", hint.replace('\n', "\n    "));
    }
    words
}

fn fixtures() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/mark");
    let mut all: Vec<_> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    all.sort();
    let named =
        |path: std::path::PathBuf| (path.display().to_string(), fs::read_to_string(&path).unwrap());
    all.into_iter().map(named).collect()
}

#[test]
fn what_was_saved_comes_into_the_sheet_and_nothing_else_changes() {
    let fixtures = fixtures();
    assert!(20 < fixtures.len());
    for (name, text) in fixtures {
        let (sheet, rest) = text.split_once("=== saved\n").unwrap();
        let (saved, expected) = rest.split_once("=== gives\n").unwrap();
        let came = match taken(sheet.as_bytes(), saved.as_bytes()) {
            Ok(bytes) => String::from_utf8(bytes).unwrap(),
            Err(message) => message,
        };
        if std::env::var_os("SPLITCASE_BLESS").is_some() {
            fs::write(&name, format!("{sheet}=== saved\n{saved}=== gives\n{came}")).unwrap();
        } else {
            assert_eq!(came, expected, "{name}");
        }
        // Comments are kept, each as often as it was there.
        if !came.starts_with("error[") {
            for comment in sheet.lines().filter_map(|line| line.split_once("# ")) {
                let count = |text: &str| text.matches(comment.1).count();
                assert_eq!(count(&came), count(sheet), "{name}: {}", comment.1);
            }
        }
    }
}

/// Windows line ends, a byte order mark and a missing last line end stay as they are.
#[test]
fn line_ends_and_byte_order_mark_stay() {
    for (name, text) in fixtures() {
        let (sheet, rest) = text.split_once("=== saved\n").unwrap();
        let (saved, _) = rest.split_once("=== gives\n").unwrap();
        let Ok(plain) = taken(sheet.as_bytes(), saved.as_bytes()) else { continue };
        let plain = String::from_utf8(plain).unwrap();
        let windows = format!("\u{feff}{}", sheet.replace('\n', "\r\n"));
        let came = taken(windows.as_bytes(), saved.as_bytes()).unwrap();
        let came = String::from_utf8(came).unwrap();
        assert_eq!(came, format!("\u{feff}{}", plain.replace('\n', "\r\n")), "{name}");
        let came = taken(sheet.trim_end().as_bytes(), saved.as_bytes()).unwrap();
        assert_eq!(String::from_utf8(came).unwrap().trim_end(), plain.trim_end(), "{name}");
    }
}

#[test]
fn a_saved_file_taken_twice_changes_nothing_the_second_time() {
    for (name, text) in fixtures() {
        let (sheet, rest) = text.split_once("=== saved\n").unwrap();
        let (saved, _) = rest.split_once("=== gives\n").unwrap();
        if let Ok(once) = taken(sheet.as_bytes(), saved.as_bytes()) {
            let twice = taken(&once, saved.as_bytes());
            assert_eq!(twice.as_ref(), Ok(&once), "{name}");
        }
    }
}

/// Whatever of a saved file is cut, doubled or swapped: a message or a whole change, never a panic, and the
/// sheet keeps every line that it had.
#[test]
fn a_damaged_saved_file_does_no_harm() {
    let (_, text) = fixtures().into_iter().find(|(name, _)| name.ends_with("several.txt")).unwrap();
    let (sheet, rest) = text.split_once("=== saved\n").unwrap();
    let (saved, _) = rest.split_once("=== gives\n").unwrap();
    let (mut taken_up, mut refused) = (0, 0);
    let mut tried = Vec::new();
    for at in (0..saved.len()).step_by(7).filter(|at| saved.is_char_boundary(*at)) {
        tried.push(saved[..at].to_owned());
        for with in ["[", "}", "\"", ":", "#", "\n", "&a ", "- ", "\u{202e}"] {
            tried.push(format!("{}{with}{}", &saved[..at], &saved[at..]));
        }
    }
    for text in tried {
        match taken(sheet.as_bytes(), text.as_bytes()) {
            Ok(bytes) => {
                taken_up += 1;
                let after = String::from_utf8(bytes).unwrap();
                for line in sheet.lines().filter(|line| line.contains('#')) {
                    assert!(after.contains(line.split_once('#').unwrap().1), "{text}");
                }
                let mut problems = Problems::default();
                let read = splitcase::sheet::read("", after.as_bytes(), &workshop(), &mut problems);
                assert!(read.is_some() && !problems.has_errors(), "{text}");
            }
            Err(_) => refused += 1,
        }
    }
    assert!(100 < refused && 10 < taken_up, "{refused} {taken_up}");
}

#[test]
fn a_large_or_deep_saved_file_is_refused_at_once() {
    let sheet = sheet("A-1");
    for saved in [
        "[".repeat(200_000),
        format!("photos: [{}]", "{list: photos}, ".repeat(50_000)),
        "a".repeat(2 << 20),
        String::new(),
        "\u{0}".to_owned(),
        format!("photos: {}", "- ".repeat(60_000)),
    ] {
        let begin = std::time::Instant::now();
        assert!(taken(sheet.as_bytes(), saved.as_bytes()).is_err());
        assert!(begin.elapsed().as_secs() < 5);
    }
}

fn job() -> Workshop {
    let shop = Workshop::new();
    let findings = "strip-down:\n  date: 2026-03-04\n  findings:\n    # look here\n    \
                    - part: ring-gear\n      condition: worn\n      photos: [a.jpg] # the first\n";
    shop.file("A-1/findings.yaml", sheet("A-1") + findings);
    shop.file("A-1/a.jpg", jpeg(640, 480, 1)).file("A-1/b.jpg", jpeg(480, 640, 2));
    shop
}

const SAVED: &str = "job: A-1\nphotos:\n  - {list: photos, finding: 1, part: ring-gear, \
                     photo: {file: a.jpg, marks: [{ring: F4.27, size: 1.5}]}, replaces: [{marks: []}]}\n";

#[test]
fn the_command_writes_the_page_and_takes_what_it_saved() {
    let shop = job();
    let made = shop.run(&["mark", "A-1"]);
    assert_eq!(made.code, 0, "{}", made.err);
    assert!(made.out.contains("A-1/marking-page.html"), "{}", made.out);
    let page = String::from_utf8(shop.read("A-1/marking-page.html")).unwrap();
    assert!(page.starts_with("<!doctype html>"));
    assert_eq!(page.matches("data:image/jpeg;base64,/9j/").count(), 2);

    shop.file("saved.yaml", SAVED);
    let taken = shop.run(&["mark", "A-1", "--take", "saved.yaml"]);
    assert_eq!(taken.code, 0, "{}", taken.err);
    let after = String::from_utf8(shop.read("A-1/findings.yaml")).unwrap();
    let marked = "photos: [{file: a.jpg, marks: [{ring: F4.27, size: 1.5}]}] # the first\n";
    assert!(after.contains(marked) && after.contains("# look here"), "{after}");
    assert_eq!(shop.run(&["render", "A-1", "--out", "out"]).code, 0);
    let again = shop.run(&["mark", "A-1", "--take", "saved.yaml"]);
    assert!(again.code == 0 && again.out.contains("A-1: unchanged"), "{}", again.out);
    // The page is neither a photo nor an original: papers and bags do not know it.
    let sealed = shop.run(&["seal", "A-1", "--archive", "archive"]);
    assert_eq!(sealed.code, 0, "{}", sealed.err);
    let names = walkdir::WalkDir::new(shop.path("archive")).into_iter().flatten();
    assert!(
        names.map(|entry| entry.path().display().to_string()).all(|name| !name.contains("marking"))
    );
    let made = shop.run(&["mark", "A-1", "--out", "pages"]);
    assert!(made.code == 0 && shop.has("pages/A-1/marking-page.html"), "{}", made.err);
}

#[test]
fn a_sheet_that_cannot_be_read_gets_a_page_and_takes_nothing() {
    let shop = job();
    shop.file("A-1/findings.yaml", "job: A-1\nunit: [\n").file("saved.yaml", SAVED);
    assert_eq!(shop.run(&["mark", "A-1"]).code, 0);
    let taken = shop.run(&["mark", "A-1", "--take", "saved.yaml"]);
    assert_eq!(taken.code, 1, "{}", taken.err);
    assert_eq!(shop.read("A-1/findings.yaml"), b"job: A-1\nunit: [\n");
}

#[test]
fn what_must_not_be_written_is_not() {
    let shop = job();
    shop.file("saved.yaml", SAVED);
    let before = shop.read("A-1/findings.yaml");
    // A page that somebody else put there.
    shop.file("A-1/marking-page.html", "mine");
    assert_eq!(shop.run(&["mark", "A-1"]).code, 1);
    assert_eq!(shop.read("A-1/marking-page.html"), b"mine");
    for file in ["nothing.yaml", "A-1", "A-1/a.jpg"] {
        let run = shop.run(&["mark", "A-1", "--take", file]);
        assert!(run.code != 0 && run.err.contains("error"), "{file}: {}", run.err);
    }
    assert_eq!(shop.read("A-1/findings.yaml"), before);
}

#[cfg(unix)]
#[test]
fn a_sheet_keeps_its_permissions_and_a_link_or_a_closed_one_is_left_alone() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let shop = job();
    shop.file("saved.yaml", SAVED);
    let path = shop.path("A-1/findings.yaml");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).unwrap();
    let before = shop.read("A-1/findings.yaml");
    let closed = shop.run(&["mark", "A-1", "--take", "saved.yaml"]);
    assert!(closed.code == 1 && closed.err.contains("may not be written"), "{}", closed.err);
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    assert_eq!(shop.run(&["mark", "A-1", "--take", "saved.yaml"]).code, 0);
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
    fs::rename(&path, shop.path("kept.yaml")).unwrap();
    fs::write(shop.path("kept.yaml"), &before).unwrap();
    symlink("../kept.yaml", &path).unwrap();
    let linked = shop.run(&["mark", "A-1", "--take", "saved.yaml"]);
    assert!(linked.code == 1 && linked.err.contains("a link"), "{}", linked.err);
    assert_eq!(shop.read("kept.yaml"), before);
}

/// The policy forbids every request (W3C, Content Security Policy Level 3: `default-src 'none'`), and
/// nothing in the page asks for one.
#[test]
fn the_page_holds_all_it_needs_and_no_name_can_break_it() {
    let shop = job();
    let names = [
        "A-1/<script>alert(1)<script>.jpg",
        "A-1/\"'><img onerror=alert(1)>.jpg",
        "A-1/<!--<script.jpg",
    ];
    if cfg!(windows) {
        return;
    }
    for (seed, name) in (3..).zip(names) {
        shop.file(name, jpeg(64, 48, seed));
    }
    assert_eq!(shop.run(&["mark", "A-1"]).code, 0);
    let page = String::from_utf8(shop.read("A-1/marking-page.html")).unwrap();
    let tags = |tag: &str| page.matches(&format!("<{tag}")).count();
    assert_eq!((tags("script"), tags("style"), tags("meta"), tags("link")), (2, 1, 5, 0));
    assert_eq!((tags("!--"), page.matches("</script").count()), (0, 2));
    assert!(page.contains("default-src 'none'; img-src data:; style-src 'sha256-"));
    assert!(page.contains("\\u003cscript\\u003ealert(1)"));
    let without_names = page.replace("http://www.w3.org/2000/svg", "");
    for word in [
        "http:",
        "https:",
        "//cdn",
        "url(",
        "@import",
        "fetch(",
        "XMLHttpRequest",
        "eval(",
        "innerHTML",
    ] {
        assert!(!without_names.contains(word), "{word}");
    }
}

#[test]
fn a_page_of_three_photos_is_under_a_megabyte() {
    let shop = Workshop::new();
    shop.file("A-1/findings.yaml", sheet("A-1"));
    for seed in 0..3 {
        shop.file(&format!("A-1/{seed}.jpg"), jpeg(2000, 1500, seed));
    }
    assert_eq!(shop.run(&["mark", "A-1"]).code, 0);
    let page = shop.read("A-1/marking-page.html");
    assert!(page.len() < 1_000_000, "{}", page.len());
}
