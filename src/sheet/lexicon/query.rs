//! A text as typed -> its units, each with all that it may mean.
//!
//! In: a text, and the words of an index; out: [`Unit`]s. Several words that mean one thing
//! are one unit (`roue libre`), and one word that is made of two is two (`Hauptlager`).

use super::everyday::{MEANINGS, Meaning};
use super::fold;

/// Something that was looked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unit {
    /// Words as typed, folded.
    pub typed: Vec<String>,
    /// English words that they mean first of all.
    pub meant: Vec<String>,
    /// Other English words that they may mean.
    pub near: Vec<String>,
}

/// Most words of one everyday expression.
const MOST_WORDS: usize = 4;
/// Fewest letters of a word that may be made of two, and of each of the two.
const COMPOUND: usize = 7;
const PART_OF_COMPOUND: usize = 3;
/// Letters that join the parts of a compound.
const JOINTS: &[&str] = &["", "s", "n", "en", "er"];

/// The units of a text, for an index of these folded words.
pub fn units(text: &str, known: &[String]) -> Vec<Unit> {
    let words = fold::telling(text);
    let mut units = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let rest = &words[at..];
        let most = MOST_WORDS.min(rest.len());
        let several = (2..=most).rev().find_map(|n| expression(&rest[..n]));
        let n = several.as_ref().map_or(1, |unit| unit.typed.len());
        match several {
            Some(unit) => units.push(unit),
            None => units.extend(of_word(&words[at], known)),
        }
        at += n;
    }
    units
}

/// Several words as one unit, if the dictionary has them side by side.
fn expression(words: &[String]) -> Option<Unit> {
    let is_it = |meaning: &&Meaning| {
        let spoken = &meaning.spoken;
        spoken.len() == words.len()
            && spoken.iter().zip(words).all(|(a, b)| fold::is_same_stem(a, b))
    };
    let unit = Unit::of(words, MEANINGS.iter().filter(is_it));
    (!unit.meant.is_empty()).then_some(unit)
}

/// One word as a unit, or as several if it is made of others.
fn of_word(word: &str, known: &[String]) -> Vec<Unit> {
    let unit = by_dictionary(word);
    if !unit.meant.is_empty() || known.iter().any(|own| fold::is_same_stem(own, word)) {
        return vec![unit];
    }
    compound(word, known).unwrap_or_else(|| vec![by_slip(word)])
}

fn by_dictionary(word: &str) -> Unit {
    let exact = Unit::of_one(word, |own| own == word);
    if exact.meant.is_empty() {
        Unit::of_one(word, |own| fold::is_same_stem(own, word))
    } else {
        exact
    }
}

/// True for a word of the dictionary as it stands there.
fn is_spoken(word: &str) -> bool {
    MEANINGS.iter().any(|one| matches!(&one.spoken[..], [own] if own == word))
}

fn by_slip(word: &str) -> Unit {
    Unit::of_one(word, |own| fold::is_slip(own, word))
}

impl Unit {
    /// One word with all that it may mean by the words of the dictionary that are it.
    fn of_one(word: &str, is_it: impl Fn(&str) -> bool) -> Self {
        let is_it = |one: &&Meaning| matches!(&one.spoken[..], [own] if is_it(own));
        Self::of(&[word.to_owned()], MEANINGS.iter().filter(is_it))
    }

    fn of<'a>(typed: &[String], meanings: impl Iterator<Item = &'a Meaning>) -> Self {
        let (mut meant, mut near) = (Vec::new(), Vec::new());
        for say in meanings.map(|meaning| &meaning.say) {
            let (first, others) = say.split_at(say.len().min(1));
            meant.extend_from_slice(first);
            near.extend_from_slice(others);
        }
        Self { typed: typed.to_vec(), meant, near }
    }
}

/// A compound taken apart where both parts are known; the longest first part wins.
fn compound(word: &str, known: &[String]) -> Option<Vec<Unit>> {
    if word.chars().count() < COMPOUND {
        return None;
    }
    let is_known = |part: &str| is_spoken(part) || known.iter().any(|own| own == part);
    let places: Vec<usize> = word.char_indices().map(|(at, _)| at).collect();
    let places = places.get(PART_OF_COMPOUND..places.len() - PART_OF_COMPOUND + 1)?;
    places.iter().rev().find_map(|at| {
        let (first, last) = word.split_at(*at);
        let first = JOINTS.iter().filter_map(|joint| first.strip_suffix(joint));
        let first =
            first.filter(|first| PART_OF_COMPOUND <= first.len()).find(|one| is_known(one))?;
        let rest = match is_known(last) {
            true => vec![by_dictionary(last)],
            false => compound(last, known)?,
        };
        Some([vec![by_dictionary(first)], rest].concat())
    })
}
