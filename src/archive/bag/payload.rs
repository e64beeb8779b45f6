//! The payload of a bag: files of a job folder and files in memory -> `data/`, hashed while copied.
//!
//! Every original is opened once, for reading, and read once. Not here: manifests (write).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::{Duration, UNIX_EPOCH};

use crate::archive::request::{InMemory, Original};
use crate::archive::{durable, layout};
use crate::digest::{self, Passed};
use crate::failure::Failure;

/// A file that is in a bag.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Held {
    /// Path below the bag, with `/`.
    pub path: String,
    /// Its length.
    pub bytes: u64,
    /// Its SHA-256, 64 hexadecimal digits.
    pub sha256: String,
}

/// Copies an original into a bag.
///
/// # Errors
/// It is not a regular file, leads out of the job folder, changes while it is read or differs from
/// what the caller expects; or the disk refuses.
pub fn copy_original(folder: &Path, original: &Original, bag: &Path) -> Result<Held, Failure> {
    let shown = folder.join(&original.name);
    let mut file = open(folder, &shown)?;
    let before = state(&file, &shown)?;
    let held = write(bag, layout::original(&original.name), |target, copy| {
        let read = |error| Failure::on("read", &shown, error);
        digest::pass(&mut file, read, |piece| {
            copy.write_all(piece).map_err(|error| durable::failed("write", target, &error))
        })
    })?;
    let is_same = state(&file, &shown)? == before
        && held.bytes == before.0
        && original.expected.is_none_or(|expected| expected.hex() == held.sha256);
    if is_same {
        return Ok(held);
    }
    Err(Failure::on("seal", &shown, "the file changed while it was being sealed")
        .hint("seal the job again when nothing writes to its folder"))
}

/// Writes a file that is held in memory into a bag.
///
/// # Errors
/// The disk refuses.
pub fn write_in_memory(file: &InMemory, bag: &Path) -> Result<Held, Failure> {
    write(bag, file.path.clone(), |target, copy| {
        let failed = |error| durable::failed("write", target, &error);
        digest::pass(file.bytes.as_slice(), failed, |piece| copy.write_all(piece).map_err(failed))
    })
}

/// Opens a regular file of the job folder. The kind is asked before, as opening a pipe would wait
/// for its other end, and again on what was opened.
fn open(folder: &Path, shown: &Path) -> Result<File, Failure> {
    let failed = |error| Failure::on("read", shown, error);
    let irregular = || Failure::on("seal", shown, "it is not a regular file");
    let root = folder.canonicalize().map_err(|error| Failure::on("read", folder, error))?;
    let path = shown.canonicalize().map_err(failed)?;
    if !path.starts_with(&root) {
        return Err(Failure::on("seal", shown, "it leads out of the job folder"));
    }
    if !fs::symlink_metadata(&path).map_err(failed)?.is_file() {
        return Err(irregular());
    }
    let file = File::open(&path).map_err(failed)?;
    if file.metadata().map_err(failed)?.is_file() { Ok(file) } else { Err(irregular()) }
}

/// Length and last change of an open file.
fn state(file: &File, shown: &Path) -> Result<(u64, Option<Duration>), Failure> {
    let state = file.metadata().map_err(|error| Failure::on("look at", shown, error))?;
    let changed = state.modified().ok().and_then(|time| time.duration_since(UNIX_EPOCH).ok());
    Ok((state.len(), changed))
}

/// Makes a new file of a bag and lets it be filled; it is not yet brought down to the disk.
fn write(
    bag: &Path,
    path: String,
    fill: impl FnOnce(&Path, &mut File) -> Result<Passed, Failure>,
) -> Result<Held, Failure> {
    let target: PathBuf = bag.join(&path);
    if let Some(above) = target.parent() {
        fs::create_dir_all(above)
            .map_err(|error| durable::failed("make the folder", above, &error))?;
    }
    let failed = |error| durable::failed("write", &target, &error);
    let mut copy = File::create_new(&target).map_err(failed)?;
    let Passed { bytes, sha256 } = fill(&target, &mut copy)?;
    Ok(Held { path, bytes, sha256 })
}
