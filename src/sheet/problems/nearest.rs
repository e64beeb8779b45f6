//! The known word that is nearest to one that was typed.

/// `did you mean` for the nearest word, if one is near.
pub fn nearest(word: &str, words: &[&str]) -> Option<String> {
    let near = words.iter().map(|known| (strsim::jaro_winkler(word, known), known));
    let (likeness, known) = near.max_by(|a, b| a.0.total_cmp(&b.0))?;
    (0.85 < likeness).then(|| format!("did you mean `{known}`?"))
}
