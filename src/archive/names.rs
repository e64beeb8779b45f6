//! Names from outside: which are taken, how a manifest writes them, which another disk could lose.
//!
//! A job number or file path -> nothing, or why it is refused; paths -> those that clash.
//! Not here: reading the files (payload).

use std::collections::BTreeMap;
use std::path::{Component, Path};

use unicode_normalization::UnicodeNormalization;

use crate::failure::Failure;
use crate::sheet::text::is_device;

/// Longest job number in bytes: the 40 of the sheet's reader, and room for `-owner`.
const MAX_JOB: usize = 46;

/// Refuses a job number that could not safely name a folder anywhere.
///
/// # Errors
/// It is not 1 to 46 ASCII letters, digits, `-`, `_`, begun by a letter or digit, or names a device.
pub fn check_job(job: &str) -> Result<(), Failure> {
    let is_safe = (1..=MAX_JOB).contains(&job.len())
        && job.starts_with(|c: char| c.is_ascii_alphanumeric())
        && job.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'))
        && !is_device(job);
    if is_safe {
        return Ok(());
    }
    Err(Failure::new(
        format!("seal the job `{}`", job.escape_debug()),
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
    Err(Failure::new(action, "its name is no plain path below the job folder"))
}

/// True for one step of a path that this system, too, reads as one name.
fn is_plain(name: &str) -> bool {
    let mut parts = Path::new(name).components();
    matches!(parts.next(), Some(Component::Normal(own)) if own == name) && parts.next().is_none()
}

/// True where every usual file system can keep a path under its name.
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

/// Pairs of paths that differ only in case or Unicode form, in order.
///
/// Folders count too: `Photos/a.jpg` and `photos/b.jpg` share one folder where case is ignored.
pub fn clashes<'a>(paths: impl Iterator<Item = &'a str>) -> Vec<(&'a str, &'a str)> {
    let mut first: BTreeMap<String, &str> = BTreeMap::new();
    let mut found: Vec<(&str, &str)> = Vec::new();
    for path in paths {
        let ends = path.match_indices('/').map(|(at, _)| at).chain([path.len()]);
        for part in ends.map(|end| &path[..end]) {
            let other = *first.entry(fold(part)).or_insert(part);
            if other != part && !found.contains(&(other, part)) {
                found.push((other, part));
            }
        }
    }
    found
}

/// What is left of a name where case and Unicode form make no difference.
fn fold(path: &str) -> String {
    path.nfc().collect::<String>().to_lowercase().nfc().collect()
}
