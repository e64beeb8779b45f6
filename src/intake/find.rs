//! Finds job folders below a folder: none is passed over in silence.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use walkdir::WalkDir;

use super::asked;
use super::{SHEET, is_open, real_path};
use crate::failure::Failure;

/// Job folders below a folder, sorted; the folder itself may be one, and a sheet stands for its own.
///
/// # Errors
/// The folder cannot be read at all. What cannot be read inside, and links to jobs that are not among
/// those found, are returned as failures: no job is passed over in silence.
pub fn find_jobs(below: &Path) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    let below = &asked::folder(below)?;
    fs::read_dir(below).map_err(|error| Failure::on("read the folder", below, error))?;
    let (mut jobs, mut failures, mut links) = (Vec::new(), Vec::new(), Vec::new());
    for entry in WalkDir::new(below)
        .follow_links(false)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(is_open)
    {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                let path = error.path().unwrap_or(below).to_owned();
                failures.push(Failure::on("read the folder", &path, error));
                continue;
            }
        };
        let (kind, path) = (entry.file_type(), entry.path());
        let is_sheet = entry.file_name() == SHEET;
        if kind.is_symlink() && entry.depth() != 0 {
            let leads_to_job = is_sheet || path.join(SHEET).is_file();
            links.extend(leads_to_job.then(|| path.to_owned()));
        } else if is_sheet && kind.is_file() {
            jobs.extend(path.parent().map(Path::to_owned));
        } else if is_sheet {
            failures.push(Failure::on("read the sheet", path, "it is not a plain file"));
        }
    }
    let found: Vec<PathBuf> = jobs.iter().map(|job| real_path(job)).collect();
    for link in links {
        let target = if link.ends_with(SHEET) {
            link.canonicalize()
        } else {
            link.join(SHEET).canonicalize()
        };
        let is_found = target.as_ref().is_ok_and(|sheet| {
            sheet.file_name().is_some_and(|name| name == SHEET)
                && sheet.parent().is_some_and(|folder| found.iter().any(|job| job == folder))
        });
        if !is_found {
            let failure = Failure::on(
                "work on the job behind",
                &link,
                "it is a link, and links are not followed",
            );
            failures.push(
                failure.hint("give the folder that it leads to, or put the job itself there"),
            );
        }
    }
    Ok((jobs, failures))
}

/// Keeps each folder once: one may be spelt in several ways.
pub fn keep_each_once(folders: &mut Vec<PathBuf>) {
    let mut known = BTreeSet::new();
    folders.retain(|folder| known.insert(real_path(folder)));
}
