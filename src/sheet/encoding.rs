//! Bytes of a sheet or profile -> text, or one problem that says how to save the file.
//!
//! Refuses what is too long, not UTF-8, or holds control characters; a byte order mark is dropped.

use super::problems;
use crate::diagnostic::source::{Source, SourceText, is_unseen};
use crate::diagnostic::{Diagnostic, Place};

/// The longest sheet or profile that is read, in bytes.
pub const MAX_BYTES: usize = 1 << 20;

/// Decodes the bytes of a file that people write.
///
/// # Errors
/// One problem: too long, another encoding, or a control character.
pub fn decode(name: &str, bytes: &[u8]) -> Result<Source, Diagnostic> {
    let whole = || Place::whole(&SourceText::named(name));
    if MAX_BYTES < bytes.len() {
        return Err(problems::too_long(whole(), MAX_BYTES));
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(problems::other_encoding(whole(), "UTF-16"));
    }
    let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let line = bytes[..error.valid_up_to()].split(|&byte| byte == b'\n').count();
            return Err(problems::not_utf8(whole(), line));
        }
    };
    let source = SourceText::new(name, text);
    match text.char_indices().find(|&(_, c)| is_forbidden(c)) {
        Some((at, c)) => {
            Err(problems::control_character(Place::at(&source, at..at + c.len_utf8()), c))
        }
        None => Ok(source),
    }
}

/// True for what no sheet may hold: it is not seen, and steers or turns what is.
pub fn is_forbidden(c: char) -> bool {
    is_unseen(c) && !matches!(c, '\n' | '\r' | '\t')
}
