//! Marks and findings put in with a finger: a page to open in any browser, and what it saved taken
//! back into the sheet.
//!
//! ```text
//! sheet + photos ─► page (one HTML file) ─► saved file ─► sheet, changed if it must be
//! ```
//!
//! In: a sheet as far as it can be read, photos, a saved file; out: the page, or the sheet's new text.
//! The sheet stays the only place where marks and findings are kept. No file is opened here.

mod change;
mod merge;
mod page;
mod page_data;
mod pieces;
mod places;
pub mod problems;
mod saved;
mod script_safe;

use crate::diagnostic::{Diagnostic, Problems};
use crate::photo::PrintSize;
use crate::sheet::{self, ProfileFile, Sheet, encoding};

pub use page::{FILE_NAME, page};
pub use page_data::PageOf;

/// Room of a photo on the page: sharp enough to find a pit, small enough to send a dozen of them.
pub fn page_size() -> PrintSize {
    PrintSize::of_mm(148.0, 148.0)
}

/// A saved file as it was given: the name that messages show, and its bytes.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a> {
    /// The name that messages show.
    pub name: &'a str,
    /// Its bytes, at most a little more than a sheet may have.
    pub bytes: &'a [u8],
}

/// What was taken out of a saved file.
#[derive(Debug)]
pub struct Taken {
    /// The new bytes of the sheet.
    pub sheet: Vec<u8>,
    /// True if the sheet says it all already.
    pub is_as_before: bool,
}

/// Takes the marks and findings of a saved file into a sheet.
///
/// Every byte of the sheet outside of what changes stays as it is, and the result is read again and
/// compared before it is given back. `photos` are the names of the job's photos.
///
/// # Errors
/// What is wrong with the saved file or the sheet, or why the change could not be made safely.
pub fn take(
    before: Given<'_>,
    workshop: &ProfileFile,
    saved: Given<'_>,
    photos: &[&str],
) -> Result<Taken, Vec<Diagnostic>> {
    let mut problems = Problems::default();
    let sheet = sheet::read(before.name, before.bytes, workshop, &mut problems);
    let n_errors = problems.n_errors();
    let Some(sheet) = sheet else { return Err(errors(problems)) };
    let decimal_comma = sheet::has_decimal_comma(Some(&sheet.tree), workshop);
    let mut found = Problems::default();
    let saved = saved::read(saved.name, saved.bytes, decimal_comma, &mut found);
    let Some(saved) = saved.filter(|_| !found.has_errors()) else { return Err(errors(found)) };
    let changes = merge::changes(&sheet, &saved, photos, decimal_comma)?;
    let text =
        changed(&sheet, &changes).ok_or_else(|| vec![problems::unsafe_change(&sheet, &changes)])?;
    let mut bytes = Vec::with_capacity(text.len() + 3);
    if before.bytes.starts_with(BYTE_ORDER_MARK) {
        bytes.extend(BYTE_ORDER_MARK);
    }
    bytes.extend(text.as_bytes());
    if encoding::MAX_BYTES < bytes.len() {
        return Err(vec![problems::unsafe_change(&sheet, &changes)]);
    }
    let mut problems = Problems::default();
    let after = sheet::read(before.name, &bytes, workshop, &mut problems);
    let expected = change::expected(&sheet.tree, &changes);
    match after {
        Some(after) if problems.n_errors() <= n_errors && change::same(&after.tree, &expected) => {
            Ok(Taken { is_as_before: bytes == before.bytes, sheet: bytes })
        }
        Some(after) if change::same(&after.tree, &expected) => Err(errors(problems)),
        _ => Err(vec![problems::unsafe_change(&sheet, &changes)]),
    }
}

const BYTE_ORDER_MARK: &[u8] = "\u{feff}".as_bytes();

fn changed(sheet: &Sheet, changes: &[change::Change]) -> Option<String> {
    change::made(sheet.source.text(), &sheet.tree, changes)
}

/// The errors among problems; warnings of a sheet are `check`'s business.
fn errors(problems: Problems) -> Vec<Diagnostic> {
    let mut all = problems.into_sorted();
    all.retain(|one| one.severity == crate::diagnostic::Severity::Error);
    all
}
