//! Takes sealed bags of a job away for a reason that the register keeps: job, reason -> what went.
//!
//! The line is written before anything is removed, so that nothing is ever missing without one; a
//! kill between the two leaves a bag that the next `erase` of the job takes away.
//! Not here: whether a bag is due (verify).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

use chrono::{DateTime, Utc};

use super::bag::names;
use super::bag::versions::Versions;
use super::durable;
use super::register::entry::{Entry, Event};
use super::register::write::{NewEntry, RegisterWriter};
use crate::failure::Failure;

/// Longest reason in characters.
const MAX_REASON: usize = 200;

/// Erases the bags of a job, or the one of a version; gives their paths below the archive.
///
/// # Errors
/// The reason is none, no such bag is there, or the disk refuses.
pub fn erase(
    job: &str,
    version: Option<u32>,
    because: &str,
    archive: &Path,
    at: DateTime<Utc>,
) -> Result<Vec<String>, Failure> {
    let action = format!("erase the job `{}`", job.escape_debug());
    names::check_job(job)?;
    let because = reason(&action, because)?;
    if !archive.is_dir() {
        return Err(Failure::on(action, archive, "there is no such archive"));
    }
    let mut writer = RegisterWriter::open(archive)?;
    let versions = Versions { archive, job };
    let wanted: Vec<Entry> = writer
        .register()
        .sealed(job)
        .filter(|entry| version.is_none_or(|version| version == entry.version))
        .filter(|entry| is_there(versions, entry.version))
        .cloned()
        .collect();
    if wanted.is_empty() {
        return Err(Failure::on(action, archive, "no such bag is registered and there")
            .hint("`splitcase verify DIR` lists what is there"));
    }
    let erased = writer.register().entries.iter().filter(|one| one.event == Event::Erased);
    let erased: BTreeSet<String> = erased.map(|one| one.bag.clone()).collect();
    let mut gone = Vec::new();
    for entry in wanted {
        if !erased.contains(&entry.bag) {
            writer.add(&NewEntry {
                event: Event::Erased,
                job,
                version: entry.version,
                bag: entry.bag.clone(),
                sha256: entry.sha256.clone(),
                time: at,
                keep_until: entry.keep_until.as_deref().and_then(|day| day.parse().ok()),
                because: Some(&because),
            })?;
        }
        remove(versions, entry.version)?;
        gone.push(entry.bag);
    }
    // Goes only if nothing else is in it.
    let _ = fs::remove_dir(versions.folder());
    Ok(gone)
}

/// A reason as the register keeps it, in one line.
///
/// # Errors
/// It is empty, too long, or holds signs that steer a terminal.
pub(super) fn reason(action: &str, because: &str) -> Result<String, Failure> {
    let because = because.split_whitespace().collect::<Vec<_>>().join(" ");
    let is_reason = (1..=MAX_REASON).contains(&because.chars().count())
        && !because.contains(|c: char| c.is_control());
    if is_reason {
        return Ok(because);
    }
    let cause = format!("the reason has to be 1 to {MAX_REASON} plain characters");
    Err(Failure::new(action, cause).hint("the register keeps it: name nobody in it"))
}

fn is_there(versions: Versions<'_>, version: u32) -> bool {
    let paths = [versions.bag(version), versions.tar(version), versions.stamp(version)];
    paths.iter().any(|path| path.symlink_metadata().is_ok())
}

fn remove(versions: Versions<'_>, version: u32) -> Result<(), Failure> {
    let files =
        [versions.tar(version), versions.stamp(version)].map(|path| (fs::remove_file(&path), path));
    let bag = versions.bag(version);
    for (done, path) in files.into_iter().chain([(fs::remove_dir_all(&bag), bag)]) {
        done.or_else(|error: io::Error| match error.kind() {
            ErrorKind::NotFound => Ok(()),
            _ => Err(durable::failed("erase", &path, &error)
                .hint("the register says that it was erased; erase it again")),
        })?;
    }
    durable::sync_folder(&versions.folder())
}
