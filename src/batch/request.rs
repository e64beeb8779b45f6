//! What a run is to do, and the digest by which an unchanged job is known.

use std::fmt::Write;
use std::path::PathBuf;

use super::shard::Shard;
use crate::digest::Digest;
use crate::document::papers::PHOTO_SHEET;
use crate::intake::JobFolder;
use crate::job::Wanted;
use crate::marking;
use crate::sealing::SealOptions;
use crate::workshop::Workshop;

/// What a run is to do.
#[derive(Debug)]
pub struct Request {
    /// The folders whose jobs are meant.
    pub folders: Vec<PathBuf>,
    /// Jobs from a list: one that is none is told and costs no other.
    pub listed: Vec<PathBuf>,
    /// The share of the jobs that is meant, if it is not all of them.
    pub shard: Option<Shard>,
    /// Where the papers go; none for checks and for contact sheets.
    pub out: Option<PathBuf>,
    /// Which papers.
    pub wanted: Wanted,
    /// Number of workers, at least 1.
    pub workers: usize,
    /// True to make papers again that have not changed.
    pub force: bool,
    /// How the jobs are to be sealed, if they are.
    pub options: Option<SealOptions>,
    /// The archive to look for earlier jobs in; the profile's own if none is given.
    pub archive: Option<PathBuf>,
}

impl Request {
    /// An order that writes nothing, seals nothing and does everything again.
    pub fn new(folders: Vec<PathBuf>, wanted: Wanted, workers: usize) -> Self {
        Self {
            folders,
            listed: Vec::new(),
            shard: None,
            out: None,
            wanted,
            workers,
            force: true,
            options: None,
            archive: None,
        }
    }
}

/// Digest over the state of everything that a job's papers are made from, and over which are wanted.
///
/// Sheet, profile, price list and templates count by content, photos by name, length and time of
/// change, so that a second run does not read gigabytes. `--force` makes papers whatever their state.
pub fn inputs_digest(folder: &JobFolder, workshop: &Workshop, wanted: &Wanted) -> String {
    let mut state = String::from(env!("CARGO_PKG_VERSION"));
    for text in [&folder.sheet, &workshop.bytes, &workshop.prices] {
        let _ = write!(state, "\n{}", Digest::of(text));
    }
    let _ = write!(state, "\n{}", workshop.press.templates().digest());
    let logo = workshop.logo.iter().map(|(name, bytes)| format!("{name} {}", Digest::of(bytes)));
    for file in logo {
        let _ = write!(state, "\n{file}");
    }
    let _ = write!(state, "\n{}", folder.earlier.state(&folder.sheet));
    if let Wanted::Papers(asked) = wanted {
        let _ = write!(state, "\n{}", asked.word());
    }
    let made_here = [PHOTO_SHEET.file_name(), marking::FILE_NAME.to_owned()];
    for file in folder.files.iter().filter(|file| !made_here.contains(&file.name)) {
        let _ = write!(state, "\n{} {} {}", file.name, file.bytes, file.changed);
    }
    Digest::of(state.as_bytes()).hex()
}
