//! Single files within bounds: those of a job, photos of other jobs, files that this program keeps.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::fs;
use std::io::Read;
use std::path::Path;
use std::time::UNIX_EPOCH;

use crate::failure::Failure;
use crate::photo;

/// Reads a plain file, one byte further than `most` at the furthest: a reader sees that it is too long.
///
/// # Errors
/// It is a folder, pipe or device, or cannot be read.
pub fn read_bounded(path: &Path, action: &str, most: u64) -> Result<Vec<u8>, Failure> {
    let failed = |error| Failure::on(action, path, error);
    // Asked before it is opened: a pipe would wait for a writer without end, a device never ends.
    let state = fs::metadata(path).map_err(failed)?;
    if !state.is_file() {
        let what = if state.is_dir() { "it is a folder" } else { "it is a pipe or a device" };
        return Err(Failure::on(action, path, what).hint("put a plain file in its place"));
    }
    let file = fs::File::open(path).map_err(failed)?;
    let expected = state.len().min(most);
    let mut bytes = Vec::with_capacity(usize::try_from(expected).unwrap_or(0) + 1);
    file.take(most + 1).read_to_end(&mut bytes).map_err(failed)?;
    Ok(bytes)
}

/// Reads a file of our own that may be missing; nothing if it is, or is longer than it can be.
pub fn read_own(path: &Path, most: u64) -> Option<Vec<u8>> {
    let bytes = read_bounded(path, "read", most).ok()?;
    (bytes.len() as u64 <= most).then_some(bytes)
}

/// Length and time of change of a file, in nanoseconds since 1970.
pub fn state_of(path: &Path) -> Option<(u64, u128)> {
    let state = fs::metadata(path).ok().filter(fs::Metadata::is_file)?;
    let changed = state.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
    Some((state.len(), changed.as_nanos()))
}

/// Reads any photo, up to a little more than the largest that is taken.
///
/// # Errors
/// The file cannot be read.
pub fn read_photo(path: &Path) -> Result<Vec<u8>, Failure> {
    read_bounded(path, "read the photo", photo::MAX_FILE_BYTES)
}
