//! An index of texts by their words, and how near each comes to what was typed.
//!
//! In: for each entry its spellings, each with a weight from 0 to 1; out: entries by likeness. A rare
//! word of the text weighs more than one that many entries have. The order of entries settles ties.

use std::collections::BTreeMap;

use super::fold;
use super::query::{self, Unit};

/// One spelling of an entry.
#[derive(Clone, Debug)]
pub struct Spelling {
    /// Its text.
    pub text: String,
    /// How much it counts, from 0 to 1.
    pub weight: f64,
    /// How much it loses if only a part of it was typed, from 0 to 1.
    pub whole: f64,
}

/// An entry that was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hit {
    /// Its place in the index.
    pub at: usize,
    /// How near it comes, from 0 to 1.
    pub likeness: f64,
}

/// Likeness of two forms of one word, of a beginning to its word, of a slip, of a word that means it.
const STEM: f64 = 0.93;
const BEGINNING: f64 = 0.8;
const SLIP: f64 = 0.8;
const MEANT: f64 = 0.97;
const NEAR: f64 = 0.9;
/// Fewest letters that are looked up as a beginning.
const FEWEST_LETTERS: usize = 3;
/// What all spellings of an entry together count beside one spelling alone.
const TOGETHER: f64 = 0.85;
/// Likeness of a name run together, and of a slip of it.
const RUN_TOGETHER: f64 = 0.98;
const SLIP_OF_ALL: f64 = 0.95;
/// Fewest letters of a whole name in which a slip is looked for although its words are known.
const LONG_NAME: usize = 12;

/// An index of entries by the words of their spellings.
#[derive(Debug, Default)]
pub struct Index {
    words: Vec<String>,
    /// How many entries have each word.
    spread: Vec<f64>,
    entries: Vec<Indexed>,
}

#[derive(Debug)]
struct Indexed {
    spellings: Vec<Told>,
    /// The names of full weight, their words run together.
    names: Vec<String>,
}

impl Index {
    /// An index of entries by their spellings.
    pub fn of(entries: impl Iterator<Item = Vec<Spelling>>) -> Self {
        let (mut index, mut places) = (Self::default(), BTreeMap::new());
        for spellings in entries {
            let mut own = Vec::new();
            let mut names = Vec::new();
            for Spelling { text, weight, whole } in spellings {
                let words = fold::telling(&text);
                if 1.0 <= weight {
                    names.push(words.concat());
                }
                let words = words.iter().map(|word| index.place(word, &mut places)).collect();
                own.push(Told { weight, whole, words });
            }
            let entry = Indexed { spellings: own, names };
            let mut words: Vec<usize> = entry.words().collect();
            words.sort_unstable();
            words.dedup();
            for word in words {
                index.spread[word] += 1.0;
            }
            index.entries.push(entry);
        }
        index
    }

    fn place(&mut self, word: &str, places: &mut BTreeMap<String, usize>) -> usize {
        *places.entry(word.to_owned()).or_insert_with(|| {
            self.words.push(word.to_owned());
            self.spread.push(0.0);
            self.words.len() - 1
        })
    }

    /// The entries that have something of a text, the nearest first, and which share of the text the
    /// index knows, from 0 to 1.
    pub fn find(&self, text: &str) -> (Vec<Hit>, f64) {
        let units = query::units(text, &self.words);
        let sought: Vec<Sought> = units.iter().map(|unit| self.sought(unit)).collect();
        let total: f64 = sought.iter().map(|one| one.weight).sum();
        let typed = fold::words(text).concat();
        let mut hits: Vec<Hit> = self
            .entries
            .iter()
            .enumerate()
            .map(|(at, entry)| {
                let by_words =
                    if total <= 0.0 { 0.0 } else { self.likeness(entry, &sought, total) };
                // A short word that is known is no slip of another.
                let may_slip = total <= 0.0 || LONG_NAME <= typed.len();
                let by_letters = entry.by_letters(&typed, may_slip);
                Hit { at, likeness: by_words.max(by_letters) }
            })
            .filter(|hit| 0.0 < hit.likeness)
            .collect();
        hits.sort_by(|a, b| b.likeness.total_cmp(&a.likeness).then(a.at.cmp(&b.at)));
        let known = sought.iter().filter(|one| 0.0 < one.weight).count();
        (hits, known as f64 / sought.len().max(1) as f64)
    }

