//! Reads what a workshop has of its own beside its profile: logo, price list, templates and wordings.
//!
//! In: names from the profile; out: bytes, within bounds. What they are worth is judged elsewhere (workshop).

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::fs;
use std::path::{Path, PathBuf};

use walkdir::WalkDir;

use super::file::read_bounded;
use super::{PRICES, is_open, name_below, read_text_file};
use crate::failure::Failure;

/// Reads the logo beside the profile, up to a little more than the largest that is taken.
///
/// # Errors
/// The file cannot be read, or is a folder, pipe or device.
pub fn read_logo(profile: &Path, name: &str, most: u64) -> Result<Vec<u8>, Failure> {
    read_bounded(&profile.with_file_name(name), "read the logo", most)
}

/// Reads the price list beside the profile: its path and its bytes; `None` if there is none.
///
/// # Errors
/// The file cannot be read, or is a folder, pipe or device.
pub fn read_prices(profile: &Path) -> Result<Option<(PathBuf, Vec<u8>)>, Failure> {
    let path = profile.with_file_name(PRICES);
    match path.symlink_metadata() {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
        _ => read_text_file(&path, "read the price list").map(|bytes| Some((path, bytes))),
    }
}

/// Endings of templates and wordings; whatever else is beside them is not ours and harms nobody.
const TEMPLATE_ENDINGS: &[&str] = &["typ", "jinja", "yaml"];
/// Most files in a folder of templates, whatever they are, so that a home folder is not searched.
const MAX_ENTRIES: usize = 10_000;
/// Most templates and wordings of a workshop.
const MAX_TEMPLATES: usize = 500;
/// How deep templates may be: `wording/LANGUAGE/file` is three.
const TEMPLATE_DEPTH: usize = 8;

/// Reads a workshop's own templates by their path below the folder: path, shown path, bytes.
///
/// # Errors
/// The folder or a template in it cannot be read, or there are too many.
pub fn read_templates(
    profile: &Path,
    folder: &str,
) -> Result<Vec<(String, String, Vec<u8>)>, Failure> {
    let root = profile.with_file_name(folder);
    let failed = |cause: &dyn std::fmt::Display| Failure::on("read the templates in", &root, cause);
    fs::read_dir(&root).map_err(|error| failed(&error))?;
    let mut files = Vec::new();
    let walk = WalkDir::new(&root).follow_links(false).max_depth(TEMPLATE_DEPTH);
    for (n, entry) in walk.sort_by_file_name().into_iter().filter_entry(is_open).enumerate() {
        let entry = entry.map_err(|error| failed(&error))?;
        let ending =
            entry.path().extension().and_then(|ending| ending.to_str()).unwrap_or_default();
        if n == MAX_ENTRIES || files.len() == MAX_TEMPLATES {
            return Err(
                failed(&"it holds too many files").hint("give a folder that holds only templates")
            );
        }
        if entry.file_type().is_dir() || !TEMPLATE_ENDINGS.contains(&ending) {
            continue;
        }
        if let Some(name) = name_below(&root, entry.path()) {
            let bytes = read_text_file(entry.path(), "read the template")?;
            files.push((name, entry.path().display().to_string(), bytes));
        }
    }
    Ok(files)
}
