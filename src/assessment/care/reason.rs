//! Whether a row of the table applies to a job, and which facts of the job make it apply.
//!
//! In: the facts that a row names and a [`CareInput`]; out: [`Reason`]s. Their words are not here.

use rust_decimal::Decimal;
use serde::Deserialize;

use super::input::CareInput;
use super::table::Row;

/// What a fact is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the words of each are documented at the sheet's vocabulary")]
pub enum Aspect {
    Cause,
    Contributing,
    Use,
    Washing,
    Storage,
    Kind,
    Outcome,
    /// What was done: `greased`, where all the grease is fresh.
    Work,
    /// Whether the unit may be ridden as it goes back.
    Fitness,
    /// What was found in it: `water`, `rust` on steel.
    Found,
    /// The battery: `wet`.
    Battery,
    /// What an open danger forbids: `ride`, or to charge the `battery`.
    Danger,
    /// What the owner may still decide for: `repair`.
    Offer,
    /// More kilometres than the row names: `far`.
    Ridden,
}

/// A fact of a job that makes a row apply.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Reason {
    /// What it is about.
    pub aspect: Aspect,
    /// The fact, as the sheet words it.
    pub word: &'static str,
}

/// Facts that a row of the table names.
#[derive(Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
#[allow(missing_docs, reason = "the aspects are documented at `Aspect` and at the table's head")]
pub struct Facts {
    pub cause: Vec<String>,
    pub contributing: Vec<String>,
    pub r#use: Vec<String>,
    pub washing: Vec<String>,
    pub storage: Vec<String>,
    pub kind: Vec<String>,
    pub outcome: Vec<String>,
    pub work: Vec<String>,
    pub fitness: Vec<String>,
    pub found: Vec<String>,
    pub battery: Vec<String>,
    pub danger: Vec<String>,
    pub offer: Vec<String>,
    /// Kilometres.
    pub ridden_over: Option<u32>,
}

impl Facts {
    /// The words of each aspect that has words.
    pub fn lists(&self) -> [(Aspect, &[String]); 13] {
        [
            (Aspect::Cause, &self.cause),
            (Aspect::Contributing, &self.contributing),
            (Aspect::Use, &self.r#use),
            (Aspect::Washing, &self.washing),
            (Aspect::Storage, &self.storage),
            (Aspect::Kind, &self.kind),
            (Aspect::Outcome, &self.outcome),
            (Aspect::Work, &self.work),
            (Aspect::Fitness, &self.fitness),
            (Aspect::Found, &self.found),
            (Aspect::Battery, &self.battery),
            (Aspect::Danger, &self.danger),
            (Aspect::Offer, &self.offer),
        ]
    }

    /// True where the row names nothing.
    pub fn is_empty(&self) -> bool {
        self.ridden_over.is_none() && self.lists().iter().all(|(_, words)| words.is_empty())
    }

    /// Those facts that hold, in the order of the table.
    fn held(&'static self, input: &CareInput) -> Vec<Reason> {
        let mut held = Vec::new();
        for (aspect, words) in self.lists() {
            let has = input.words(aspect);
            let words = words.iter().map(String::as_str).filter(|word| has.contains(word));
            held.extend(words.map(|word| Reason { aspect, word }));
        }
        if self.is_ridden_over(input) == Some(true) {
            held.push(Reason { aspect: Aspect::Ridden, word: "far" });
        }
        held
    }

    /// `None` where the row names no distance; an unknown distance is over none.
    fn is_ridden_over(&self, input: &CareInput) -> Option<bool> {
        let least = Decimal::from(self.ridden_over?);
        Some(input.ridden.is_some_and(|ridden| least < ridden))
    }

    /// True where every aspect that the row names has a word that holds.
    fn all_hold(&self, input: &CareInput) -> bool {
        let holds = |(aspect, words): &(Aspect, &[String])| {
            let has = input.words(*aspect);
            words.is_empty() || words.iter().any(|word| has.contains(&word.as_str()))
        };
        self.lists().iter().all(holds) && self.is_ridden_over(input) != Some(false)
    }
}

impl Row {
    /// The reasons for which the row applies; empty where it needs none, `None` where it does not.
    pub fn applies_to(&'static self, input: &CareInput) -> Option<Vec<Reason>> {
        if !self.only.all_hold(input) || !self.unless.held(input).is_empty() {
            return None;
        }
        let held = self.when.held(input);
        (self.when.is_empty() || !held.is_empty()).then_some(held)
    }
}
