//! Where a problem of a photo is reported.

use crate::diagnostic::Place;
use crate::diagnostic::source::SourceText;
use crate::intake::JobFolder;
use crate::sheet::Sheet;

/// Where a sheet first names a photo.
pub(super) fn named(sheet: &Sheet, name: &str) -> Option<Place> {
    let used = sheet.fields.photo_uses().find(|used| used.file.0 == name)?;
    Some(sheet.place(&used.file.span))
}

/// Where a problem of a photo is reported: where the sheet first names it, else its file.
pub(super) fn place(folder: &JobFolder, sheet: Option<&Sheet>, name: &str) -> Place {
    sheet.and_then(|sheet| named(sheet, name)).unwrap_or_else(|| file_place(folder, name))
}

/// The file of a photo as a place.
pub(super) fn file_place(folder: &JobFolder, name: &str) -> Place {
    Place::whole(&SourceText::named(folder.shown_name(name)))
}
