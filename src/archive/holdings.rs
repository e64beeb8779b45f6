//! Which originals an archive holds: register and manifests -> job, file name and digest of each.
//!
//! Manifests are believed here; whether a bag is whole is asked by `verify`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::bag::{names, self_check};
use super::layout::ORIGINALS;
use super::register::entry::Event;
use super::register::read;
use crate::digest::Digest;
use crate::failure::Failure;

/// One original of a sealed job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holding {
    /// Number of the job.
    pub job: String,
    /// Name of the file in the job folder.
    pub name: String,
    /// Its digest.
    pub sha256: Digest,
    /// The bag.
    pub bag: PathBuf,
}

impl Holding {
    /// Where the file is.
    pub fn path(&self) -> PathBuf {
        self.bag.join(format!("{ORIGINALS}{}", self.name))
    }
}

/// The originals of every registered bag, none if there is no archive yet; a bag that cannot be read is passed over.
///
/// # Errors
/// The register cannot be read.
pub fn holdings(archive: &Path) -> Result<Vec<Holding>, Failure> {
    if !archive.is_dir() {
        return Ok(Vec::new());
    }
    let register = read::register(archive)?;
    let sealed = register.entries.iter().filter(|entry| entry.event == Event::Sealed);
    let mut all = Vec::new();
    for entry in sealed {
        let Some(text) = self_check::manifest(&archive.join(&entry.bag)) else { continue };
        let lines = text.lines().filter_map(|line| line.split_once("  "));
        all.extend(lines.filter_map(|(sha256, path)| {
            let name = path.strip_prefix(ORIGINALS)?.to_owned();
            let (job, bag) = (entry.job.clone(), archive.join(&entry.bag));
            Some(Holding { job, name: names::decode(&name), sha256: Digest::parse(sha256)?, bag })
        }));
    }
    Ok(all)
}

/// The newest registered bag of every job, by the job's number; nothing if the archive cannot be
/// read.
pub fn newest_bags(archive: &Path) -> Vec<(String, PathBuf)> {
    let Ok(register) = read::register(archive) else { return Vec::new() };
    let mut newest: BTreeMap<String, (u32, PathBuf)> = BTreeMap::new();
    for entry in register.entries.iter().filter(|entry| entry.event == Event::Sealed) {
        let bag = (entry.version, archive.join(&entry.bag));
        let known = newest.entry(entry.job.clone()).or_insert_with(|| bag.clone());
        if known.0 < bag.0 {
            *known = bag;
        }
    }
    newest.into_iter().map(|(job, (_, bag))| (job, bag)).collect()
}
