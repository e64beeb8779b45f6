//! One file on the disk: written in one step, new or in the place of its old state, safely.
//!
//! In: a path and bytes; out: a file, or why there is none. A temporary file beside it gets its bytes and is
//! flushed to the disk before it gets the name. Which file may be replaced is `output`'s.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::fs;
use std::io::{ErrorKind, Write};
use std::path::Path;
use std::time::{Duration, UNIX_EPOCH};

use tempfile::NamedTempFile;

use crate::failure::Failure;

/// Why a file is not replaced: it is somebody else's.
pub(super) fn foreign(path: &Path) -> Failure {
    let cause = "another file is in its place, and it is not one that this program wrote there, or \
                 somebody has changed it since";
    Failure::on("write", path, cause).hint("move that file away, or choose another `--out`")
}

/// Makes a folder and those above it.
///
/// # Errors
/// The disk refuses.
pub fn make_folder(folder: &Path) -> Result<(), Failure> {
    fs::create_dir_all(folder).map_err(|error| Failure::on("make the folder", folder, error))
}

/// Writes a file in one step: its old content is there until the new one is safely on the disk.
///
/// # Errors
/// The disk refuses; the old file is as it was.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let file = finished(path, bytes)?;
    file.persist(path).map_err(|error| Failure::on("write", path, &error.error))?;
    sync_folder(path.parent().unwrap_or(Path::new(".")));
    Ok(())
}

/// Writes a file in one step into a free place, and not over what was put there meanwhile. The very
/// same file, from another machine at the same work, is no matter.
pub(super) fn put_new(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    match put(finished(path, bytes)?, path) {
        Err(_) if is_there(path, bytes) => Ok(()),
        done => done,
    }
}

/// Gives a finished file its name, if that is free.
fn put(file: NamedTempFile, path: &Path) -> Result<(), Failure> {
    match file.persist_noclobber(path) {
        Ok(_) => {}
        Err(error) if error.error.kind() == ErrorKind::AlreadyExists => return Err(foreign(path)),
        // Some file systems cannot rename without replacing.
        Err(error)
            if fs::symlink_metadata(path).is_err_and(|e| e.kind() == ErrorKind::NotFound) =>
        {
            error.file.persist(path).map_err(|error| Failure::on("write", path, &error.error))?;
        }
        Err(error) => return Err(Failure::on("write", path, &error.error)),
    }
    sync_folder(path.parent().unwrap_or(Path::new(".")));
    Ok(())
}

/// A temporary file beside a path with all its bytes on the disk.
fn finished(path: &Path, bytes: &[u8]) -> Result<NamedTempFile, Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::on("write", path, error);
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new()
        .prefix(TEMPORARY)
        .permissions_for_others()
        .tempfile_in(folder)
        .map_err(|error| failed(&error))?;
    sweep(folder, &file);
    file.write_all(bytes).map_err(|error| failed(&error))?;
    file.as_file().sync_all().map_err(|error| failed(&error))?;
    Ok(file)
}

/// Start of the name of every temporary file; six letters or digits follow.
const TEMPORARY: &str = ".splitcase-";
/// Age from which a temporary file is a killed run's: no file takes an hour to be written.
const LEFT_BEHIND: Duration = Duration::from_hours(1);

