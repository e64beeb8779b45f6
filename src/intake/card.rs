//! Photos below any folder: the card of a camera, a telephone on its cable, a job folder.
//!
//! In: a folder or one file; out: its files with their state, each asked for its kind by its first
//! bytes, and none opened for writing. Not here: reading a photo whole.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::path::{Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use super::{file, real_path};
use crate::failure::Failure;
use crate::photo::{self, Kind};

/// How deep photos may be below the folder.
const DEPTH: usize = 12;

/// Most files that are looked at: more than a card holds.
const MOST: usize = 50_000;

/// A file of a card.
#[derive(Clone, Debug)]
pub struct CardFile {
    /// Where it is.
    pub path: PathBuf,
    /// Its path below the folder, as messages show it.
    pub name: String,
    /// Length in bytes.
    pub bytes: u64,
    /// Last change, in nanoseconds since 1970.
    pub changed: u128,
    /// What its content is.
    pub kind: Kind,
}

/// What is on a card.
#[derive(Debug, Default)]
pub struct Card {
    /// Its files, in the order of their paths.
    pub files: Vec<CardFile>,
    /// What could not be read.
    pub failures: Vec<Failure>,
}

/// Looks at every file below a folder, or at one file. Links are not followed, and what begins with a
/// point is left alone, as is everything below `without`.
///
/// # Errors
/// There is nothing there, it cannot be read at all, or it holds more files than any card.
pub fn look(from: &Path, without: Option<&Path>) -> Result<Card, Failure> {
    std::fs::metadata(from).map_err(|error| {
        Failure::on("find photos in", from, error)
            .hint("is the card mounted, the cable plugged in?")
    })?;
    let is_open = |entry: &DirEntry| {
        let is_hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
        let is_without = |other: &Path| {
            entry.file_type().is_dir() && real_path(entry.path()) == real_path(other)
        };
        entry.depth() == 0 || !(is_hidden || without.is_some_and(is_without))
    };
    let mut card = Card::default();
    let walk = WalkDir::new(from).max_depth(DEPTH).sort_by_file_name();
    for entry in walk.into_iter().filter_entry(is_open) {
        match entry {
            Err(error) => {
                let path = error.path().unwrap_or(from).to_owned();
                card.failures.push(Failure::on("read the folder", &path, error));
            }
            Ok(entry) if entry.file_type().is_file() => match looked_at(from, &entry) {
                Ok(file) => card.files.push(file),
                Err(failure) => card.failures.push(failure),
            },
            Ok(_) => {}
        }
        if MOST < card.files.len() + card.failures.len() {
            let cause = format!("there are more than {MOST} files below it");
            return Err(Failure::on("find photos in", from, cause)
                .hint("give the folder of the photos, such as `DCIM`"));
        }
    }
    Ok(card)
}

fn looked_at(from: &Path, entry: &DirEntry) -> Result<CardFile, Failure> {
    let path = entry.path().to_owned();
    let start = file::read_bounded(&path, "read", 511)?;
    let (bytes, changed) = file::state_of(&path)
        .ok_or_else(|| Failure::on("look at", &path, "its length or time cannot be read"))?;
    let below = path.strip_prefix(from).ok().filter(|below| !below.as_os_str().is_empty());
    let name = below.unwrap_or(Path::new(entry.file_name())).display().to_string();
    Ok(CardFile { name, bytes, changed, kind: photo::kind_of(&start), path })
}
