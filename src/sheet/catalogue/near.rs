//! The rows of a table that come nearest to a name that is not in it.
//!
//! In: a typed name and the rows' names; out: at most six of them, nearest first. Names are
//! compared word by word (`drive-side-bearing` has three of the words of
//! `main-bearing-drive-side`) and letter by letter (`cranck-axle`), with the rows' other names.

/// How many rows are offered.
const MOST: usize = 6;
/// Likeness of two whole names, from 0 to 1, from which one is taken for a slip of the other.
const SLIP: f64 = 0.85;
/// Likeness of two single words from which they are taken for the same.
const SAME_WORD: f64 = 0.92;
/// Share of the typed words that a row must have.
const ENOUGH_WORDS: f64 = 0.5;

/// Names of the nearest rows; each row is its name and other words for it.
pub fn nearest<'a>(
    typed: &str,
    rows: impl Iterator<Item = (&'a str, &'a [String])>,
) -> Vec<&'a str> {
    let typed = typed.to_lowercase();
    let mut found: Vec<(f64, &str)> = rows
        .map(|(name, also)| {
            let others = also.iter().map(|other| likeness(&typed, other));
            (others.fold(likeness(&typed, name), f64::max), name)
        })
        .filter(|(likeness, _)| 0.0 < *likeness)
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    // If one row is as good as named, those that share but a word with it only distract.
    let best = found.first().map_or(0.0, |first| first.0);
    found.into_iter().filter(|one| best < one.0 + 0.25).take(MOST).map(|one| one.1).collect()
}

/// How like two names are, from 0 to 1; 0 if they have too little in common.
fn likeness(typed: &str, name: &str) -> f64 {
    let (typed_words, name_words) = (words(typed), words(name));
    if typed_words == name_words {
        return 1.0;
    }
    let is_there = |word: &&String| {
        name_words.iter().any(|other| SAME_WORD < strsim::jaro_winkler(word, other))
    };
    let n_there = number(typed_words.iter().filter(is_there).count());
    let share = n_there / number(typed_words.len().max(1));
    // The last word says what a part is, those before it which one.
    let is_such = typed_words.last().zip(name_words.last()).is_some_and(|(a, b)| a == b);
    let by_words = if share < ENOUGH_WORDS {
        0.0
    } else {
        let of_name = n_there / number(name_words.len().max(1));
        0.75 * share + 0.15 * of_name + if is_such { 0.05 } else { 0.0 }
    };
    let by_letters = strsim::jaro_winkler(typed, name);
    by_words.max(if SLIP < by_letters { 0.95 * by_letters } else { 0.0 })
}

/// The words of a name, without the `s` of a plural.
fn words(name: &str) -> Vec<String> {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words
        .map(|word| match word.strip_suffix('s') {
            Some(one) if 2 < one.len() && !one.ends_with('s') => one.to_owned(),
            _ => word.to_owned(),
        })
        .collect()
}

fn number(count: usize) -> f64 {
    count as f64
}
