//! Data and scripts inside an HTML page: JSON that cannot end its element, base64, digests for the
//! page's policy.
//!
//! In: values and texts; out: text that an HTML parser takes for nothing else.

use serde::Serialize;

use crate::digest::Digest;
use crate::failure::Failure;

/// Digits of base64 (RFC 4648, section 4).
const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Bytes in base64 with padding.
pub fn base64(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let byte = |at: usize| u32::from(chunk.get(at).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for at in 0..4_usize {
            let digit = (bits >> (18 - 6 * at)) & 63;
            let is_padding = chunk.len() < at;
            text.push(if is_padding { '=' } else { char::from(DIGITS[digit as usize]) });
        }
    }
    text
}

/// Data as JSON for a `script` element: no sign of it can be taken for a tag, a comment or a line's end.
///
/// # Errors
/// The data cannot be written as JSON.
pub fn json(data: &impl Serialize) -> Result<String, Failure> {
    let text = serde_json::to_string(data)
        .map_err(|error| Failure::new("write the data of the marking page", error))?;
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '<' => safe.push_str("\\u003c"),
            '>' => safe.push_str("\\u003e"),
            '&' => safe.push_str("\\u0026"),
            '\u{2028}' => safe.push_str("\\u2028"),
            '\u{2029}' => safe.push_str("\\u2029"),
            _ => safe.push(c),
        }
    }
    Ok(safe)
}

/// A source that a content security policy allows: the digest of an inline script or style (W3C,
/// Content Security Policy Level 3, section 2.3.1).
pub fn policy_source(text: &str) -> String {
    format!("'sha256-{}'", base64(Digest::of(text.as_bytes()).bytes()))
}

/// Text between tags.
pub fn text(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::base64;

    /// The test vectors of RFC 4648, section 10.
    #[test]
    fn base64_is_that_of_its_standard() {
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
