//! The words of the record: its own labels.

use crate::document::writer::Writer;

/// A label of the record.
pub fn word<'a>(writer: &Writer<'a>, key: &'a str) -> &'a str {
    writer.wording.choice("record", key)
}