    /// What a unit looks for: the strength of every word of the index for it.
    fn sought(&self, unit: &Unit) -> Sought {
        let mut strengths = vec![0.0; self.words.len()];
        let all = [(1.0, &unit.typed), (MEANT, &unit.meant), (NEAR, &unit.near)];
        for (kind, word) in
            all.iter().flat_map(|(kind, words)| words.iter().map(move |w| (kind, w)))
        {
            for (own, strength) in self.words.iter().zip(&mut strengths) {
                *strength = f64::max(*strength, kind * of_words(word, own));
            }
        }
        if strengths.iter().all(|strength| *strength <= 0.0) {
            for (own, strength) in self.words.iter().zip(&mut strengths) {
                let is_slip = unit.typed.iter().any(|word| fold::is_slip(word, own));
                *strength = if is_slip { SLIP } else { 0.0 };
            }
        }
        let has = |entry: &&Indexed| entry.words().any(|word| 0.0 < strengths[word]);
        let spread = self.entries.iter().filter(has).count();
        // What nothing in the index knows tells nothing apart.
        let weight = if spread == 0 { 0.0 } else { self.rarity(spread as f64) };
        Sought { strengths, weight }
    }

    fn rarity(&self, spread: f64) -> f64 {
        (1.0 + self.entries.len() as f64 / spread.max(1.0)).ln()
    }

    fn likeness(&self, entry: &Indexed, sought: &[Sought], total: f64) -> f64 {
        let mut best = 0.0_f64;
        let mut together = vec![0.0_f64; sought.len()];
        for Told { weight, whole, words } in &entry.spellings {
            let mut found = 0.0;
            for (one, together) in sought.iter().zip(&mut together) {
                let strength = words.iter().map(|word| one.strengths[*word]).fold(0.0, f64::max);
                found += one.weight * strength;
                *together = together.max(weight * strength);
            }
            let found = found / total;
            if 0.0 < found {
                let of_spelling = self.share(words, sought);
                best = best.max(weight * found * (1.0 - whole + whole * of_spelling));
            }
        }
        let together: f64 =
            sought.iter().zip(together).map(|(one, found)| one.weight * found).sum::<f64>() / total;
        best.max(TOGETHER * together)
    }

    /// How much of a spelling was typed.
    fn share(&self, words: &[usize], sought: &[Sought]) -> f64 {
        let mut parts = (0.0, 0.0);
        for word in words {
            let rarity = self.rarity(self.spread[*word]);
            let strength = sought.iter().map(|one| one.strengths[*word]).fold(0.0, f64::max);
            parts = (parts.0 + rarity * strength, parts.1 + rarity);
        }
        if parts.1 <= 0.0 { 0.0 } else { parts.0 / parts.1 }
    }
}

impl Indexed {
    fn words(&self) -> impl Iterator<Item = usize> {
        self.spellings.iter().flat_map(|one| one.words.iter().copied())
    }

    /// Likeness to a whole name letter by letter: `oring`, `cranckaxle`.
    fn by_letters(&self, typed: &str, may_slip: bool) -> f64 {
        let like = self.names.iter().map(|name| match name == typed {
            true if !typed.is_empty() => RUN_TOGETHER,
            false if may_slip && fold::is_slip(name, typed) => SLIP_OF_ALL,
            _ => 0.0,
        });
        like.fold(0.0, f64::max)
    }
}

/// A spelling by the places of its words.
#[derive(Debug)]
struct Told {
    weight: f64,
    whole: f64,
    words: Vec<usize>,
}

/// What one unit of a text looks for.
struct Sought {
    /// For every word of the index, how well it answers the unit.
    strengths: Vec<f64>,
    /// How much the unit tells apart.
    weight: f64,
}

/// How well a word of the index answers a word as typed.
fn of_words(typed: &str, own: &str) -> f64 {
    if typed == own {
        1.0
    } else if fold::is_same_stem(typed, own) {
        STEM
    } else if FEWEST_LETTERS <= typed.len() && own.starts_with(typed) {
        BEGINNING
    } else {
        0.0
    }
}
