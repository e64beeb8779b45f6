//! The number of a job before its sheet is read: to find two jobs of one number, and for papers of a
//! job that has none yet.

use std::path::Path;

use crate::intake::{self, JobFolder};
use crate::sheet;

/// The number of a job without reading the rest of its sheet.
pub fn peek(folder: &Path) -> Option<String> {
    let bytes = intake::read_text_file(&folder.join(intake::SHEET), "read the sheet").ok()?;
    sheet::peek_number(&bytes)
}

/// The name under which papers of a job without a number are kept: its folder's, as far as it can name
/// a job.
pub fn of_folder(folder: &JobFolder) -> String {
    of_path(&folder.path)
}

/// The same for a folder that was not opened.
pub fn of_path(folder: &Path) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() || matches!(c, '-' | '_') { c } else { '-' };
    let name = intake::name_of(folder).unwrap_or_default();
    let name: String = name.trim().chars().map(plain).take(40).collect();
    if sheet::text::is_job_number(&name) { name } else { "job".to_owned() }
}
