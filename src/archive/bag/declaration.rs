//! `bagit.txt` (RFC 8493, 2.1.1) and the text of tag files: bytes -> version, encoding, lines, and
//! what is wrong.

use super::names;
use crate::archive::layout::DECLARATION;
use crate::archive::problems::{self, Flaw};

/// The declaration that this program writes.
pub const TEXT: &str = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

/// What a bag declares of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Declaration {
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
pub const MAX_BYTES: u64 = 4096;

/// Reads the declaration. What cannot be read is taken to be version 1.0 in UTF-8, so that the
/// rest of the bag can still be reported.
pub fn read(bytes: &[u8]) -> (Declaration, Vec<Flaw>) {
    let mut declared = Declaration::default();
    let (lines, mut flaws) = lines(DECLARATION, bytes, Encoding::Utf8, false);
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

/// An encoding that tag files may have (RFC 8493, 2.1.1; UTF-8 since, others before).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8.
    #[default]
    Utf8,
    /// US-ASCII.
    Ascii,
    /// ISO-8859-1.
    Latin1,
    /// UTF-16 by its byte order mark, big-endian without one.
    Utf16,
    /// UTF-16, big-endian.
    Utf16Be,
    /// UTF-16, little-endian.
    Utf16Le,
}

impl Encoding {
    /// The encoding by its registered name.
    pub fn by_name(name: &str) -> Option<Self> {
        Some(match name.to_ascii_uppercase().as_str() {
            "UTF-8" => Self::Utf8,
            "US-ASCII" | "ASCII" => Self::Ascii,
            "ISO-8859-1" => Self::Latin1,
            "UTF-16" => Self::Utf16,
            "UTF-16BE" => Self::Utf16Be,
            "UTF-16LE" => Self::Utf16Le,
            _ => return None,
        })
    }

    fn text(self, bytes: &[u8]) -> Option<String> {
        match self {
            Self::Utf8 => std::str::from_utf8(bytes).ok().map(str::to_owned),
            Self::Ascii => {
                bytes.is_ascii().then(|| bytes.iter().copied().map(char::from).collect())
            }
            Self::Latin1 => Some(bytes.iter().copied().map(char::from).collect()),
            Self::Utf16 => match bytes {
                [0xff, 0xfe, rest @ ..] => utf16(rest, u16::from_le_bytes),
                [0xfe, 0xff, rest @ ..] => utf16(rest, u16::from_be_bytes),
                _ => utf16(bytes, u16::from_be_bytes),
            },
            Self::Utf16Be => utf16(bytes, u16::from_be_bytes),
            Self::Utf16Le => utf16(bytes, u16::from_le_bytes),
        }
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Option<String> {
    let (pairs, rest) = bytes.as_chunks::<2>();
    let units: Vec<u16> = pairs.iter().map(|pair| unit(*pair)).collect();
    if rest.is_empty() { String::from_utf16(&units).ok() } else { None }
}

/// The lines of a tag file, ended by LF, CR or both, and what is wrong with its text as a whole.
///
/// `needs_end` asks for an end of the last line too: without it, it may have been cut short.
pub fn lines(
    file: &str,
    bytes: &[u8],
    encoding: Encoding,
    needs_end: bool,
) -> (Vec<String>, Vec<Flaw>) {
    let mut flaws = Vec::new();
    let Some(text) = encoding.text(bytes) else {
        return (Vec::new(), vec![problems::text(file, "it is not text in the declared encoding")]);
    };
    let body = text.strip_prefix('\u{feff}').unwrap_or(&text);
    if body.len() < text.len() {
        flaws.push(problems::text(file, "it begins with a byte order mark"));
    }
    let mut lines: Vec<String> =
        body.replace("\r\n", "\n").split(['\n', '\r']).map(str::to_owned).collect();
    let is_ended = lines.last().is_some_and(String::is_empty);
    if is_ended {
        lines.pop();
    } else if needs_end {
        flaws.push(problems::text(file, "its last line has no end: it may have been cut short"));
    }
    (lines, flaws)
}
