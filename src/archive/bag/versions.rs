//! The folder of one job in an archive: which versions are there, and putting a new one beside.
//!
//! Nothing that is there is written over or taken away. Not here: making bags (write, staging).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeSet;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};

use super::self_check;
use super::write::Bag;
use crate::archive::register::entry::{Entry, Event};
use crate::archive::register::head::History;
use crate::archive::register::read::Register;
use crate::archive::register::write::{NewEntry, RegisterWriter};
use crate::archive::request::Remark;
use crate::archive::{durable, layout};
use crate::digest::Digest;
use crate::failure::Failure;

/// A job's folder in an archive.
#[derive(Clone, Copy, Debug)]
pub struct Versions<'a> {
    /// The archive.
    pub archive: &'a Path,
    /// Number of the job, checked.
    pub job: &'a str,
}

impl Versions<'_> {
    /// Names of the folders of an archive that may be jobs, sorted.
    ///
    /// # Errors
    /// The archive cannot be read.
    pub fn jobs(archive: &Path) -> Result<BTreeSet<String>, Failure> {
        let failed = |error| Failure::on("read the folder", archive, error);
        let mut jobs = BTreeSet::new();
        for entry in fs::read_dir(archive).map_err(failed)? {
            let entry = entry.map_err(failed)?;
            if entry.file_type().map_err(failed)?.is_dir() {
                jobs.extend(entry.file_name().into_string());
            }
        }
        Ok(jobs)
    }

    /// The job's folder.
    pub fn folder(&self) -> PathBuf {
        self.archive.join(self.job)
    }

    /// Name of a version's bag.
    pub fn name(&self, version: u32) -> String {
        layout::bag_name(self.job, version)
    }

    /// Path of a version's bag below the archive, with `/`.
    pub fn below(&self, version: u32) -> String {
        layout::bag_path(self.job, version)
    }

    /// Path of a version's bag.
    pub fn bag(&self, version: u32) -> PathBuf {
        self.folder().join(self.name(version))
    }

    /// Path of a version's tar.
    pub fn tar(&self, version: u32) -> PathBuf {
        self.folder().join(layout::tar_of(&self.name(version)))
    }

    /// Path of the reply of a time-stamp authority for a version.
    pub fn stamp(&self, version: u32) -> PathBuf {
        self.folder().join(layout::stamp_of(&self.name(version)))
    }

    /// The versions that something stands for: a bag, a tar, a reply.
    fn there(&self) -> Result<BTreeSet<u32>, Failure> {
        let folder = self.folder();
        let failed = |error| Failure::on("read the folder", &folder, error);
        let entries = match fs::read_dir(&folder) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(BTreeSet::new()),
            entries => entries.map_err(failed)?,
        };
        let mut versions = BTreeSet::new();
        for entry in entries {
            let name = entry.map_err(failed)?.file_name();
            let version = name.to_str().and_then(|name| layout::version_in(name, self.job));
            versions.extend(version.map(|(version, _)| version));
        }
        Ok(versions)
    }

    /// The version after all that are there or were ever registered.
    ///
    /// # Errors
    /// The folder cannot be read, or numbers have run out.
    pub fn next_version(&self, register: &Register) -> Result<u32, Failure> {
        let standing = self.there()?.last().copied().unwrap_or(0);
        let registered = register.entries.iter().filter(|entry| entry.job == self.job);
        let newest = registered.map(|entry| entry.version).fold(standing, u32::max);
        newest.checked_add(1).ok_or_else(|| {
            Failure::on("number a bag in", &self.folder(), "its versions have run out of numbers")
        })
    }

    /// Registers the whole bags that no line names, as after a kill between putting and registering.
    ///
    /// # Errors
    /// The folder cannot be read or the register not be added to.
    pub fn register_found(
        &self,
        writer: &mut RegisterWriter,
        time: DateTime<Utc>,
    ) -> Result<Vec<Remark>, Failure> {
        let named: BTreeSet<u32> =
            writer.register().sealed(self.job).map(|entry| entry.version).collect();
        let mut remarks = Vec::new();
        for version in self.there()? {
            if named.contains(&version) || self.bag(version).symlink_metadata().is_err() {
                continue;
            }
            let bag = self.below(version);
            match self_check::check(&self.bag(version)) {
                Ok(found) => {
                    // The killed one may not have come to make its rename last.
                    durable::sync_folder(&self.folder())?;
                    writer.add(&NewEntry {
                        event: Event::Sealed,
                        job: self.job,
                        version,
                        bag: bag.clone(),
                        sha256: found.digest.hex(),
                        time,
                        keep_until: found.keep_until,
                        because: None,
                    })?;
                    remarks.push(Remark::Registered { bag });
                }
                Err(cause) => remarks.push(Remark::NotWhole { bag, cause }),
            }
        }
        Ok(remarks)
    }

    /// The newest line whose bag has this digest and is still whole, and what is to be said of it
    /// and of those that are not.
    pub fn sealed_before(&self, register: &Register, bag: &Bag) -> (Option<Entry>, Vec<Remark>) {
        let mut remarks = Vec::new();
        let newest = register.sealed(self.job).map(|entry| entry.version).max().unwrap_or(0);
        for entry in register.sealed(self.job).rev() {
            // Where the bag is gone, it most likely held the head that its own line follows.
            let history = self_check::history(&self.bag(entry.version)).unwrap_or_else(|| {
                let line = entry.line.saturating_sub(1);
                History { line, digest: entry.previous.clone() }.text().into_bytes()
            });
            let digest = Digest::of(&bag.tag_manifest_with(&history));
            if entry.sha256 != digest.hex() {
                continue;
            }
            let cause = match self_check::check(&self.bag(entry.version)) {
                Ok(found) if found.digest == digest => {
                    if entry.version < newest {
                        return (Some(entry.clone()), vec![Remark::NewerVersion { newest }]);
                    }
                    return (Some(entry.clone()), Vec::new());
                }
                Ok(_) => "it holds something else now".to_owned(),
                Err(_) if register.is_redacted(&entry.bag) => {
                    "a file was taken out of it for a reason; leave that file out of the job's folder"
                        .to_owned()
                }
                Err(cause) => cause,
            };
            remarks.push(Remark::SealedAgain { bag: self.below(entry.version), cause });
        }
        (None, remarks)
    }

    /// Puts a finished bag into its place and registers it; if that fails, it is taken back.
    ///
    /// # Errors
    /// Something is in its place, or the disk refuses.
    pub fn put(
        &self,
        made: &Path,
        writer: &mut RegisterWriter,
        new: &NewEntry<'_>,
    ) -> Result<Entry, Failure> {
        let place = self.bag(new.version);
        if place.symlink_metadata().is_ok() {
            return Err(Failure::on("put the bag at", &place, "something is in its place"));
        }
        fs::rename(made, &place)
            .map_err(|error| durable::failed("put the bag at", &place, &error))?;
        let done = durable::sync_folder(&self.folder()).and_then(|()| writer.add(new));
        if done.is_err() && writer.is_as_before() {
            // Where even this fails, the next seal finds the bag whole and registers it.
            let _ = fs::rename(&place, made);
        }
        done
    }

    /// Puts a finished tar into its place; one that is there already stays.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn put_tar(&self, made: PathBuf, version: u32) -> Result<(), Failure> {
        let place = self.tar(version);
        let failed = |error| durable::failed("put the tar at", &place, &error);
        let made = tempfile::TempPath::try_from_path(made).map_err(failed)?;
        match made.persist_noclobber(&place) {
            Err(refused) if refused.error.kind() != ErrorKind::AlreadyExists => {
                Err(failed(refused.error))
            }
            _ => durable::sync_folder(&self.folder()),
        }
    }
}
