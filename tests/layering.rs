//! The house: arrows of imports, length of files, heads of files, the disk at the two ends only.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Stages from the ground up; a file imports only from its own stage and those before it.
const STAGES: &[&str] = &[
    "diagnostic",
    "failure",
    "workers",
    "sheet",
    "photo",
    "assessment",
    "document",
    "archive",
    "intake",
    "handover",
    "shop",
    "album",
    "job",
    "closing",
    "remaking",
    "batch",
    "start",
    "cli",
    "archiving",
    "commands",
    "lib",
    "main",
];

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, ending));
        } else if path.extension().is_some_and(|own| own == ending) {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn sources() -> Vec<(String, String)> {
    let src = root().join("src");
    let named = |path: PathBuf| {
        let name = path.strip_prefix(&src).unwrap().to_str().unwrap().to_owned();
        (name, fs::read_to_string(path).unwrap())
    };
    files(&src, "rs").into_iter().map(named).collect()
}

fn stage(file: &str) -> usize {
    let first = file.split(['/', '.']).next().unwrap();
    STAGES.iter().position(|stage| *stage == first).unwrap_or_else(|| panic!("{file} has no stage"))
}

#[test]
fn imports_run_downward_only() {
    for (file, text) in sources() {
        for (at, _) in text.match_indices("crate::") {
            let is_comment = text[..at].rsplit('\n').next().unwrap().trim_start().starts_with("//");
            let rest = &text[at + "crate::".len()..];
            let names: Vec<&str> = match rest.strip_prefix('{') {
                Some(list) => list.split('}').next().unwrap().split(',').collect(),
                None => vec![rest],
            };
            for name in names {
                let word = |c: char| !(c.is_alphanumeric() || c == '_');
                let target = name.trim().split(word).next().unwrap();
                if is_comment || target.is_empty() {
                    continue;
                }
                assert!(stage(target) <= stage(&file), "{file} imports upward from `{target}`");
            }
        }
    }
}

#[test]
fn no_file_is_longer_than_400_lines_and_the_median_is_below_150() {
    let mut lengths: Vec<usize> = Vec::new();
    for (file, text) in sources() {
        let lines = text.lines().count();
        assert!(lines <= 400, "{file} has {lines} lines");
        lengths.push(lines);
    }
    lengths.sort_unstable();
    assert!(lengths[lengths.len() / 2] < 150, "median {}", lengths[lengths.len() / 2]);
}

#[test]
fn every_file_says_what_it_is_for() {
    for (file, text) in sources() {
        assert!(text.starts_with("//! "), "{file} has no head");
    }
    for path in files(&root().join("tests"), "rs") {
        assert!(fs::read_to_string(&path).unwrap().starts_with("//! "), "{path:?} has no head");
    }
}

#[test]
fn only_the_ends_and_the_archive_touch_the_disk_and_nothing_below_reads_the_clock() {
    let disk = ["intake.rs", "handover.rs"];
    for (file, text) in sources() {
        let is_end = ["archive/", "intake/"].iter().any(|end| file.starts_with(end));
        if !disk.contains(&file.as_str()) && !is_end {
            for word in ["std::fs", "fs::read", "fs::write", "File::open"] {
                assert!(!text.contains(word), "{file} touches the disk: {word}");
            }
        }
        // Only what is typed reads a clock: the time of a seal, and what is due today.
        for word in ["SystemTime", "Instant::now", "Utc::now", "Local::now"] {
            let is_free = file != "archiving.rs" && text.contains(word);
            assert!(!is_free, "{file} reads the clock: {word}");
        }
        for word in ["use super::*", "prelude::*", "println!(", "todo!(", "unimplemented!("] {
            assert!(!text.contains(word), "{file} holds {word}");
        }
    }
}

#[test]
fn no_module_or_fixture_is_forgotten() {
    let main = fs::read_to_string(root().join("tests/main.rs")).unwrap();
    for path in files(&root().join("tests"), "rs") {
        let name = path.file_stem().unwrap().to_str().unwrap();
        let is_module = path.parent().unwrap().ends_with("tests") && name != "main";
        assert!(!is_module || main.contains(&format!("mod {name};")), "tests/{name}.rs is not run");
    }
}

#[test]
fn every_code_of_a_message_is_used_by_one_stage_alone() {
    let mut owners: BTreeMap<String, String> = BTreeMap::new();
    for (file, text) in sources()
        .into_iter()
        .filter(|(file, _)| file.ends_with("problems.rs") || file.contains("/problems/"))
    {
        for part in text.split('"').skip(1).step_by(2) {
            let is_code = part.split_once('/').is_some_and(|(stage, what)| {
                [stage, what]
                    .iter()
                    .all(|word| word.chars().all(|c| c.is_ascii_lowercase() || c == '-'))
            });
            if is_code {
                let owner = owners.entry(part.to_owned()).or_insert_with(|| file.clone());
                let same_photo = part.starts_with("photo/") || part.starts_with("sheet/");
                assert!(*owner == file || same_photo, "{part} is worded in {owner} and {file}");
            }
        }
    }
}
