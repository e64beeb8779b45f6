//! Whether a row of the table applies to a job, and which facts of the job make it apply.
//!
//! In: the facts that a row names and a [`CareInput`]; out: [`Reason`]s. Their words are not here.

use rust_decimal::Decimal;

use super::fact::{Aspect, Facts};
use super::input::CareInput;
use super::table::Row;

/// A fact of a job that makes a row apply.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Reason {
    /// What it is about.
    pub aspect: Aspect,
    /// The fact, as the sheet words it.
    pub word: &'static str,
}

impl Facts {
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

    /// `None` if the row names no distance; an unknown distance is over none.
    fn is_ridden_over(&self, input: &CareInput) -> Option<bool> {
        let least = Decimal::from(self.ridden_over?);
        Some(input.ridden.is_some_and(|ridden| least < ridden))
    }

    /// True if every aspect that the row names has a word that holds.
    fn all_hold(&self, input: &CareInput) -> bool {
        let holds = |(aspect, words): &(Aspect, &[String])| {
            let has = input.words(*aspect);
            words.is_empty() || words.iter().any(|word| has.contains(&word.as_str()))
        };
        self.lists().iter().all(holds) && self.is_ridden_over(input) != Some(false)
    }
}

impl Row {
    /// The reasons for which the row applies; empty if it needs none, `None` if it does not.
    pub fn applies_to(&'static self, input: &CareInput) -> Option<Vec<Reason>> {
        if !self.only.all_hold(input) || !self.unless.held(input).is_empty() {
            return None;
        }
        let held = self.when.held(input);
        (self.when.is_empty() || !held.is_empty()).then_some(held)
    }
}
