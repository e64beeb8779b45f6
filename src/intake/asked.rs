//! The path that somebody typed for a job -> the folder that is meant.
//!
//! A sheet stands for its folder, since editors and file managers hand over files.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::fs;
use std::path::{Path, PathBuf};

use super::{SHEET, is_called_photo};
use crate::failure::Failure;

/// The folder that a path means: itself, or that of the sheet that it names.
///
/// # Errors
/// There is nothing at the path, or a file that is no sheet.
pub fn folder(path: &Path) -> Result<PathBuf, Failure> {
    let state = fs::metadata(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => Failure::on("find", path, "there is nothing of that name")
            .hint("give a job's folder, its sheet, or a folder with jobs below it"),
        _ => Failure::on("read the folder", path, error),
    })?;
    if state.is_dir() {
        return Ok(path.to_owned());
    }
    let name = path.file_name().map(|name| name.to_string_lossy().to_lowercase());
    match name {
        Some(name) if name == SHEET => Ok(folder_of(path)),
        Some(name) if name.starts_with("findings.") => {
            Err(Failure::on("read the sheet", path, format!("a sheet is called `{SHEET}`"))
                .hint(format!("rename it to `{SHEET}`")))
        }
        _ => Err(Failure::on("find a job in", path, "it is a file, and no sheet")
            .hint(format!("give the job's folder, its `{SHEET}`, or a folder with jobs below it"))),
    }
}

/// True for a folder that has a file called a photo in it.
pub fn has_photos(folder: &Path) -> bool {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    entries
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()))
        .any(|entry| entry.file_name().to_str().is_some_and(is_called_photo))
}

/// The folder that a file is in; the present one for a bare name.
fn folder_of(file: &Path) -> PathBuf {
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or(Path::new(".")).to_owned()
}
