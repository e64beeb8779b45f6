//! Single files outside a job's own list: photos of other jobs, and files that this program keeps.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::fs;
use std::path::Path;
use std::time::UNIX_EPOCH;

use super::read_bounded;
use crate::failure::Failure;
use crate::photo;

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
