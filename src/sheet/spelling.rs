//! The spelling of fields' names and of words to choose from. In: text as typed; out: as defined.

/// A word as the definitions spell it: small letters, hyphens between its parts.
pub fn as_word(typed: &str) -> String {
    let parts: Vec<String> = typed
        .split([' ', '_', '-'])
        .filter(|part| !part.is_empty())
        .map(str::to_lowercase)
        .collect();
    parts.join("-")
}
