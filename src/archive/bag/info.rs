//! `bag-info.txt` (RFC 8493, 2.2.2): fields and counts -> lines; lines -> labels with values, and
//! what is wrong.
//!
//! Not here: which workshop and job the fields name (the caller).

use chrono::NaiveDate;

use crate::archive::layout::INFO;
use crate::archive::problems::{self, Flaw};
use crate::failure::Failure;

/// Fields that are counted or dated here, whatever the caller says.
const OWN: &[&str] = &["Bagging-Date", "Keep-Until", "Bag-Size", "Payload-Oxum"];

/// How much is below `data/`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counted {
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
    counted: Counted,
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
    add("Bag-Size", &size(counted.bytes));
    add("Payload-Oxum", &format!("{}.{}", counted.bytes, counted.files));
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

/// The fields of a `bag-info.txt`, in order.
#[derive(Debug, Default)]
pub struct BagInfo {
    fields: Vec<(String, String)>,
    /// True if the file is there and could not be read.
    pub is_unread: bool,
}

impl BagInfo {
    /// One that could not be read.
    pub fn unread() -> Self {
        Self { is_unread: true, ..Self::default() }
    }

    /// Reads the lines; a line that begins with white space goes on with the one before.
    pub fn read(lines: &[String], is_strict: bool) -> (Self, Vec<Flaw>) {
        let mut info = Self::default();
        let mut flaws = Vec::new();
        for (at, line) in lines.iter().enumerate() {
            let number = at + 1;
            if line.starts_with([' ', '\t']) {
                match info.fields.last_mut() {
                    Some((_, value)) => value.extend([" ", line.trim()]),
                    None => flaws.push(problems::line(INFO, number, "it goes on with no line")),
                }
                continue;
            }
            let Some((label, value)) = line.split_once(':') else {
                // Before version 1.0 anything but labels was passed over.
                if is_strict {
                    flaws.push(problems::line(INFO, number, "it is not a label with a colon"));
                }
                continue;
            };
            let is_spaced = value.is_empty() || value.starts_with([' ', '\t']);
            if is_strict && (label.is_empty() || label.ends_with([' ', '\t']) || !is_spaced) {
                let message = "a label ends at its colon, and white space follows";
                flaws.push(problems::line(INFO, number, message));
            }
            info.fields.push((label.trim().to_owned(), value.trim().to_owned()));
        }
        let oxums = info.all("Payload-Oxum").count();
        if is_strict && 1 < oxums {
            flaws.push(problems::text(INFO, "it counts the payload more than once"));
        }
        (info, flaws)
    }

    /// All values of a label, upper and lower case alike.
    pub fn all<'a>(&'a self, label: &'a str) -> impl Iterator<Item = &'a str> {
        let same = move |(own, _): &&(String, String)| own.eq_ignore_ascii_case(label);
        self.fields.iter().filter(same).map(|(_, value)| value.as_str())
    }

    /// The first value of a label, upper and lower case alike.
    pub fn value(&self, label: &str) -> Option<&str> {
        self.fields
            .iter()
            .find(|(own, _)| own.eq_ignore_ascii_case(label))
            .map(|(_, value)| value.as_str())
    }

    /// Holds `Payload-Oxum` against what is there. Of files that were taken out the length is not known
    /// any more, only their number.
    pub fn check_oxum(&self, bytes: u64, files: usize, taken_out: usize) -> Option<Flaw> {
        let is = format!("{bytes}.{files}");
        if 0 < taken_out {
            let fits = |says: &str| {
                let (own, count) = says.split_once('.')?;
                let is_more = bytes <= own.parse::<u64>().ok()?;
                Some(is_more && count.parse() == Ok(files + taken_out))
            };
            return self
                .all("Payload-Oxum")
                .find(|says| fits(says) != Some(true))
                .map(|says| problems::oxum(says, &is));
        }
        self.all("Payload-Oxum").find(|says| *says != is).map(|says| problems::oxum(says, &is))
    }
}
