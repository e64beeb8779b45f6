//! The place where a bag is made: `.making-<process>-<n>/` in the job's folder of an archive.
//!
//! It is locked as long as its maker lives, so that what a killed one left can be recognised, and it
//! goes when its maker is done, whatever came of it.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use crate::archive::durable;
use crate::archive::layout::STAGING;
use crate::archive::register::write::RegisterWriter;
use crate::failure::Failure;

/// How often a place is looked for while others come and go.
const TRIES: u32 = 1000;

/// A place to make a bag in.
pub struct Staging {
    folder: PathBuf,
    job_folder: PathBuf,
    lock: Option<File>,
}

impl Staging {
    /// Makes a place in a job's folder, and clears those whose makers are gone. Whoever holds the
    /// archive's lock may do so: a place without a lock then has no maker.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn begin(job_folder: &Path, _held: &RegisterWriter) -> Result<Self, Failure> {
        clear(job_folder)?;
        let process = std::process::id();
        let mut number = 1;
        for _ in 0..TRIES {
            durable::make_folder(job_folder)?;
            let folder = job_folder.join(format!("{STAGING}{process}-{number}"));
            match fs::create_dir(&folder) {
                Ok(()) => {
                    let job_folder = job_folder.to_owned();
                    let mut staging = Self { folder, job_folder, lock: None };
                    staging.lock = Some(staging.take_lock()?);
                    return Ok(staging);
                }
                Err(error) if error.kind() == ErrorKind::AlreadyExists => number += 1,
                // The job's folder was empty, and another maker that was done took it away.
                Err(error) if error.kind() == ErrorKind::NotFound => {}
                Err(error) => return Err(durable::failed("make the folder", &folder, &error)),
            }
        }
        Err(Failure::on("make a bag in", job_folder, "too many others are doing so"))
    }

    fn take_lock(&self) -> Result<File, Failure> {
        let path = lock_of(&self.folder);
        let failed = |error| durable::failed("lock", &path, &error);
        let file = File::create_new(&path).map_err(failed)?;
        file.lock().map_err(failed)?;
        Ok(file)
    }

    /// Where the bag is made.
    pub fn bag(&self) -> PathBuf {
        self.folder.join("bag")
    }

    /// Where its tar is made.
    pub fn tar(&self) -> PathBuf {
        self.folder.join("bag.tar")
    }

    /// Clears a tar that was made for nothing.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn drop_tar(&self) -> Result<(), Failure> {
        match fs::remove_file(self.tar()) {
            Err(error) if error.kind() != ErrorKind::NotFound => {
                Err(durable::failed("clear", &self.tar(), &error))
            }
            _ => Ok(()),
        }
    }
}

impl Drop for Staging {
    fn drop(&mut self) {
        self.lock = None;
        // What cannot be cleared now is cleared by the next seal of the job.
        let _ = fs::remove_dir_all(&self.folder);
        // Goes only if it is empty: then this was to be the first bag, and it did not come to be.
        let _ = fs::remove_dir(&self.job_folder);
    }
}

fn lock_of(folder: &Path) -> PathBuf {
    folder.join("lock")
}

/// Clears the places of makers that are gone.
fn clear(job_folder: &Path) -> Result<(), Failure> {
    let failed = |error: io::Error| durable::failed("clear", job_folder, &error);
    let entries = match fs::read_dir(job_folder) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        entries => entries.map_err(failed)?,
    };
    for entry in entries {
        let entry = entry.map_err(failed)?;
        let is_place = entry.file_name().as_encoded_bytes().starts_with(STAGING.as_bytes());
        if !is_place || !entry.file_type().map_err(failed)?.is_dir() {
            continue;
        }
        let is_left = match File::open(lock_of(&entry.path())) {
            Ok(lock) => lock.try_lock().is_ok(),
            Err(error) => error.kind() == ErrorKind::NotFound,
        };
        if is_left {
            match fs::remove_dir_all(entry.path()) {
                Err(error) if error.kind() != ErrorKind::NotFound => {
                    return Err(durable::failed("clear", &entry.path(), &error));
                }
                _ => {}
            }
        }
    }
    Ok(())
}
