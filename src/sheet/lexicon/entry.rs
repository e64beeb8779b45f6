//! A word that a sheet may hold, with all by which it is found and all that is said of it.

use super::everyday;
use super::index::Spelling;
use super::readings::{Reading, reading};
use crate::sheet::shape::Choice;

/// A word that a sheet may hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The kind of its list, as the tables of the documents call it: `part`, `condition`.
    pub kind: String,
    /// The word as typed.
    pub word: String,
    /// The word that it is read as, if it is a second spelling.
    pub same_as: Option<String>,
    /// What it means; empty if the papers' words say it.
    pub about: String,
    /// What the papers make of it.
    pub reading: Reading,
    /// Other words of the trade for it.
    pub also: Vec<String>,
    /// Groups of parts, or kinds of unit, that it belongs to.
    pub on: Vec<String>,
}

/// How much a spelling counts: a name, what the customer reads, the trade's term, what it does, and the
/// names of its kind and group.
const NAME: f64 = 1.0;
const PAPER: f64 = 0.85;
const TRADE: f64 = 0.8;
const ABOUT: f64 = 0.55;
const KIND: f64 = 0.35;
/// How much a spelling loses of which only a part was typed; an everyday one is meant as a whole.
const PART: f64 = 0.35;
const PART_OF_SPOKEN: f64 = 0.75;

impl Entry {
    /// A word of a list of this kind.
    pub fn of(kind: &str, choice: &Choice) -> Self {
        let meant = choice.same_as.unwrap_or(&choice.word);
        Self {
            kind: kind.to_owned(),
            word: choice.word.clone(),
            same_as: choice.same_as.map(str::to_owned),
            about: choice.about.to_owned(),
            reading: reading(kind, meant),
            also: choice.also.clone(),
            on: choice.on.clone(),
        }
    }

    /// All by which it is found, each with its weight.
    pub fn spellings(&self) -> Vec<Spelling> {
        let told = |weight, text: &str| Spelling { text: text.to_owned(), weight, whole: PART };
        let mut all = vec![told(NAME, &self.word)];
        all.extend(self.also.iter().map(|also| told(NAME, also)));
        let spoken = everyday::spellings(&self.word);
        all.extend(spoken.map(|text| Spelling { whole: PART_OF_SPOKEN, ..told(NAME, text) }));
        let Reading { paper, gloss, trade } = &self.reading;
        all.extend(paper.iter().map(|text| told(PAPER, text)));
        // What there is to see of a sign says as much as its heading.
        let of_gloss = if trade.is_some() { PAPER } else { ABOUT };
        all.extend(gloss.iter().map(|text| told(of_gloss, text)));
        all.extend(trade.iter().map(|text| told(TRADE, text)));
        all.push(told(ABOUT, &self.about));
        all.push(told(KIND, &format!("{} {}", self.kind, self.on.join(" "))));
        all
    }

    /// What is said of it, in one line: what it means, what the customer reads, what the trade says.
    pub fn description(&self) -> String {
        let Reading { paper, gloss, trade } = &self.reading;
        let mut said = Vec::new();
        said.extend(self.same_as.iter().map(|same| format!("Read as `{same}`.")));
        said.extend((!self.about.is_empty()).then(|| self.about.clone()));
        said.extend(paper.iter().map(|paper| format!("The customer reads: {paper}.")));
        said.extend(gloss.iter().filter(|_| self.kind == "part").map(|gloss| sentence(gloss)));
        said.extend(trade.iter().map(|trade| format!("The trade says: {trade}.")));
        said.extend((!self.also.is_empty()).then(|| format!("Also: {}.", self.also.join(", "))));
        said.extend((!self.on.is_empty()).then(|| format!("On: {}.", self.on.join(", "))));
        said.join(" ")
    }
}

/// A phrase as a sentence.
fn sentence(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().map(char::to_uppercase).into_iter().flatten();
    format!("{}.", first.chain(letters).collect::<String>().trim_end_matches('.'))
}
