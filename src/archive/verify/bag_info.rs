//! `bag-info.txt` (RFC 8493, 2.2.2): lines -> labels with values, and what is wrong.

use super::{Flaw, problems};

const FILE: &str = "bag-info.txt";

/// The fields of a `bag-info.txt`, in order.
#[derive(Debug, Default)]
pub(super) struct BagInfo {
    fields: Vec<(String, String)>,
    /// True where the file is there and could not be read.
    pub is_unread: bool,
}

impl BagInfo {
    /// One that could not be read.
    pub(super) fn unread() -> Self {
        Self { is_unread: true, ..Self::default() }
    }

    /// Reads the lines; a line that begins with white space goes on with the one before.
    pub(super) fn read(lines: &[String], is_strict: bool) -> (Self, Vec<Flaw>) {
        let mut info = Self::default();
        let mut flaws = Vec::new();
        for (at, line) in lines.iter().enumerate() {
            let number = at + 1;
            if line.starts_with([' ', '\t']) {
                match info.fields.last_mut() {
                    Some((_, value)) => value.extend([" ", line.trim()]),
                    None => flaws.push(problems::line(FILE, number, "it goes on with no line")),
                }
                continue;
            }
            let Some((label, value)) = line.split_once(':') else {
                // Before version 1.0 anything but labels was passed over.
                if is_strict {
                    flaws.push(problems::line(FILE, number, "it is no label with a colon"));
                }
                continue;
            };
            let is_spaced = value.is_empty() || value.starts_with([' ', '\t']);
            if is_strict && (label.is_empty() || label.ends_with([' ', '\t']) || !is_spaced) {
                let message = "a label ends at its colon, and white space follows";
                flaws.push(problems::line(FILE, number, message));
            }
            info.fields.push((label.trim().to_owned(), value.trim().to_owned()));
        }
        let oxums = info.all("Payload-Oxum").count();
        if is_strict && 1 < oxums {
            flaws.push(problems::text(FILE, "it counts the payload more than once"));
        }
        (info, flaws)
    }

    /// All values of a label, upper and lower case alike.
    pub(super) fn all<'a>(&'a self, label: &'a str) -> impl Iterator<Item = &'a str> {
        let same = move |(own, _): &&(String, String)| own.eq_ignore_ascii_case(label);
        self.fields.iter().filter(same).map(|(_, value)| value.as_str())
    }

    /// The first value of a label, upper and lower case alike.
    pub(super) fn value(&self, label: &str) -> Option<&str> {
        self.fields
            .iter()
            .find(|(own, _)| own.eq_ignore_ascii_case(label))
            .map(|(_, value)| value.as_str())
    }

    /// Holds `Payload-Oxum` against what is there.
    pub(super) fn check_oxum(&self, bytes: u64, files: usize) -> Option<Flaw> {
        let is = format!("{bytes}.{files}");
        self.all("Payload-Oxum").find(|says| *says != is).map(|says| problems::oxum(says, &is))
    }
}
