//! What a path is: an archive, a bag, a tar or a PDF; what is at the top of an archive and in the folder
//! of a job.
//!
//! A bag that lacks its declaration and an archive that lacks its register are still taken for what
//! they are, so that taking that one file away hides nothing.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Read;
use std::path::Path;

use super::judgement::Judgement;
use super::{source, words};
use crate::archive::bag::{manifest, names};
use crate::archive::layout::{self, LOCK, Part, REGISTER};
use crate::archive::problems;
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

/// Says what a path is.
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
        if manifest::is_sign_of_bag(&name) {
            return Ok(Kind::Bag);
        }
        has_jobs |= holds_bags(&entry.path(), &name);
    }
    if has_jobs { Ok(Kind::Archive) } else { Err(nothing(path)) }
}

fn kind_of_file(path: &Path) -> Result<Kind, Failure> {
    let failed = |error| Failure::on("verify", path, error);
    let mut start = Vec::new();
    let file = source::open_file(&path.canonicalize().map_err(failed)?).map_err(failed)?;
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
    Failure::on("verify", path, "it is not a bag, the tar of one, an archive or a PDF")
}

/// What is at the top of an archive.
#[derive(Debug, Default)]
pub(super) struct Top {
    /// The folders of jobs, sorted.
    pub jobs: Vec<String>,
    /// Noted heads of the register and what is beside them.
    pub heads: BTreeSet<String>,
}

/// The folders of jobs and the noted heads; everything else at the top is reported. What cannot be
/// looked at goes to `closed`, by its name, or as an empty one for all.
pub(super) fn top(archive: &Path, closed: &mut Vec<String>, found: &mut Judgement) -> Top {
    let mut top = Top::default();
    let entries = match fs::read_dir(archive) {
        Ok(entries) => entries,
        Err(error) => {
            found.could_not.push(Failure::on("look into", archive, error));
            closed.push(String::new());
            return top;
        }
    };
    for (at, entry) in entries.enumerate() {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                found.could_not.push(Failure::on("look into", archive, error));
                closed.push(String::new());
                continue;
            }
        };
        if let Err(failure) = source::bounded(archive, at) {
            found.could_not.push(failure);
            closed.push(String::new());
            break;
        }
        let name = entry.file_name().to_string_lossy().into_owned();
        let kind = match entry.file_type() {
            Ok(kind) => kind,
            Err(error) => {
                found.could_not.push(Failure::on("look at", &entry.path(), error));
                closed.push(name);
                continue;
            }
        };
        let is_file = kind.is_file();
        match name.as_str() {
            REGISTER | LOCK if is_file => {}
            layout::HOW_TO_CHECK if is_file => {
                match source::read_file(&archive.join(&name), 1 << 16) {
                    Ok(bytes) if bytes == layout::HOW_TO_CHECK_ARCHIVE.as_bytes() => {}
                    Ok(_) => found.flaws.push(problems::page(&name)),
                    Err(failure) => found.could_not.push(failure),
                }
            }
            _ if is_file && layout::is_torn_line(&name) => {
                found.not_shown.push(words::torn_aside(&name));
            }
            _ if kind.is_dir() && names::check_job(&name).is_ok() => {
                top.jobs.push(name);
            }
            _ if is_file && layout::head_line(&name).is_some() => {
                top.heads.insert(name);
            }
            _ => found.flaws.push(problems::foreign(&name)),
        }
    }
    top.jobs.sort();
    top
}

/// The entries of a job's folder by name.
///
/// # Errors
/// It cannot be read, or has too many entries.
pub(super) fn parts(folder: &Path, job: &str) -> Result<BTreeMap<String, Part>, Failure> {
    let failed = |error| Failure::on("look into", folder, error);
    let mut parts = BTreeMap::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        source::bounded(folder, parts.len())?;
        let kind = entry.file_type().map_err(failed)?;
        let name = entry.file_name();
        let shown = name.to_string_lossy().into_owned();
        let part = match name.to_str().map(|name| Part::of(name, job)) {
            Some(Part::Bag(version)) if kind.is_dir() => Part::Bag(version),
            Some(Part::Staging) if kind.is_dir() => Part::Staging,
            Some(part @ (Part::Tar(_) | Part::Stamp(_))) if kind.is_file() => part,
            _ => Part::Foreign,
        };
        parts.insert(shown, part);
    }
    Ok(parts)
}

/// True for the folder of a job that holds a bag.
pub(super) fn holds_bags(folder: &Path, job: &str) -> bool {
    let is_folder = folder.symlink_metadata().is_ok_and(|state| state.is_dir());
    is_folder
        && names::check_job(job).is_ok()
        && parts(folder, job).is_ok_and(|parts| {
            parts.values().any(|part| matches!(part, Part::Bag(_) | Part::Tar(_)))
        })
}
