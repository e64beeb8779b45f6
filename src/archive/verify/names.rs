//! Paths from a stranger: whether they stay in the bag, how they compare, how they are shown.
//!
//! A path as written in a manifest or a tar -> the path that is meant, or why it is refused.

use std::collections::BTreeMap;

use unicode_normalization::UnicodeNormalization;

use crate::archive::names;

/// Longest path in bytes.
const MAX_PATH: usize = 4096;
/// Longest part of a name that is shown.
const SHOWN: usize = 240;

/// Why a path, its percent codes decoded, could lead out of its bag; nothing where it cannot.
///
/// Backslashes part names on some systems, so each is looked at as if it did (RFC 8493, 5.2).
pub(super) fn danger(path: &str) -> Option<&'static str> {
    let mut letters = path.chars();
    let is_drive =
        letters.next().is_some_and(|c| c.is_ascii_alphabetic()) && letters.next() == Some(':');
    let mut parts = path.split(['/', '\\']);
    if path.is_empty() {
        Some("an empty path")
    } else if path.len() > MAX_PATH {
        Some("a path longer than any disk keeps")
    } else if path.contains('\0') {
        Some("a path with a zero byte")
    } else if path.starts_with(['/', '\\']) || is_drive {
        Some("an absolute path")
    } else if path.starts_with('~') {
        Some("a path into somebody's home folder")
    } else if parts.clone().any(|part| part == "..") {
        Some("a path that climbs out of its folder")
    } else if parts.any(|part| part.is_empty() || part == ".") {
        Some("a path with an empty step")
    } else {
        None
    }
}

/// Takes the percent codes out of a path. Before version 1.0 a percent sign itself had no code.
pub(super) fn decoded(path: &str, percent_has_code: bool) -> String {
    if percent_has_code {
        return names::decode(path);
    }
    path.replace("%0A", "\n").replace("%0a", "\n").replace("%0D", "\r").replace("%0d", "\r")
}

/// The composed Unicode form (NFC), by which names are compared that differ in bytes.
pub(super) fn composed(path: &str) -> String {
    if path.is_ascii() { path.to_owned() } else { path.nfc().collect() }
}

/// The first pairs of paths that differ only in case or Unicode form, at most so many.
pub(super) fn clashes<'a>(
    paths: impl Iterator<Item = &'a str>,
    most: usize,
) -> Vec<(&'a str, &'a str)> {
    let mut first: BTreeMap<String, &str> = BTreeMap::new();
    let pairs = paths.filter_map(|path| {
        let folded = composed(&composed(path).to_lowercase());
        first.insert(folded, path).map(|other| (other, path))
    });
    pairs.take(most).collect()
}

/// A name for people: what could steer a terminal or turn the line is escaped.
pub(super) fn shown(name: &str) -> String {
    let steers = |c: char| {
        c.is_control()
            || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}')
    };
    let mut text = String::new();
    for c in name.chars().take(SHOWN) {
        if steers(c) { text.extend(c.escape_default()) } else { text.push(c) }
    }
    if name.chars().nth(SHOWN).is_some() {
        text.push('…');
    }
    text
}
