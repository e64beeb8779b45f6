//! A bag that was asked about alone, held against the register of the archive that it lies in.

use std::path::Path;

use super::bag::Bag;
use super::judgement::Judgement;
use super::words;
use crate::archive::layout::{LOCK, REGISTER};
use crate::archive::problems;
use crate::archive::register::entry::Event;
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
        return Err(failed(&"it is no plain file"));
    }
    let lock = archive.join(LOCK).symlink_metadata();
    if lock.as_ref().is_ok_and(|state| !state.is_file()) {
        // A reader of a torn line would wait for whatever stands in the lock's place.
        return read::register_now(archive);
    }
    read::register(archive)
}

/// Holds a bag that was asked about alone against the register above it, where it lies in an archive.
pub(super) fn alone(path: &Path, bag: Bag) -> Judgement {
    let mut found = bag.judgement;
    let Ok(real) = path.canonicalize() else { return found };
    let name = |path: &Path| path.file_name().map(|name| name.to_string_lossy().into_owned());
    let (Some(own), Some(above)) = (name(&real), real.parent()) else { return found };
    let (Some(job), Some(archive)) = (name(above), above.parent()) else { return found };
    if archive.join(REGISTER).symlink_metadata().is_err() {
        return found;
    }
    let own = format!("{job}/{}", own.trim_end_matches(".tar"));
    let register = match register(archive) {
        Ok(register) => register,
        Err(failure) => {
            found.could_not.push(failure);
            return found;
        }
    };
    let line = register.entries.iter().find(|one| one.event == Event::Sealed && one.bag == own);
    match (line, bag.seal.map(|seal| seal.hex())) {
        (None, _) => found.flaws.push(problems::not_registered("")),
        (Some(entry), Some(seal)) if seal != entry.sha256 => {
            found.flaws.push(problems::other_seal("", entry.line, &seal));
        }
        (Some(entry), _) => {
            found.shown.push(words::registered(entry.line));
            match bag.history {
                Some(history) if history.line < entry.line && history.is_in(&register) => {
                    found.shown.push(words::history(history.line));
                }
                Some(history) => found.flaws.push(problems::history("", history.line)),
                None => {}
            }
        }
    }
    found
}
