//! The text of a tag file: bytes -> lines, in the encoding that the bag declares.

use super::Flaw;
use super::problems;

/// An encoding that tag files may have (RFC 8493, 2.1.1; UTF-8 since, others before).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Encoding {
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
    pub(super) fn by_name(name: &str) -> Option<Self> {
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
pub(super) fn lines(
    file: &str,
    bytes: &[u8],
    encoding: Encoding,
    needs_end: bool,
) -> (Vec<String>, Vec<Flaw>) {
    let mut flaws = Vec::new();
    let Some(text) = encoding.text(bytes) else {
        return (Vec::new(), vec![problems::text(file, "it is no text in the declared encoding")]);
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
