//! The known words that are nearest to one that was typed, as advice.

use crate::sheet::lexicon::near;
use crate::sheet::shape::Choice;

/// `did you mean` for the nearest word, if one is near.
pub fn nearest(word: &str, words: &[&str]) -> Option<String> {
    let near = words.iter().map(|known| (strsim::jaro_winkler(word, known), known));
    let (likeness, known) = near.max_by(|a, b| a.0.total_cmp(&b.0))?;
    (0.85 < likeness).then(|| format!("did you mean `{known}`?"))
}

/// Most words that "did you mean" offers, of parts and of everything else.
const MOST_PARTS: usize = 6;
const MOST_OFFERED: usize = 3;

/// `did you mean` for the words that come nearest, by what people say for them; `None` if none is near.
pub(super) fn did_you_mean(kind: &str, found: &str, choices: &[Choice]) -> Option<String> {
    let most = if kind == "part" { MOST_PARTS } else { MOST_OFFERED };
    let near = near::nearest(kind, found, choices, most);
    let near: Vec<&str> = near.iter().map(String::as_str).collect();
    (!near.is_empty()).then(|| format!("did you mean {}?", either(&near)))
}

/// `a`, `b` or `c`.
pub(super) fn either(words: &[&str]) -> String {
    match words {
        [front @ .., last] if !front.is_empty() => format!("{} or `{last}`", listed(front)),
        words => listed(words),
    }
}

/// `a`, `b`, `c`.
pub(super) fn listed(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}
