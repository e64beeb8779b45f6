//! The folder of one job in an archive: its entries -> what each of them is.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use super::holder;
use crate::archive::making::PREFIX;
use crate::archive::names;
use crate::failure::Failure;

/// What lies in the folder of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// A bag's folder, of this version.
    Bag(u32),
    /// A bag as tar.
    Tar(u32),
    /// The reply of a time-stamp authority.
    Stamp(u32),
    /// The place in which a bag is being made, or was.
    Making,
    /// Anything else.
    Foreign,
}

impl Part {
    /// The version that it belongs to, where it belongs to one.
    pub(super) fn version(self) -> Option<u32> {
        match self {
            Self::Bag(version) | Self::Tar(version) | Self::Stamp(version) => Some(version),
            Self::Making | Self::Foreign => None,
        }
    }
}

/// The entries of a job's folder by name.
///
/// # Errors
/// It cannot be read, or has too many entries.
pub(super) fn list(folder: &Path, job: &str) -> Result<BTreeMap<String, Part>, Failure> {
    let failed = |error| Failure::on("look into", folder, error);
    let mut parts = BTreeMap::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        holder::bounded(folder, parts.len())?;
        let kind = entry.file_type().map_err(failed)?;
        let name = entry.file_name();
        let shown = name.to_string_lossy().into_owned();
        let part = match name.to_str().map(|name| part(name, job)) {
            Some(Part::Bag(version)) if kind.is_dir() => Part::Bag(version),
            Some(Part::Making) if kind.is_dir() => Part::Making,
            Some(part @ (Part::Tar(_) | Part::Stamp(_))) if kind.is_file() => part,
            _ => Part::Foreign,
        };
        parts.insert(shown, part);
    }
    Ok(parts)
}

fn part(name: &str, job: &str) -> Part {
    if name.starts_with(PREFIX) {
        return Part::Making;
    }
    let version = |rest: &str| {
        let is_plain = !rest.starts_with(['0', '+']);
        rest.parse::<u32>().ok().filter(|_| is_plain)
    };
    let Some(rest) = name.strip_prefix(job).and_then(|rest| rest.strip_prefix("-v")) else {
        return Part::Foreign;
    };
    let (number, ending) = rest.split_once('.').map_or((rest, None), |(one, two)| (one, Some(two)));
    match (version(number), ending) {
        (Some(version), None) => Part::Bag(version),
        (Some(version), Some("tar")) => Part::Tar(version),
        (Some(version), Some("tsr")) => Part::Stamp(version),
        _ => Part::Foreign,
    }
}

/// True for the folder of a job that holds a bag.
pub(super) fn holds_bags(folder: &Path, job: &str) -> bool {
    let is_folder = folder.symlink_metadata().is_ok_and(|state| state.is_dir());
    is_folder
        && names::check_job(job).is_ok()
        && list(folder, job).is_ok_and(|parts| {
            parts.values().any(|part| matches!(part, Part::Bag(_) | Part::Tar(_)))
        })
}
