//! The top of an archive: its folder -> the folders of jobs, and what else lies there.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs;
use std::path::Path;

use super::{Judgement, folder, holder, problems, statement};
use crate::archive::register::{LOCK, REGISTER};
use crate::archive::{how_to_check, names};
use crate::failure::Failure;

/// The folders of jobs; everything else at the top is told of. What cannot be looked at goes to
/// `closed`, by its name, or as an empty one for all.
pub(super) fn jobs(archive: &Path, closed: &mut Vec<String>, found: &mut Judgement) -> Vec<String> {
    let mut jobs = Vec::new();
    let entries = match fs::read_dir(archive) {
        Ok(entries) => entries,
        Err(error) => {
            found.could_not.push(Failure::on("look into", archive, error));
            closed.push(String::new());
            return jobs;
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
        if let Err(failure) = holder::bounded(archive, at) {
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
            how_to_check::NAME if is_file => match folder::read(&archive.join(&name), 1 << 16) {
                Ok(bytes) if bytes == how_to_check::ARCHIVE.as_bytes() => {}
                Ok(_) => found.flaws.push(problems::page(&name)),
                Err(failure) => found.could_not.push(failure),
            },
            _ if is_file && is_torn_line(&name) => {
                found.not_shown.push(statement::torn_aside(&name));
            }
            _ if kind.is_dir() && names::check_job(&name).is_ok() => {
                jobs.push(name);
            }
            _ => found.flaws.push(problems::foreign(&name)),
        }
    }
    jobs.sort();
    jobs
}

/// The name under which the bytes of a torn line are put aside.
fn is_torn_line(name: &str) -> bool {
    let number = name.strip_prefix("register.torn-").and_then(|rest| rest.strip_suffix(".txt"));
    number.is_some_and(|number| number.bytes().all(|byte| byte.is_ascii_digit()))
}
