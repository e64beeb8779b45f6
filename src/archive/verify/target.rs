//! What a path is: an archive, a bag, a tar or a PDF.
//!
//! A bag that lacks its declaration and an archive that lacks its register are still told for what
//! they are, so that taking that one file away hides nothing.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs;
use std::io::Read;
use std::path::Path;

use super::{bag, folder, job_folder};
use crate::archive::register::{LOCK, REGISTER};
use crate::failure::Failure;

/// Kinds of what can be verified.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// A folder with a register and job folders.
    Archive,
    /// A bag's folder.
    Bag,
    /// A bag as tar.
    Tar,
    /// A PDF.
    Paper,
}

/// Tells what a path is.
///
/// # Errors
/// It is not there or cannot be read, or it is nothing that can be verified.
pub(super) fn kind(path: &Path) -> Result<Kind, Failure> {
    let state = fs::metadata(path).map_err(|error| Failure::on("verify", path, error))?;
    if state.is_dir() {
        return kind_of_folder(path);
    }
    let ending = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
    match ending.as_str() {
        _ if !state.is_file() => {}
        "pdf" => return Ok(Kind::Paper),
        "tar" => return Ok(Kind::Tar),
        _ => return kind_of_file(path),
    }
    Err(nothing(path))
}

fn kind_of_folder(path: &Path) -> Result<Kind, Failure> {
    let has = |name: &str| path.join(name).symlink_metadata().is_ok();
    if has(REGISTER) || has(LOCK) {
        return Ok(Kind::Archive);
    }
    let entries = fs::read_dir(path).map_err(|error| Failure::on("look into", path, error))?;
    let mut has_jobs = false;
    for entry in entries {
        let entry = entry.map_err(|error| Failure::on("look into", path, error))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if bag::is_sign(&name) {
            return Ok(Kind::Bag);
        }
        has_jobs |= job_folder::holds_bags(&entry.path(), &name);
    }
    if has_jobs { Ok(Kind::Archive) } else { Err(nothing(path)) }
}

fn kind_of_file(path: &Path) -> Result<Kind, Failure> {
    let failed = |error| Failure::on("verify", path, error);
    let mut start = Vec::new();
    let file = folder::open(&path.canonicalize().map_err(failed)?).map_err(failed)?;
    file.take(1024).read_to_end(&mut start).map_err(failed)?;
    if start.windows(5).any(|part| part == b"%PDF-") {
        return Ok(Kind::Paper);
    }
    if start.get(257..262).is_some_and(|magic| magic == b"ustar") {
        return Ok(Kind::Tar);
    }
    Err(nothing(path))
}

fn nothing(path: &Path) -> Failure {
    Failure::on("verify", path, "it is no bag, no tar of one, no archive and no PDF")
}
