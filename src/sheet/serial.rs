//! Serial numbers as they are compared, and a quick look for them in a sheet that is not read whole.
//!
//! In: a number as typed, or the bytes of a sheet; out: letters and digits in capitals. What a quick
//! look finds is only a reason to read the sheet: it may be a comment.

/// Fewer letters and digits than this are no serial number: `none`, `n/a`, `1`.
const LEAST: usize = 4;

/// Most numbers of one sheet that a quick look returns.
const MOST: usize = 8;

/// A serial number without spaces, hyphens and small letters, as two people may type it differently;
/// nothing for a word that is none, as `unreadable`: a number has a digit.
pub fn compared(typed: &str) -> Option<String> {
    let plain = typed.chars().filter(|letter| letter.is_alphanumeric());
    let plain: String = plain.flat_map(char::to_uppercase).collect();
    let is_number = LEAST <= plain.chars().count() && plain.contains(|c: char| c.is_numeric());
    is_number.then_some(plain)
}

/// What is behind `serial:` anywhere in a sheet, as [`compared`], at most eight.
pub fn glimpsed(sheet: &[u8]) -> Vec<String> {
    const KEY: &[u8] = b"serial";
    let mut found = Vec::new();
    let mut rest = sheet;
    while let Some(at) = rest.windows(KEY.len()).position(|bytes| bytes == KEY) {
        rest = &rest[at + KEY.len()..];
        let value = rest.trim_ascii_start().strip_prefix(b"\"").unwrap_or(rest.trim_ascii_start());
        let Some(value) = value.trim_ascii_start().strip_prefix(b":") else { continue };
        let is_end = |byte: &u8| matches!(byte, b',' | b'}' | b'\n' | b'\r' | b'#');
        let end = value.iter().position(is_end).unwrap_or(value.len());
        found.extend(std::str::from_utf8(&value[..end]).ok().and_then(compared));
        if found.len() == MOST {
            break;
        }
    }
    found
}
