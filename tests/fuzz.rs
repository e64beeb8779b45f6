//! Every reader under trial takes every seed: fixtures, samples, and what a fuzzer once found.
//!
//! `fuzz/run` lets a fuzzer go on from the same seeds.

use std::fs;
use std::path::{Path, PathBuf};

mod targets;

use targets::TARGETS;

const SEEDS: &str = include_str!("fuzz/seeds.txt");

/// Files below a folder whose names end so.
fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    walkdir::WalkDir::new(folder)
        .sort_by_file_name()
        .into_iter()
        .map(|entry| entry.unwrap().into_path())
        .filter(|path| path.is_file() && path.to_string_lossy().ends_with(ending))
        .collect()
}

/// Target, folder and ending of each line of the list.
fn lines() -> impl Iterator<Item = [&'static str; 3]> {
    let lines = SEEDS.lines().map(|line| line.split('#').next().unwrap());
    let words = lines.map(|line| line.split_whitespace().collect::<Vec<_>>());
    words.filter(|words| !words.is_empty()).map(|words| words.try_into().unwrap())
}

#[test]
fn every_reader_takes_every_seed() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for [name, folder, ending] in lines() {
        let (_, target) = TARGETS.iter().find(|(own, _)| *own == name).unwrap();
        let files = files(&root.join(folder), ending);
        assert!(!files.is_empty(), "no seed of {name} in {folder}");
        for file in files {
            let bytes = fs::read(&file).unwrap();
            let taken = std::panic::catch_unwind(|| target(&bytes));
            assert!(taken.is_ok(), "{name} does not take {}", file.display());
        }
    }
}

#[test]
fn every_reader_has_seeds_and_a_program_for_the_fuzzer() {
    let manifest = include_str!("fuzz/Cargo.toml");
    for (name, _) in TARGETS {
        assert!(lines().any(|[own, ..]| own == *name), "{name} has no seeds");
        assert!(manifest.contains(&format!("path = \"bins/{name}.rs\"")), "{name} has no program");
    }
}
