//! Writing that lasts: bytes -> files and folders that a power cut does not take back.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use walkdir::WalkDir;

use crate::failure::Failure;
use crate::workers;

/// Files that are brought down to the disk at once: it takes eight together in the time of two.
const AT_ONCE: usize = 8;

/// A failure to write into an archive; a full disk gets its advice.
pub fn failed(action: &str, path: &Path, error: &io::Error) -> Failure {
    let failure = Failure::on(action, path, error);
    match error.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
            failure.hint("make room for the archive; what was sealed before is as it was")
        }
        _ => failure,
    }
}

/// Writes a new file, down to the disk, and never over one that is there.
///
/// # Errors
/// Something is there already, or the disk refuses.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let mut file = File::create_new(path).map_err(|error| failed("write", path, &error))?;
    file.write_all(bytes)
        .and_then(|()| file.sync_all())
        .map_err(|error| failed("write", path, &error))
}

/// Makes files below a folder last, several at a time.
///
/// # Errors
/// The disk could not write one of them.
pub fn sync_files(folder: &Path, names: &[&str]) -> Result<(), Failure> {
    let done = workers::map(AT_ONCE, names.len(), |at| {
        let path = folder.join(names[at]);
        let file = OpenOptions::new().write(true).open(&path);
        file.and_then(|file| file.sync_all()).map_err(|error| failed("write", &path, &error))
    });
    done.into_iter().collect()
}

/// Makes a folder and those above it last, each entered in the one above.
///
/// # Errors
/// The disk refuses.
pub fn make_folder(folder: &Path) -> Result<(), Failure> {
    if folder.is_dir() {
        return Ok(());
    }
    let above = folder.parent().filter(|above| !above.as_os_str().is_empty());
    if let Some(above) = above {
        make_folder(above)?;
    }
    match fs::create_dir(folder) {
        Err(error) if error.kind() != ErrorKind::AlreadyExists || !folder.is_dir() => {
            Err(failed("make the folder", folder, &error))
        }
        _ => sync_folder(above.unwrap_or(Path::new("."))),
    }
}

/// Brings a folder down to the disk (fsync), so that names added, renamed or removed in it survive a
/// power cut.
///
/// A system that cannot do so for folders is left as it is.
///
/// # Errors
/// The disk could not write it.
pub fn sync_folder(folder: &Path) -> Result<(), Failure> {
    let Ok(open) = File::open(folder) else { return Ok(()) };
    match open.sync_all() {
        Err(error) if !is_about_folders(error.kind()) => Err(failed("write", folder, &error)),
        _ => Ok(()),
    }
}

/// Refusals of systems that keep folders safe by themselves or not at all.
fn is_about_folders(kind: ErrorKind) -> bool {
    matches!(
        kind,
        ErrorKind::InvalidInput
            | ErrorKind::Unsupported
            | ErrorKind::PermissionDenied
            | ErrorKind::IsADirectory
    )
}

/// Makes all folders below a folder and itself last, the innermost first.
///
/// # Errors
/// The disk could not write it.
pub fn sync_folders(root: &Path) -> Result<(), Failure> {
    for entry in WalkDir::new(root).follow_links(false).contents_first(true) {
        let entry = entry.map_err(|error| Failure::on("read the folder", root, error))?;
        if entry.file_type().is_dir() {
            sync_folder(entry.path())?;
        }
    }
    Ok(())
}
