//! What a section of the overview is made of.

use serde::Serialize;

use crate::overview::curve::Curve;

/// A section: words, then lines of shares, a curve, a table, whichever it has.
#[derive(Debug, Default, Serialize)]
pub struct Section {
    /// Above it.
    pub heading: String,
    /// Its sentences.
    pub text: Vec<String>,
    /// Its lines of shares.
    pub shares: Vec<ShareLine>,
    /// Its curve.
    pub curve: Option<Curve>,
    /// Its table.
    pub table: Option<Table>,
}

/// A share as a dot on the line of its interval.
#[derive(Debug, Serialize)]
pub struct ShareLine {
    /// What it is of.
    pub name: String,
    /// Where the dot is, from 0 to 1.
    pub at: f64,
    /// Where the line begins.
    pub low: f64,
    /// Where it ends.
    pub high: f64,
    /// Share and interval in words.
    pub words: String,
    /// True for the first line of a group, which bears its name above it.
    pub group: Option<String>,
}

/// Columns and rows of words.
#[derive(Debug, Serialize)]
pub struct Table {
    /// Headings.
    pub columns: Vec<&'static str>,
    /// Cells of each row.
    pub rows: Vec<Vec<String>>,
}

/// A section with a table; none if that has no rows.
pub fn table(
    heading: &str,
    text: &str,
    columns: Vec<&'static str>,
    rows: Vec<Vec<String>>,
) -> Option<Section> {
    let text = if text.is_empty() { Vec::new() } else { vec![text.to_owned()] };
    (!rows.is_empty()).then(|| Section {
        heading: heading.to_owned(),
        text,
        table: Some(Table { columns, rows }),
        ..Section::default()
    })
}

/// `1 job`, `7 jobs`.
pub fn counted(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}
