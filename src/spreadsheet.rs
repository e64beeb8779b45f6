//! Rows of words as CSV (RFC 4180), for a spreadsheet.
//!
//! In: a heading and rows; out: text. Which tables there are is `standing::table`'s and
//! `overview::table`'s.

use crate::failure::Failure;

/// A table with its heading.
///
/// # Errors
/// It cannot be written, which memory does not refuse.
pub fn csv(head: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Result<String, Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::new("write the table", error);
    let mut table =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    table.write_record(head).map_err(|error| failed(&error))?;
    for row in rows {
        table.write_record(row.into_iter().map(plain)).map_err(|error| failed(&error))?;
    }
    let bytes = table.into_inner().map_err(|error| failed(&error))?;
    String::from_utf8(bytes).map_err(|error| failed(&error))
}

/// A cell that a spreadsheet does not take for a formula: those begin with one of four signs.
fn plain(cell: String) -> String {
    if cell.starts_with(['=', '+', '-', '@']) { format!("'{cell}") } else { cell }
}
