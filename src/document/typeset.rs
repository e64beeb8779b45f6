//! The signs that print has and a keyboard lacks: curly apostrophes and quotation marks, a space between
//! number and unit at which no line is broken (SI Brochure, 9th ed., 5.4.3), and where a run too long for
//! a line may be broken.
//!
//! In: the data of a template; out: the same with every text as it is printed. Names of files stay.

use serde_json::Value;

/// Fields that are not text on a page: virtual files, words for those who cannot see, properties.
const NOT_SET: [&str; 7] = ["file", "alt", "title", "author", "description", "name", "modules"];
/// A break that prints nothing, which `literal` of `voice.typ` looks for.
const BREAK: char = '\u{200b}';
/// What is before a text with a word that only hyphens can break; `literal` looks for it.
const HYPHENATED: char = '\u{2063}';
/// Longest run without a break that fits every column.
const FITS: usize = 20;
/// Letters alone are hyphenated up to this many, and beyond that broken anywhere.
const HYPHENATES: usize = 60;
/// Letters or figures between two breaks.
const PIECE: usize = 12;
const NO_BREAK: char = '\u{a0}';
const NARROW: char = '\u{202f}';

/// Units that are typed behind a number and a space.
const UNITS: [&str; 42] = [
    "mm", "cm", "m", "km", "mi", "ft", "µm", "ml", "l", "g", "kg", "N", "Nm", "N·m", "V", "mV",
    "A", "Ah", "W", "Wh", "Hz", "dB", "h", "min", "s", "K", "°C", "°F", "Ω", "mΩ", "kΩ", "MΩ",
    "bar", "mbar", "mph", "km/h", "%", "rpm", "Mohm", "mohm", "kohm", "ohm",
];

/// Every text of a value as it is printed.
pub fn all(value: &mut Value) {
    match value {
        Value::String(text) => {
            let has_signs = text.contains(['\'', '"', NARROW]) || has_unit(text);
            if has_signs {
                *text = typeset(text);
            }
            if let Some(broken) = with_breaks(text) {
                *text = broken;
            }
        }
        Value::Array(items) => items.iter_mut().for_each(all),
        Value::Object(fields) => {
            let set = fields.iter_mut().filter(|(key, _)| !NOT_SET.contains(&key.as_str()));
            set.for_each(|(_, field)| all(field));
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// A text with breaks in its long runs; `None` if it has none.
fn with_breaks(text: &str) -> Option<String> {
    if text.len() <= FITS || !text.split(' ').any(|run| FITS < run.len()) {
        return None;
    }
    let is_word = |run: &str| run.chars().all(|c| c.is_alphabetic() || c == '-');
    let long = |run: &str| FITS < run.chars().count();
    let mut hyphenates = false;
    let runs = text.split(' ').map(|run| match run {
        run if long(run) && is_word(run) && run.chars().count() <= HYPHENATES => {
            hyphenates = true;
            run.to_owned()
        }
        run if long(run) => broken(run),
        run => run.to_owned(),
    });
    let runs = runs.collect::<Vec<_>>().join(" ");
    Some(if hyphenates { format!("{HYPHENATED}{runs}") } else { runs }).filter(|set| set != text)
}

/// A run that may be broken behind its signs, and behind every twelve letters or figures.
fn broken(run: &str) -> String {
    let mut set = String::with_capacity(run.len() + run.len() / 4);
    let (mut count, mut signs) = (0, false);
    for letter in run.chars() {
        let is_sign = !letter.is_alphanumeric();
        if !is_sign && (signs || PIECE <= count) && !set.is_empty() {
            set.push(BREAK);
            count = 0;
        }
        set.push(letter);
        count += 1;
        signs = is_sign;
    }
    set
}

fn has_unit(text: &str) -> bool {
    text.as_bytes().windows(2).any(|pair| pair[0].is_ascii_digit() && pair[1] == b' ')
}

/// A text as it is printed.
pub fn typeset(text: &str) -> String {
    let mut set = String::with_capacity(text.len() + 8);
    let mut before = ' ';
    for (at, letter) in text.char_indices() {
        let rest = &text[at + letter.len_utf8()..];
        let next = rest.chars().next().unwrap_or(' ');
        // Behind a figure these are feet and inches.
        let opens = before.is_whitespace() || matches!(before, '(' | '[' | '“' | '‘' | '—' | '–');
        set.push(match letter {
            '\'' if opens && next.is_alphanumeric() => '‘',
            '\'' if before.is_alphabetic() || matches!(before, '.' | ',' | '!' | '?') => '’',
            '"' if opens && !next.is_whitespace() => '“',
            '"' if !before.is_ascii_digit() && !opens => '”',
            NARROW if !next.is_ascii_digit() => NO_BREAK,
            ' ' if before.is_ascii_digit() && is_unit(rest) => NO_BREAK,
            other => other,
        });
        before = letter;
    }
    set
}

/// True if a text begins with a unit as a word of its own.
fn is_unit(text: &str) -> bool {
    let end = text.find(|c: char| c.is_whitespace() || matches!(c, ',' | '.' | ';' | ')' | ':'));
    UNITS.contains(&&text[..end.unwrap_or(text.len())])
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test that meets the unexpected fails")]
mod tests {
    use super::{typeset, with_breaks};

    #[test]
    fn apostrophes_curl_and_numbers_keep_their_units() {
        assert_eq!(typeset("the workshop's \"own\" bike"), "the workshop’s “own” bike");
        assert_eq!(typeset("'Clean', he said; riders' words"), "‘Clean’, he said; riders’ words");
        assert_eq!(typeset("a 29\" wheel, 5' 9\""), "a 29\" wheel, 5' 9\"");
        assert_eq!(
            typeset("40 ml of water at 1840\u{202f}mi"),
            "40\u{a0}ml of water at 1840\u{a0}mi"
        );
        assert_eq!(typeset("12\u{202f}345\u{202f}km"), "12\u{202f}345\u{a0}km");
        assert_eq!(typeset("Photos 2, 3 mark 4 minutes"), "Photos 2, 3 mark 4 minutes");
    }

    #[test]
    fn long_runs_may_be_broken_and_long_words_hyphenated() {
        assert_eq!(with_breaks("an ordinary line of words, longer than a column"), None);
        let address = with_breaks("first.second@example.org-of-a-shop").unwrap();
        assert_eq!(address.split('\u{200b}').count(), 7, "{address}");
        let word = with_breaks("die Elektrofahrradantriebseinheit").unwrap();
        assert_eq!(word, "\u{2063}die Elektrofahrradantriebseinheit");
        let endless = with_breaks(&"x".repeat(300)).unwrap();
        assert!(endless.split('\u{200b}').all(|piece| piece.len() <= 12));
    }
}
