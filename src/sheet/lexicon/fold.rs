//! Texts as bare words: small letters without accents, joined by nothing. Likeness of two such words.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Words of the six languages that say nothing by themselves.
const SMALL: &[&str] = &[
    "a", "an", "the", "of", "on", "at", "is", "are", "was", "were", "it", "its", "to", "from",
    "with", "and", "or", "that", "this", "has", "have", "had", "been", "be", "by", "for", "as",
    "into", "der", "die", "das", "den", "dem", "des", "ein", "eine", "einen", "im", "am", "an",
    "auf", "und", "ist", "mit", "von", "zu", "vom", "zur", "le", "la", "les", "l", "de", "du", "d",
    "un", "une", "dans", "sur", "au", "aux", "et", "est", "el", "los", "las", "del", "una", "en",
    "y", "es", "con", "por", "il", "lo", "i", "gli", "della", "dello", "dei", "delle", "di", "nel",
    "nella", "e", "da", "het", "een", "van", "op", "aan", "te", "s", "t",
];

/// The words of a text, folded: no accents, small letters, no signs.
pub fn words(text: &str) -> Vec<String> {
    let mut folded = String::with_capacity(text.len());
    for letter in text.nfkd().filter(|letter| !is_combining_mark(*letter)) {
        match letter {
            'ß' => folded.push_str("ss"),
            'æ' | 'Æ' => folded.push_str("ae"),
            'œ' | 'Œ' => folded.push_str("oe"),
            'ø' | 'Ø' => folded.push('o'),
            _ => folded.extend(letter.to_lowercase()),
        }
    }
    let parts = folded.split(|letter: char| !letter.is_alphanumeric());
    parts.filter(|part| !part.is_empty()).map(str::to_owned).collect()
}

/// The words of a text that say something; all of them if none does.
pub fn telling(text: &str) -> Vec<String> {
    let all = words(text);
    let telling: Vec<String> =
        all.iter().filter(|word| !SMALL.contains(&word.as_str())).cloned().collect();
    if telling.is_empty() { all } else { telling }
}

/// Endings of the shortest words: `pins`, `nuts`, `rusty`.
const SHORT_ENDINGS: &[&str] = &["s", "es", "e", "n", "en", "y"];
/// Most letters in which two forms of one word may differ at their ends.
const ENDING: usize = 3;
/// Fewest letters that two forms of one word begin with.
const STEM: usize = 4;

/// True for two forms of one word: the same but for their endings.
pub fn is_same_stem(one: &str, other: &str) -> bool {
    if one == other {
        return true;
    }
    let (short, long) = if one.len() <= other.len() { (one, other) } else { (other, one) };
    if 3 <= short.len()
        && long.strip_prefix(short).is_some_and(|ending| SHORT_ENDINGS.contains(&ending))
    {
        return true;
    }
    let stem = one.chars().zip(other.chars()).take_while(|(a, b)| a == b).count();
    let (one, other) = (one.chars().count(), other.chars().count());
    let longest = one.max(other);
    STEM <= stem && one - stem <= ENDING && other - stem <= ENDING && 6 * longest <= 10 * stem
}

/// True for a word that is another one but for a slip of the fingers: one letter too many, too few,
/// another or two changed round; two slips from eight letters on.
pub fn is_slip(one: &str, other: &str) -> bool {
    let longest = one.chars().count().max(other.chars().count());
    let most = match longest {
        0..=3 => return false,
        4..=7 => 1,
        _ => 2,
    };
    // Digits are no slips: 6804 is another bearing than 6805.
    let has_digit = |word: &str| word.bytes().any(|byte| byte.is_ascii_digit());
    !has_digit(one) && !has_digit(other) && strsim::osa_distance(one, other) <= most
}
