//! The text of `bag-info.txt` (RFC 8493, 2.2.2): fields and what was counted -> lines.
//!
//! Not here: which workshop and job the fields speak of (the caller).

use chrono::NaiveDate;

use crate::failure::Failure;

/// Fields that are counted or dated here, whatever the caller says.
const OWN: &[&str] = &["Bagging-Date", "Keep-Until", "Bag-Size", "Payload-Oxum"];

/// How much lies below `data/`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Payload {
    /// Bytes of all files.
    pub bytes: u64,
    /// Number of files.
    pub files: usize,
}

/// Writes the lines: the caller's fields in their order, then dates and counts. An empty field is
/// left out, and runs of white space and control characters become one space.
///
/// # Errors
/// A label is empty, holds a colon or white space, or is one of those that are written here.
pub fn text(
    fields: &[(String, String)],
    bagging_date: NaiveDate,
    keep_until: Option<NaiveDate>,
    payload: Payload,
) -> Result<String, Failure> {
    let mut text = String::new();
    let mut add = |label: &str, value: &str| {
        let is_gap = |c: char| c.is_whitespace() || c.is_control() || c == '\u{feff}';
        let value: Vec<&str> = value.split(is_gap).filter(|word| !word.is_empty()).collect();
        if !value.is_empty() {
            text.extend([label, ": ", &value.join(" "), "\n"]);
        }
    };
    for (label, value) in fields {
        let is_word = |c: char| c.is_ascii_graphic() && c != ':';
        let is_own = OWN.iter().any(|own| own.eq_ignore_ascii_case(label));
        if label.is_empty() || is_own || !label.chars().all(is_word) {
            let cause = format!("`{}` cannot be a label here", label.escape_debug());
            return Err(Failure::new("write `bag-info.txt`", cause));
        }
        add(label, value);
    }
    add("Bagging-Date", &bagging_date.to_string());
    add("Keep-Until", &keep_until.map(|day| day.to_string()).unwrap_or_default());
    add("Bag-Size", &size(payload.bytes));
    add("Payload-Oxum", &format!("{}.{}", payload.bytes, payload.files));
    Ok(text)
}

/// A size for people, in units of a thousand, to one decimal: `4.2 MB`.
fn size(bytes: u64) -> String {
    let units =
        [("TB", 1_000_000_000_000), ("GB", 1_000_000_000), ("MB", 1_000_000), ("kB", 1_000)];
    match units.iter().find(|(_, unit)| bytes >= *unit) {
        Some((name, unit)) => format!("{}.{} {name}", bytes / unit, bytes % unit / (unit / 10)),
        None => format!("{bytes} B"),
    }
}

/// The value of a field in the text of a `bag-info.txt`; the first one of that label.
pub fn value<'a>(text: &'a str, label: &str) -> Option<&'a str> {
    text.lines().find_map(|line| Some(line.strip_prefix(label)?.strip_prefix(": ")?.trim()))
}
