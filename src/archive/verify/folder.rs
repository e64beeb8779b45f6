//! A folder as a holder of files: links are never followed, devices and pipes never opened.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use walkdir::WalkDir;

use super::holder::{self, Holder, Kind};
use super::{Flaw, problems};
use crate::failure::Failure;

/// A folder and all that lies in it.
pub(super) struct Folder {
    path: PathBuf,
    items: BTreeMap<String, Kind>,
    flaws: Vec<Flaw>,
    failures: Vec<Failure>,
    closed: Vec<String>,
}

impl Folder {
    /// Lists a folder with all below it.
    ///
    /// # Errors
    /// It cannot be looked into, or has too many entries. What cannot be listed below it is among [`Folder::failures`].
    pub(super) fn list(path: &Path) -> Result<Self, Failure> {
        let mut folder = Self {
            path: path.to_owned(),
            items: BTreeMap::new(),
            flaws: Vec::new(),
            failures: Vec::new(),
            closed: Vec::new(),
        };
        for entry in WalkDir::new(path).min_depth(1).follow_links(false) {
            holder::bounded(path, folder.items.len() + folder.failures.len())?;
            let entry = match entry {
                Ok(entry) => entry,
                Err(error) => {
                    let place = error.path().unwrap_or(path).to_owned();
                    let failure = Failure::on("look into", &place, error);
                    if place == path {
                        return Err(failure);
                    }
                    folder.closed.push(below(path, &place).0);
                    folder.failures.push(failure);
                    continue;
                }
            };
            let (name, is_text) = below(path, entry.path());
            let kind = entry.file_type();
            let kind = if !is_text {
                folder.flaws.push(problems::name_is_no_text(&name));
                Kind::Other
            } else if kind.is_symlink() {
                folder.flaws.push(problems::link(&name));
                Kind::Other
            } else if kind.is_dir() {
                Kind::Folder
            } else if kind.is_file() {
                let length = entry.metadata().map(|state| state.len());
                let length = length.map_err(|error| {
                    folder.failures.push(Failure::on("look at", entry.path(), error));
                    folder.closed.push(name.clone());
                });
                Kind::File(length.unwrap_or(0))
            } else {
                folder.flaws.push(problems::device(&name));
                Kind::Other
            };
            folder.items.insert(name, kind);
        }
        Ok(folder)
    }

    /// What could not be listed.
    pub(super) fn failures(&self) -> &[Failure] {
        &self.failures
    }
}

impl Holder for Folder {
    fn path(&self) -> &Path {
        &self.path
    }

    fn items(&self) -> &BTreeMap<String, Kind> {
        &self.items
    }

    fn flaws(&self) -> &[Flaw] {
        &self.flaws
    }

    fn closed(&self) -> &[String] {
        &self.closed
    }

    fn open(&self, name: &str) -> io::Result<Box<dyn Read + '_>> {
        if !holder::has_file(self, name) {
            return Err(ErrorKind::NotFound.into());
        }
        Ok(Box::new(open(&self.path.join(name))?))
    }
}

/// Opens a file, and nothing that only looks like one.
///
/// # Errors
/// It is no plain file, or cannot be opened.
pub(super) fn open(path: &Path) -> io::Result<File> {
    if !fs::symlink_metadata(path)?.is_file() {
        return Err(io::Error::new(ErrorKind::InvalidInput, "it is no plain file"));
    }
    File::open(path)
}

/// The path below a folder, with `/`, and whether it is text.
fn below(folder: &Path, path: &Path) -> (String, bool) {
    let rest = path.strip_prefix(folder).unwrap_or(path);
    let is_text = rest.to_str().is_some();
    let steps: Vec<_> = rest.components().map(|step| step.as_os_str().to_string_lossy()).collect();
    (steps.join("/"), is_text)
}

/// Reads a whole file of at most `most` bytes.
///
/// # Errors
/// It is no plain file, longer, or cannot be read.
pub(super) fn read(path: &Path, most: u64) -> Result<Vec<u8>, Failure> {
    let failed = |error: io::Error| Failure::on("read", path, error);
    let file = open(path).map_err(failed)?;
    // At its length at once: a list that grows would take twice the room while it is copied.
    let length = file.metadata().map_err(failed)?.len().min(most).saturating_add(1);
    let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
    file.take(most.saturating_add(1)).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 <= most {
        return Ok(bytes);
    }
    Err(Failure::on("read", path, format_args!("it is longer than {most} bytes")))
}
