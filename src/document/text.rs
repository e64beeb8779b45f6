//! Small changes of a text that need no language.

/// The text with a capital first letter.
pub fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The text with a small first letter.
pub fn uncapitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// A typed text as a sentence: with a full stop if it ends without a mark.
pub fn ended(text: &str) -> String {
    let text = text.trim();
    let is_open = text.ends_with(|last: char| last.is_alphanumeric() || matches!(last, ')' | '%'));
    if is_open { format!("{text}.") } else { text.to_owned() }
}

/// Fills the words in braces of a form: `fill("{day} {month}", &[("day", "2"), ("month", "March")])`.
///
/// Values are never looked into, so that braces in what somebody typed stay as they are. A name in braces
/// that no value is given for stays as well.
pub fn fill(form: &str, values: &[(&str, &str)]) -> String {
    let mut filled = String::with_capacity(form.len());
    let mut rest = form;
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        let named = after.split_once('}').and_then(|(name, after)| {
            let value = values.iter().find(|(own, _)| *own == name)?;
            Some((value.1, after))
        });
        match named {
            Some((value, after)) => {
                filled.push_str(value);
                rest = after;
            }
            None => {
                filled.push('{');
                rest = after;
            }
        }
    }
    filled + rest
}
