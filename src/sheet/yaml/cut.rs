//! Text that YAML takes for a remark because a `#` follows a blank: `complaint: error #503 on display`.
//!
//! In: the text and where a value without quotes ends; out: what is cut off, if it looks like
//! text. A remark is `# ` with a blank behind it, or `#` well away from the value.

use std::ops::Range;

/// What a `#` cuts off a value that ends at `end`, without the blanks around it; `None` for none and
/// for a remark.
pub(super) fn after(text: &str, end: usize) -> Option<Range<usize>> {
    let line = text.get(end..)?.lines().next()?;
    let rest = line.trim_start_matches([' ', '\t']);
    let n_blanks = line.len() - rest.len();
    let behind = rest.strip_prefix('#')?;
    let is_cut = match behind.chars().next()? {
        next if next.is_whitespace() || matches!(next, '#' | '!' | '-' | '=') => false,
        next if next.is_ascii_digit() => true,
        _ => n_blanks < 2,
    };
    let start = end + n_blanks;
    is_cut.then(|| start..start + rest.trim_end().len())
}
