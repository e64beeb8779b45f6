//! Takes one file out of a job's sealed bags for a reason that the register keeps; its digest stays.
//!
//! Job, file, reason -> what went. The bag's lists, and so its seal and signature, stay as they are: the
//! register says why a listed file is not there. The line is written before anything is removed; a kill
//! between the two leaves a file that the next `redact` takes out.
//! Not here: what papers show of the file.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

use chrono::{DateTime, Utc};

use super::bag::versions::Versions;
use super::bag::{names, self_check};
use super::layout::{COPIES, DATA, ORIGINALS};
use super::register::entry::{Entry, Event};
use super::register::write::{NewEntry, RegisterWriter};
use super::{durable, erase};
use crate::failure::Failure;

/// What went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Redacted {
    /// Path of the file below the archive.
    pub file: String,
    /// True if the bag's tar, which held the file too, went with it.
    pub has_tar: bool,
}

/// Takes a file out of every version of a job that holds it, or out of one; `file` is its name in the
/// job folder, or its path below the bag's `data/`.
///
/// # Errors
/// The reason is none, no such file is listed in a bag that is there, or the disk refuses.
pub fn redact(
    job: &str,
    file: &str,
    version: Option<u32>,
    because: &str,
    archive: &Path,
    at: DateTime<Utc>,
) -> Result<Vec<Redacted>, Failure> {
    let action = format!("take `{}` out of the job `{}`", file.escape_debug(), job.escape_debug());
    names::check_job(job)?;
    let because = erase::reason(&action, because)?;
    if !archive.is_dir() {
        return Err(Failure::on(action, archive, "there is no such archive"));
    }
    let mut writer = RegisterWriter::open(archive)?;
    let versions = Versions { archive, job };
    let wanted: Vec<Entry> = writer
        .register()
        .sealed(job)
        .filter(|entry| version.is_none_or(|version| version == entry.version))
        .cloned()
        .collect();
    let mut gone = Vec::new();
    for entry in wanted {
        let bag = versions.bag(entry.version);
        let Some(listed) = self_check::listed(&bag) else { continue };
        let places = [ORIGINALS, COPIES, DATA].map(|folder| format!("{folder}{file}"));
        let Some((path, sha256)) = places.iter().find_map(|path| listed.get_key_value(path)) else {
            continue;
        };
        let below = format!("{}/{path}", entry.bag);
        let is_said = writer
            .register()
            .entries
            .iter()
            .any(|one| one.event == Event::Redacted && one.bag == below);
        if !is_said {
            writer.add(&NewEntry {
                event: Event::Redacted,
                job,
                version: entry.version,
                bag: below.clone(),
                sha256: sha256.clone(),
                time: at,
                keep_until: None,
                because: Some(&because),
            })?;
        }
        let is_gone = remove(&bag.join(path))?;
        let has_tar = remove(&versions.tar(entry.version))?;
        if let Some(above) = bag.join(path).parent() {
            durable::sync_folder(above)?;
        }
        durable::sync_folder(&versions.folder())?;
        if is_gone || has_tar || !is_said {
            gone.push(Redacted { file: below, has_tar });
        }
    }
    if gone.is_empty() {
        return Err(Failure::on(action, archive, "no bag of that job that is there holds it")
            .hint(
                "give the name of the file in the job folder; a bag kept as tar alone has to be \
                   unpacked first",
            ));
    }
    Ok(gone)
}

/// True if there was something to remove.
fn remove(path: &Path) -> Result<bool, Failure> {
    match fs::remove_file(path) {
        Ok(()) => Ok(true),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(refused(path, &error)),
    }
}

fn refused(path: &Path, error: &io::Error) -> Failure {
    durable::failed("take out", path, error)
        .hint("the register says that it was taken out; `redact` it again")
}
