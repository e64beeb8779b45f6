//! What holds a bag's files, whatever it is: a list of names with kinds, and a stream for each.

use std::collections::BTreeMap;
use std::io::{self, Read};
use std::path::Path;

use super::{Flaw, names};
use crate::failure::Failure;

/// Most entries that one bag is taken to have; more would fill the memory with names alone.
pub(super) const MAX_ITEMS: usize = 200_000;

/// What an entry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// A file of so many bytes.
    File(u64),
    /// A folder.
    Folder,
    /// Something that is never opened: a link, a device, a name that is no text. It is a flaw.
    Other,
}

/// A place that holds files by names with `/`. Only names of its own list are ever opened.
pub(super) trait Holder {
    /// Where it lies, to tell of failures.
    fn path(&self) -> &Path;

    /// All entries by name.
    fn items(&self) -> &BTreeMap<String, Kind>;

    /// What was wrong with the entries themselves.
    fn flaws(&self) -> &[Flaw];

    /// Paths that could not be looked at, with all below them; the failures are told elsewhere.
    fn closed(&self) -> &[String] {
        &[]
    }

    /// Opens a file of the list.
    ///
    /// # Errors
    /// It is not on the list, or cannot be opened.
    fn open(&self, name: &str) -> io::Result<Box<dyn Read + '_>>;
}

/// True where the list has a file of this name.
pub(super) fn has_file(holder: &dyn Holder, name: &str) -> bool {
    matches!(holder.items().get(name), Some(Kind::File(_)))
}

/// True for a path at or below one of those that could not be looked at.
/// An empty one stands for the whole.
pub(super) fn lies_in(closed: &[String], path: &str) -> bool {
    let is_in = |rest: &str| rest.is_empty() || rest.starts_with('/');
    let is_below = |place: &str| path.strip_prefix(place).is_some_and(is_in);
    closed.iter().any(|place| place.is_empty() || is_below(place))
}

/// Reads a whole file of at most `most` bytes.
///
/// # Errors
/// It is longer, or cannot be read.
pub(super) fn read(holder: &dyn Holder, name: &str, most: u64) -> Result<Vec<u8>, Failure> {
    let length = match holder.items().get(name) {
        Some(Kind::File(length)) => (*length).min(most).saturating_add(1),
        _ => 0,
    };
    // At its length at once: a list that grows would take twice the room while it is copied.
    let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
    let stream = holder.open(name).map_err(|error| failed(holder, name, error))?;
    let mut stream = stream.take(most.saturating_add(1));
    stream.read_to_end(&mut bytes).map_err(|error| failed(holder, name, error))?;
    if bytes.len() as u64 > most {
        return Err(failed(holder, name, format_args!("it is longer than {most} bytes")));
    }
    Ok(bytes)
}

/// A file of a holder that could not be read.
pub(super) fn failed(holder: &dyn Holder, name: &str, cause: impl std::fmt::Display) -> Failure {
    Failure::on("read", &holder.path().join(names::shown(name)), cause)
}

/// Refuses a holder with too many entries.
///
/// # Errors
/// There are more than [`MAX_ITEMS`].
pub(super) fn bounded(path: &Path, count: usize) -> Result<(), Failure> {
    if count <= MAX_ITEMS {
        return Ok(());
    }
    Err(Failure::on("look through", path, format_args!("it has more than {MAX_ITEMS} entries")))
}
