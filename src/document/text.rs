//! Small changes of a text that need no language.

/// The text with a capital first letter.
pub fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A typed text as a sentence: with a full stop where it ends without a mark.
pub fn ended(text: &str) -> String {
    let text = text.trim();
    let is_open = text.ends_with(|last: char| last.is_alphanumeric() || matches!(last, ')' | '%'));
    if is_open { format!("{text}.") } else { text.to_owned() }
}
