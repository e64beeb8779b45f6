//! Why a line of text is not YAML, if quotes would mend it.
//!
//! In: the text and where the parser gave up; out: the [`Slip`] on that line or the one above. The
//! advice in words is `problems.rs`.

use std::ops::Range;

/// A slip that quotes mend, with the key of the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slip<'a> {
    /// `: ` inside the text.
    Colon(&'a str),
    /// A first letter that means something to YAML.
    First(&'a str, char),
    /// `'` inside text in single quotes.
    Apostrophe(&'a str),
    /// Text behind a closing quote or bracket.
    Behind(&'a str, char),
    /// A file name with a block behind it: `[one.jpg {ring: F4}]`.
    Mark(&'a str),
}

/// The slip that the parser met at a byte of the text, with the bytes of its value; `None` if none
/// is recognised.
pub(super) fn at(text: &str, at: usize) -> Option<(Slip<'_>, Range<usize>)> {
    let before = text.get(..at)?;
    let start = before.rfind('\n').map_or(0, |end| end + 1);
    let line = text.get(start..)?.lines().next().unwrap_or_default();
    let above = text.get(..start)?.lines().rev().find(|line| !line.trim().is_empty());
    [Some(line), above].into_iter().flatten().find_map(|line| {
        let slip = of_line(line)?;
        // Both are slices of the text, so their difference is the line's place in it.
        let start = line.as_ptr() as usize - text.as_ptr() as usize;
        let value = line.find(": ")? + 2;
        Some((slip, start + value..start + line.len()))
    })
}

fn of_line(line: &str) -> Option<Slip<'_>> {
    let line = line.trim().trim_start_matches("- ");
    let (key, value) = line.split_once(": ")?;
    let is_key = !key.is_empty() && key.chars().all(|c| c.is_alphanumeric() || "-_".contains(c));
    let value = value.split(" #").next().unwrap_or_default().trim();
    let first = value.chars().next().filter(|_| is_key)?;
    let inside = &value[first.len_utf8()..];
    match first {
        '@' | '`' | '%' => Some(Slip::First(key, first)),
        '-' => inside.starts_with(' ').then_some(Slip::First(key, first)),
        // A long text starts on the next line; behind the sign there is at most one more letter.
        '>' | '|' => (1 < inside.trim().len()).then_some(Slip::First(key, first)),
        '\'' => behind(inside, '\'').map(|_| Slip::Apostrophe(key)),
        '"' => behind(inside, '"').map(|last| Slip::Behind(key, last)),
        '{' => behind(inside, '}').map(|last| Slip::Behind(key, last)),
        '[' if has_bare_block(inside) => Some(Slip::Mark(key)),
        '[' => behind(inside, ']').map(|last| Slip::Behind(key, last)),
        _ => (value.contains(": ") && !is_in_braces(value)).then_some(Slip::Colon(key)),
    }
}

/// True if a line goes on with a block in braces that was opened above it: its colons are the block's.
fn is_in_braces(value: &str) -> bool {
    let count = |signs: [char; 2]| value.matches(signs).count();
    value.ends_with(',') || count(['{', '[']) < count(['}', ']'])
}

/// True if a block in braces follows a word without a comma or colon between them.
fn has_bare_block(inside: &str) -> bool {
    let mut before = inside.match_indices('{').map(|(at, _)| inside[..at].trim_end());
    before.any(|before| before.ends_with(|c: char| c.is_alphanumeric()))
}

/// The closing sign, if text follows it that is no remark.
fn behind(inside: &str, last: char) -> Option<char> {
    let (_, rest) = inside.split_once(last)?;
    let rest = rest.trim_start();
    (!rest.is_empty() && !rest.starts_with(['#', ',', ']', '}'])).then_some(last)
}
