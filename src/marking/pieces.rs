//! Marks, photos and findings as they are written into a sheet: typed values -> pieces of YAML.
//!
//! Only what was read and understood is written; no text of a saved file is copied over as it is.

use crate::sheet::findings::Finding;
use crate::sheet::photo_use::{Mark, MarkKind, PhotoUse};
use crate::sheet::piece::Piece;
use crate::sheet::quantity::Quantity;
use crate::sheet::signs::SignEntry;

/// A photo: its name alone, or with marks and caption.
pub fn photo(used: &PhotoUse, decimal_comma: bool) -> Piece {
    if used.marks.is_empty() && used.caption.is_none() {
        return Piece::word(&used.file.0);
    }
    let mut entries = vec![("file", Piece::word(&used.file.0))];
    entries.extend(used.caption.iter().map(|caption| ("caption", Piece::word(&caption.0))));
    if !used.marks.is_empty() {
        entries.push(("marks", marks(&used.marks, decimal_comma)));
    }
    Piece::Block(entries)
}

/// The marks of a photo.
pub fn marks(marks: &[Mark], decimal_comma: bool) -> Piece {
    Piece::List(marks.iter().map(|one| mark(one, decimal_comma)).collect())
}

/// One mark.
pub fn mark(mark: &Mark, decimal_comma: bool) -> Piece {
    let place = |at: &dyn std::fmt::Display| Piece::word(at.to_string());
    let mut entries = match &mark.kind {
        MarkKind::Ring(at, cells) => vec![("ring", place(at)), ("size", place(cells))],
        MarkKind::Arrow(tip, tail) => vec![("arrow", place(tip)), ("from", place(tail))],
        MarkKind::Box(at, to) => vec![("box", place(at)), ("to", place(to))],
        MarkKind::Label(at) => vec![("label", place(at))],
        MarkKind::Length(at, to, length) => {
            let measures = Piece::word(quantity(length, decimal_comma));
            vec![("length", place(at)), ("to", place(to)), ("measures", measures)]
        }
    };
    entries.extend(mark.text.iter().map(|text| ("text", Piece::word(&text.0))));
    Piece::Block(entries)
}

/// A quantity as typed in a sheet.
pub fn quantity(quantity: &Quantity, decimal_comma: bool) -> String {
    let number = quantity.number.to_string();
    let number = if decimal_comma { number.replace('.', ",") } else { number };
    format!("{number} {}", quantity.unit.spellings[0])
}

/// A finding, a line for each of its fields.
pub fn finding(finding: &Finding, decimal_comma: bool) -> Piece {
    let word = |text: &str| Piece::word(text);
    let photos = |photos: &[PhotoUse]| {
        Piece::List(photos.iter().map(|one| photo(one, decimal_comma)).collect())
    };
    let mut entries = vec![("part", word(finding.part.name()))];
    entries.extend(finding.called.iter().map(|called| ("called", word(&called.0))));
    entries.push(("condition", word(finding.condition.word())));
    let signs = finding.signs.entries().iter().map(|entry| match &entry.value {
        SignEntry::Known(sign) => word(sign.name()),
        SignEntry::Other(text) => Piece::Block(vec![("other", word(&text.0))]),
    });
    let signs: Vec<Piece> = signs.collect();
    if !signs.is_empty() {
        entries.push(("signs", Piece::List(signs)));
    }
    entries.extend(finding.bearing.iter().map(|bearing| ("bearing", word(&bearing.0))));
    entries.extend(finding.heading.iter().map(|heading| ("heading", word(&heading.0))));
    entries.extend(finding.note.iter().map(|note| ("note", word(&note.0))));
    if !finding.photos.is_empty() {
        entries.push(("photos", photos(&finding.photos)));
    }
    entries.extend(finding.action.iter().map(|action| ("action", word(action.word()))));
    if !finding.photos_after.is_empty() {
        entries.push(("photos-after", photos(&finding.photos_after)));
    }
    Piece::Fields(entries)
}
