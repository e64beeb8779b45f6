//! What the sheet says beside all other sections, as typed.

use crate::document::noted;
use crate::document::view::noted::Noted;
use crate::document::writer::Writer;

/// The notes of a job; `None` if every field is printed elsewhere.
pub fn noted(writer: &Writer<'_>) -> Option<Noted> {
    noted::noted(&writer.material.sheet.tree, writer.wording)
}
