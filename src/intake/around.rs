//! The folder tree of a workshop: its folder -> the sheets below it, without reading one.
//!
//! Bounded, since a profile may be at the top of a disk. Not here: the jobs of a run, none of which may
//! be passed over ([`super::find`]).

use std::path::{Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use super::{SHEET, is_sealed};

/// How deep jobs may be below their workshop.
const DEPTH: usize = 8;

/// Most files and folders that are passed.
const MOST: usize = 400_000;

/// The job folders of a workshop.
#[derive(Debug, Default)]
pub struct Around {
    /// The folders, sorted.
    pub jobs: Vec<PathBuf>,
    /// True if there was more than is looked at.
    pub is_cut: bool,
}

/// The names of the folders in a folder; none if it cannot be read.
pub fn folder_names(folder: &Path) -> Vec<String> {
    let entries = WalkDir::new(folder).min_depth(1).max_depth(1).into_iter().flatten();
    let folders = entries.filter(|entry| entry.file_type().is_dir());
    folders.filter_map(|entry| entry.file_name().to_str().map(str::to_owned)).collect()
}

/// Looks for job folders; what cannot be read is passed over, as nobody asked for it.
pub fn around(workshop: &Path) -> Around {
    // Only folders are asked whether they are sealed: a question for every photo would cost most.
    let is_open = |entry: &DirEntry| {
        let is_hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
        let is_folder = entry.file_type().is_dir();
        entry.depth() == 0 || !(is_hidden || (is_folder && is_sealed(entry.path())))
    };
    let walk = WalkDir::new(workshop).follow_links(false).max_depth(DEPTH).sort_by_file_name();
    let mut around = Around::default();
    for (n, entry) in walk.into_iter().filter_entry(is_open).enumerate() {
        if n == MOST {
            around.is_cut = true;
            break;
        }
        if let Ok(entry) = entry
            && entry.file_type().is_file()
            && entry.file_name() == SHEET
        {
            around.jobs.extend(entry.path().parent().map(Path::to_owned));
        }
    }
    around
}
