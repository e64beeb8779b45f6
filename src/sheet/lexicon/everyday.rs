//! The dictionary of everyday and foreign words, as a table a person can edit.
//!
//! In: `everyday.yaml`, embedded; out: what a word means in English, and other spellings of words of
//! the sheet.

use std::sync::LazyLock;

use serde::Deserialize;

use super::fold;
use crate::sheet::catalogue::embedded::embedded;

/// A row of the dictionary.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Plain English words of the index, each of which the others may mean.
    #[serde(default)]
    pub say: Vec<String>,
    /// Words of the sheet of which the others are spellings.
    #[serde(default)]
    pub word: Vec<String>,
    #[serde(default)]
    en: Vec<String>,
    #[serde(default)]
    de: Vec<String>,
    #[serde(default)]
    fr: Vec<String>,
    #[serde(default)]
    es: Vec<String>,
    #[serde(default)]
    it: Vec<String>,
    #[serde(default)]
    nl: Vec<String>,
}

impl Row {
    /// The everyday words of every language.
    pub fn spoken(&self) -> impl Iterator<Item = &str> {
        let all = [&self.en, &self.de, &self.fr, &self.es, &self.it, &self.nl];
        all.into_iter().flatten().map(String::as_str)
    }
}

/// Every row, in the order of the table.
pub static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| embedded(include_str!("everyday.yaml")));

/// An everyday word, folded, with the English words that it means.
pub struct Meaning {
    /// Its words: `roue libre` has two.
    pub spoken: Vec<String>,
    /// What it means, folded.
    pub say: Vec<String>,
}

/// Every word with a meaning in English.
pub static MEANINGS: LazyLock<Vec<Meaning>> = LazyLock::new(|| {
    let folded = |say: &String| fold::words(say).concat();
    let of_row = |row: &'static Row| {
        let say: Vec<String> = row.say.iter().map(folded).collect();
        row.spoken().map(move |spoken| Meaning { spoken: fold::telling(spoken), say: say.clone() })
    };
    ROWS.iter().filter(|row| !row.say.is_empty()).flat_map(of_row).collect()
});

/// The everyday spellings of a word of the sheet.
pub fn spellings(word: &str) -> impl Iterator<Item = &'static str> {
    let rows = ROWS.iter().filter(move |row| row.word.iter().any(|own| own == word));
    rows.flat_map(Row::spoken)
}
