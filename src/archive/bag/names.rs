//! Names from outside: which are taken, how a manifest writes them, which another disk could lose,
//! how they are shown.
//!
//! A job number or path -> nothing, or why it is refused; paths -> those that clash.
//! Not here: reading the files.

use std::collections::BTreeMap;
use std::path::{Component, Path};

use unicode_normalization::UnicodeNormalization;

use crate::archive::layout::MAX_JOB;
use crate::failure::Failure;
use crate::sheet::text::is_device;

/// Longest path in bytes.
const MAX_PATH: usize = 4096;
/// Longest part of a name that is shown.
const SHOWN: usize = 240;

/// Refuses a job number that could not safely name a folder anywhere.
///
/// # Errors
/// It is not 1 to 49 ASCII letters, digits, `-`, `_`, begun by a letter or digit, or names a device.
pub fn check_job(job: &str) -> Result<(), Failure> {
    let is_safe = (1..=MAX_JOB).contains(&job.len())
        && job.starts_with(|c: char| c.is_ascii_alphanumeric())
        && job.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'))
        && !is_device(job);
    if is_safe {
        return Ok(());
    }
    Err(Failure::new(
        format!("find a place in the archive for the job `{}`", job.escape_debug()),
        "its number cannot name a folder",
    )
    .hint("use letters, digits, `-` and `_`, begun by a letter or digit, like `HD-2614`"))
}

/// Refuses a path that is not a plain one below a folder, with `/`.
///
/// # Errors
/// It is empty, absolute, holds `.` or `..` or an empty step, a zero byte, or a name that this
/// system would split further.
pub fn check_path(path: &str) -> Result<(), Failure> {
    if !path.contains('\0') && path.split('/').all(is_plain) {
        return Ok(());
    }
    let action = format!("seal the file `{}`", path.escape_debug());
    Err(Failure::new(action, "its name is not a plain path below the job folder"))
}

/// True for one step of a path that this system, too, reads as one name.
fn is_plain(name: &str) -> bool {
    let mut parts = Path::new(name).components();
    matches!(parts.next(), Some(Component::Normal(own)) if own == name) && parts.next().is_none()
}

/// True if every usual file system can keep a path under its name.
pub fn is_portable(path: &str) -> bool {
    path.split('/').all(|name| {
        !is_device(name)
            && !name.ends_with(['.', ' '])
            && !name.starts_with(' ')
            && !name.contains(|c: char| c.is_control() || r#"\:*?"<>|"#.contains(c))
    })
}

/// A path as a manifest writes it: CR, LF and `%` by their percent codes (RFC 8493, 2.1.3).
pub fn encode(path: &str) -> String {
    path.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// A path from a manifest; other percent codes stay as they are.
pub fn decode(path: &str) -> String {
    let mut rest = path;
    let mut out = String::with_capacity(path.len());
    while let Some(at) = rest.find('%') {
        let code = rest.get(at..at + 3).unwrap_or_default().to_ascii_uppercase();
        let plain = match code.as_str() {
            "%25" => Some('%'),
            "%0D" => Some('\r'),
            "%0A" => Some('\n'),
            _ => None,
        };
        out.push_str(&rest[..at]);
        out.push(plain.unwrap_or('%'));
        rest = &rest[at + if plain.is_some() { 3 } else { 1 }..];
    }
    out + rest
}

/// The first pairs of paths that differ only in case or Unicode form, in order, at most this many.
///
/// Folders count too: `Photos/a.jpg` and `photos/b.jpg` share one folder if case is ignored.
pub fn clashes<'a>(paths: impl Iterator<Item = &'a str>, most: usize) -> Vec<(&'a str, &'a str)> {
    let mut first: BTreeMap<String, &str> = BTreeMap::new();
    let mut found: Vec<(&str, &str)> = Vec::new();
    for path in paths {
        let ends = path.match_indices('/').map(|(at, _)| at).chain([path.len()]);
        for part in ends.map(|end| &path[..end]) {
            let other = *first.entry(fold(part)).or_insert(part);
            if found.len() == most {
                return found;
            }
            if other != part && !found.contains(&(other, part)) {
                found.push((other, part));
            }
        }
    }
    found
}

/// What is left of a name if case and Unicode form make no difference.
fn fold(path: &str) -> String {
    composed(&composed(path).to_lowercase())
}

/// Why a path, its percent codes decoded, could lead out of its bag; nothing if it cannot.
///
/// Backslashes part names on some systems, so each is looked at as if it did (RFC 8493, 5.2).
pub fn danger(path: &str) -> Option<&'static str> {
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
pub fn decoded(path: &str, percent_has_code: bool) -> String {
    if percent_has_code {
        return decode(path);
    }
    path.replace("%0A", "\n").replace("%0a", "\n").replace("%0D", "\r").replace("%0d", "\r")
}

/// The composed Unicode form (NFC), by which names are compared that differ in bytes.
pub fn composed(path: &str) -> String {
    if path.is_ascii() { path.to_owned() } else { path.nfc().collect() }
}

/// A name for people: what could steer a terminal or turn the line is escaped.
pub fn shown(name: &str) -> String {
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

/// The first names of a list as people read them, and how many more there are.
pub fn named(paths: &[&str]) -> String {
    const MOST: usize = 8;
    let mut text: Vec<String> =
        paths.iter().take(MOST).map(|path| format!("`{}`", shown(path))).collect();
    if paths.len() > MOST {
        text.push(format!("{} more", paths.len() - MOST));
    }
    text.join(", ")
}
