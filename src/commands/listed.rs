//! A list of jobs from a file or from standard input: bytes -> paths.

use std::ffi::OsString;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use crate::failure::Failure;
use crate::intake;

/// Most bytes of a list: some hundred thousand paths.
const MAX_LIST: u64 = 64 << 20;

/// What to do about a list that cannot be used.
const HINT: &str =
    "give a file with a job folder on each line, or `-` for what another program prints";

/// The paths of a list: one a line or, if there is a NUL in it, one before each NUL.
///
/// # Errors
/// The list cannot be read, is too long or names nothing.
pub(super) fn paths(list: &Path) -> Result<Vec<PathBuf>, Failure> {
    const ACTION: &str = "read the list of jobs";
    let bytes = match list == Path::new("-") {
        true => {
            let mut bytes = Vec::new();
            let read = io::stdin().lock().take(MAX_LIST + 1).read_to_end(&mut bytes);
            read.map_err(|error| Failure::new(format!("{ACTION} on standard input"), &error))?;
            bytes
        }
        false => intake::read_list(list, ACTION, MAX_LIST).map_err(|failure| failure.hint(HINT))?,
    };
    if MAX_LIST < bytes.len() as u64 {
        return Err(Failure::on(ACTION, list, "it is too long")
            .hint("split it, or name a folder with `--shard I/N`"));
    }
    let ends_in_nul = bytes.contains(&0);
    let lines = bytes.split(|byte| *byte == if ends_in_nul { 0 } else { b'\n' });
    let lines = lines.map(|line| line.strip_suffix(b"\r").unwrap_or(line));
    let paths: Vec<PathBuf> =
        lines.filter(|line| !line.is_empty()).map(|line| PathBuf::from(name(line))).collect();
    if paths.is_empty() {
        return Err(Failure::on(ACTION, list, "it names no job").hint(HINT));
    }
    Ok(paths)
}

/// A path as its bytes, where the system's paths are bytes.
#[cfg(unix)]
fn name(line: &[u8]) -> OsString {
    use std::os::unix::ffi::OsStringExt;
    OsString::from_vec(line.to_vec())
}

/// A path in UTF-8.
#[cfg(not(unix))]
fn name(line: &[u8]) -> OsString {
    OsString::from(String::from_utf8_lossy(line).into_owned())
}