/// Deletes temporary files that a killed run left in a folder, an hour older than the newest one.
fn sweep(folder: &Path, newest: &NamedTempFile) {
    let changed = |path: &Path| fs::symlink_metadata(path).and_then(|state| state.modified());
    let (Ok(now), Ok(entries)) = (changed(newest.path()), fs::read_dir(folder)) else { return };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let is_ours =
            name.to_str().and_then(|name| name.strip_prefix(TEMPORARY)).is_some_and(|end| {
                end.len() == 6 && end.bytes().all(|byte| byte.is_ascii_alphanumeric())
            });
        let is_old = || {
            let age = changed(&entry.path()).ok().and_then(|then| now.duration_since(then).ok());
            age.is_some_and(|age| LEFT_BEHIND < age)
        };
        if is_ours && entry.file_type().is_ok_and(|kind| kind.is_file()) && is_old() {
            // One that cannot be deleted does no harm.
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Changes a person's own file in one step, if it is still what was read.
///
/// # Errors
/// Somebody has changed it since, it is not a plain file that may be written, or the disk refuses; the old
/// file is as it was.
pub fn change(path: &Path, read: &[u8], new: &[u8]) -> Result<(), Failure> {
    let failed = |cause: &dyn std::fmt::Display| Failure::on("change", path, cause);
    let state = fs::symlink_metadata(path).map_err(|error| failed(&error))?;
    if !state.is_file() {
        return Err(failed(
            &"it is a link or no plain file, and a file in its place would cut it off",
        )
        .hint("give the folder in which the file itself is"));
    }
    if state.permissions().readonly() {
        return Err(failed(&"it may not be written").hint("make it writable first"));
    }
    let file = finished(path, new)?;
    file.as_file().set_permissions(state.permissions()).map_err(|error| failed(&error))?;
    let now = fs::read(path).map_err(|error| failed(&error))?;
    if now != read {
        return Err(failed(&"it was changed while this was going on")
            .hint("nothing was changed: try once more"));
    }
    file.persist(path).map_err(|error| failed(&error.error))?;
    sync_folder(path.parent().unwrap_or(Path::new(".")));
    Ok(())
}

/// Makes the rename itself safe; a file system that cannot do so is left as it is.
fn sync_folder(folder: &Path) {
    if let Ok(folder) = fs::File::open(folder) {
        let _ = folder.sync_all();
    }
}

/// Writes a new file and never replaces one.
///
/// # Errors
/// The file is there already, or the disk refuses.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::on("write", path, error);
    let mut file = fs::File::create_new(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::AlreadyExists => {
            failed(&"it is there already").hint("nothing was changed; choose another name")
        }
        _ => failed(&error),
    })?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(|error| failed(&error))
}

/// Copies a file into a free place in one step, with the time at which the original was changed, in
/// nanoseconds since 1970.
///
/// # Errors
/// Another file is in its place, or the disk refuses; then nothing is there.
pub fn copy_new(path: &Path, bytes: &[u8], changed: u128) -> Result<(), Failure> {
    let file = finished(path, bytes)?;
    let changed = u64::try_from(changed)
        .ok()
        .and_then(|changed| UNIX_EPOCH.checked_add(Duration::from_nanos(changed)));
    // A file system that keeps no such time still keeps the photo.
    let _ = changed.map(|changed| file.as_file().set_modified(changed));
    put(file, path)
}

/// Writes a new file; one that is there already is left alone if it is the same, and never replaced.
///
/// # Errors
/// Another file is in its place, or the disk refuses.
pub fn write_new_or_same(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    if is_there(path, bytes) { Ok(()) } else { write_new(path, bytes) }
}

/// True if a file with these bytes is there; one of another length is not read.
fn is_there(path: &Path, bytes: &[u8]) -> bool {
    let state = fs::metadata(path);
    state.is_ok_and(|state| state.is_file() && state.len() == bytes.len() as u64)
        && fs::read(path).is_ok_and(|there| there == bytes)
}

/// Temporary files are private; papers are for everybody who may read the folder.
trait PermissionsForOthers {
    fn permissions_for_others(&mut self) -> &mut Self;
}

impl PermissionsForOthers for tempfile::Builder<'_, '_> {
    #[cfg(unix)]
    fn permissions_for_others(&mut self) -> &mut Self {
        use std::os::unix::fs::PermissionsExt;
        // The umask of the person still takes its share.
        self.permissions(fs::Permissions::from_mode(0o666))
    }

    #[cfg(not(unix))]
    fn permissions_for_others(&mut self) -> &mut Self {
        self
    }
}
