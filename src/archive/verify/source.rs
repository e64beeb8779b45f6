//! What a bag's files come from, whatever it is: a list of names with kinds, and a stream for each.
//!
//! Here also the usual one, a folder: links are never followed, devices and pipes never opened.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

pub mod tar;

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use walkdir::WalkDir;

use crate::archive::bag::names;
use crate::archive::problems::{self, Flaw};
use crate::failure::Failure;

/// Most entries that one bag is taken to have; more would fill the memory with names alone.
pub const MAX_ITEMS: usize = 200_000;

/// What an entry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A file of this many bytes.
    File(u64),
    /// A folder.
    Folder,
    /// Something that is never opened: a link, a device, a name that is not text. It is a flaw.
    Other,
}

/// A place that holds files by names with `/`. Only names of its own list are ever opened.
pub trait Source {
    /// Where it is, to report failures.
    fn path(&self) -> &Path;

    /// All entries by name.
    fn items(&self) -> &BTreeMap<String, Kind>;

    /// What was wrong with the entries themselves.
    fn flaws(&self) -> &[Flaw];

    /// Paths that could not be looked at, with all below them; the failures are reported elsewhere.
    fn closed(&self) -> &[String] {
        &[]
    }

    /// Opens a file of the list.
    ///
    /// # Errors
    /// It is not on the list, or cannot be opened.
    fn open(&self, name: &str) -> io::Result<Box<dyn Read + '_>>;
}

/// True if the list has a file of this name.
pub fn has_file(source: &dyn Source, name: &str) -> bool {
    matches!(source.items().get(name), Some(Kind::File(_)))
}

/// True for a path at or below one of those that could not be looked at.
/// An empty one stands for the whole.
pub fn lies_in(closed: &[String], path: &str) -> bool {
    let is_in = |rest: &str| rest.is_empty() || rest.starts_with('/');
    let is_below = |place: &str| path.strip_prefix(place).is_some_and(is_in);
    closed.iter().any(|place| place.is_empty() || is_below(place))
}

/// Reads a whole file of at most `most` bytes.
///
/// # Errors
/// It is longer, or cannot be read.
pub fn read(source: &dyn Source, name: &str, most: u64) -> Result<Vec<u8>, Failure> {
    let length = match source.items().get(name) {
        Some(Kind::File(length)) => (*length).min(most).saturating_add(1),
        _ => 0,
    };
    // At its length at once: a list that grows would take twice the room while it is copied.
    let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
    let stream = source.open(name).map_err(|error| failed(source, name, error))?;
    let mut stream = stream.take(most.saturating_add(1));
    stream.read_to_end(&mut bytes).map_err(|error| failed(source, name, error))?;
    if bytes.len() as u64 > most {
        return Err(failed(source, name, format_args!("it is longer than {most} bytes")));
    }
    Ok(bytes)
}

/// A file of a source that could not be read.
pub fn failed(source: &dyn Source, name: &str, cause: impl std::fmt::Display) -> Failure {
    Failure::on("read", &source.path().join(names::shown(name)), cause)
}

/// Refuses a source with too many entries.
///
/// # Errors
/// There are more than [`MAX_ITEMS`].
pub fn bounded(path: &Path, count: usize) -> Result<(), Failure> {
    if count <= MAX_ITEMS {
        return Ok(());
    }
    Err(Failure::on("look through", path, format_args!("it has more than {MAX_ITEMS} entries")))
}

/// A folder and all that is in it.
pub struct Folder {
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
    pub fn list(path: &Path) -> Result<Self, Failure> {
        let mut folder = Self {
            path: path.to_owned(),
            items: BTreeMap::new(),
            flaws: Vec::new(),
            failures: Vec::new(),
            closed: Vec::new(),
        };
        for entry in WalkDir::new(path).min_depth(1).follow_links(false) {
            bounded(path, folder.items.len() + folder.failures.len())?;
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
    pub fn failures(&self) -> &[Failure] {
        &self.failures
    }
}

impl Source for Folder {
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
        if !has_file(self, name) {
            return Err(ErrorKind::NotFound.into());
        }
        Ok(Box::new(open_file(&self.path.join(name))?))
    }
}

/// Opens a file, and nothing that only looks like one.
///
/// # Errors
/// It is not a plain file, or cannot be opened.
pub fn open_file(path: &Path) -> io::Result<File> {
    if !fs::symlink_metadata(path)?.is_file() {
        return Err(io::Error::new(ErrorKind::InvalidInput, "it is not a plain file"));
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
/// It is not a plain file, longer, or cannot be read.
pub fn read_file(path: &Path, most: u64) -> Result<Vec<u8>, Failure> {
    let failed = |error: io::Error| Failure::on("read", path, error);
    let file = open_file(path).map_err(failed)?;
    // At its length at once: a list that grows would take twice the room while it is copied.
    let length = file.metadata().map_err(failed)?.len().min(most).saturating_add(1);
    let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
    file.take(most.saturating_add(1)).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 <= most {
        return Ok(bytes);
    }
    Err(Failure::on("read", path, format_args!("it is longer than {most} bytes")))
}
