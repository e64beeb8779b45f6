//! `bagit.txt` (RFC 8493, 2.1.1): bytes -> version and encoding, and what is wrong with it.

use super::tag_text::{self, Encoding};
use super::{Flaw, names, problems};

/// What a bag declares of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Declaration {
    /// True from version 1.0 on, whose rules are stricter.
    pub is_strict: bool,
    /// Encoding of the tag files; `None` is one that is not known here.
    pub encoding: Option<Encoding>,
    /// The encoding's name as it is written.
    pub encoding_name: String,
}

impl Default for Declaration {
    fn default() -> Self {
        Self { is_strict: true, encoding: Some(Encoding::Utf8), encoding_name: "UTF-8".to_owned() }
    }
}

/// Versions whose rules are known.
const OLD_VERSIONS: &[&str] = &["0.93", "0.94", "0.95", "0.96", "0.97"];

/// Longest declaration in bytes; two lines need far less.
pub(super) const MAX_BYTES: u64 = 4096;

/// Reads the declaration. What cannot be read is taken to be version 1.0 in UTF-8, so that the
/// rest of the bag can still be told of.
pub(super) fn read(bytes: &[u8]) -> (Declaration, Vec<Flaw>) {
    let mut declared = Declaration::default();
    let (lines, mut flaws) = tag_text::lines("bagit.txt", bytes, Encoding::Utf8, false);
    if !flaws.is_empty() {
        return (declared, flaws);
    }
    let [version, encoding] = lines.as_slice() else {
        let message = format!("it has {} lines and not two", lines.len());
        return (declared, vec![problems::declaration(&message)]);
    };
    match version.strip_prefix("BagIt-Version: ") {
        Some("1.0") => {}
        Some(old) if OLD_VERSIONS.contains(&old.trim()) => declared.is_strict = false,
        _ => flaws.push(wrong_line(version, "no version that is known")),
    }
    let value = encoding.strip_prefix("Tag-File-Character-Encoding: ");
    let value = if declared.is_strict { value } else { value.map(str::trim) };
    match value {
        Some(name) if is_name(name) => {
            declared.encoding = Encoding::by_name(name);
            name.clone_into(&mut declared.encoding_name);
        }
        _ => flaws.push(wrong_line(encoding, "no encoding")),
    }
    (declared, flaws)
}

fn wrong_line(line: &str, what: &str) -> Flaw {
    let line = names::shown(line);
    problems::declaration(&format!("`{line}` declares {what}, to the letter"))
}

/// The form of a registered name of an encoding (RFC 2978, 2.3).
fn is_name(name: &str) -> bool {
    !name.is_empty() && name.chars().all(|c| c.is_ascii_graphic())
}
