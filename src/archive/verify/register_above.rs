//! The register of an archive as `verify` reads it, and what it says of files that were taken out of bags.
//!
//! An archive, or the path of a bag in one -> the register, and for each bag its redacted files.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::archive::bag::names;
use crate::archive::layout::{self, DATA, LOCK, REGISTER};
use crate::archive::register::entry::{Entry, Event};
use crate::archive::register::read::{self, Register};
use crate::failure::Failure;

/// Reads the register, which must be a plain file.
///
/// # Errors
/// It is not there, no plain file, too long, or cannot be read.
pub(super) fn register(archive: &Path) -> Result<Register, Failure> {
    let path = archive.join(REGISTER);
    let failed = |cause: &dyn std::fmt::Display| Failure::on("read the register", &path, cause);
    let state = path.symlink_metadata().map_err(|error| failed(&error))?;
    if !state.is_file() {
        return Err(failed(&"it is not a plain file"));
    }
    let lock = archive.join(LOCK).symlink_metadata();
    if lock.as_ref().is_ok_and(|state| !state.is_file()) {
        // A reader of a torn line would wait for whatever is in the lock's place.
        return read::register_now(archive);
    }
    read::register(archive)
}

/// The archive that a bag is in, and the bag's path below it.
pub(super) fn place_of(bag: &Path) -> Option<(PathBuf, String)> {
    let real = bag.canonicalize().ok()?;
    let name = |path: &Path| path.file_name().map(|name| name.to_string_lossy().into_owned());
    let (own, above) = (name(&real)?, real.parent()?);
    let (job, archive) = (name(above)?, above.parent()?);
    let is_archive = archive.join(REGISTER).symlink_metadata().is_ok();
    let own = format!("{job}/{}", own.trim_end_matches(".tar"));
    is_archive.then(|| (archive.to_owned(), own))
}

/// Files that were taken out of one bag: path below the bag -> the line that says so.
pub(super) type Redacted = BTreeMap<String, Entry>;

/// The redacted files of every bag, by the bag's path below the archive.
pub(super) fn redacted(register: &Register) -> BTreeMap<String, Redacted> {
    let mut bags: BTreeMap<String, Redacted> = BTreeMap::new();
    for entry in &register.entries {
        if let Some((bag, file)) = redacted_file(entry) {
            bags.entry(bag).or_default().insert(file, entry.clone());
        }
    }
    bags
}

/// Bag and file of a line that says what was taken out; nothing for other lines, and for a path that
/// is not below the payload of the bag that the line names.
pub(super) fn redacted_file(entry: &Entry) -> Option<(String, String)> {
    let bag = layout::bag_path(&entry.job, entry.version);
    let file = entry.bag.strip_prefix(&bag)?.strip_prefix('/')?;
    let is_file = entry.event == Event::Redacted
        && names::check_job(&entry.job).is_ok()
        && file.starts_with(DATA)
        && names::danger(file).is_none();
    is_file.then(|| (bag, file.to_owned()))
}

/// The redacted files of a bag by itself, from the register above it, if there is one that can be read.
pub(super) fn redacted_of(bag: &Path) -> Redacted {
    let Some((archive, own)) = place_of(bag) else { return Redacted::new() };
    register(&archive)
        .ok()
        .and_then(|register| redacted(&register).remove(&own))
        .unwrap_or_default()
}
