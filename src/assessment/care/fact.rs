//! The facts that a row of the table of care rules names.

use serde::Deserialize;

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
    /// What was done: `greased`, if all the grease is fresh.
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

    /// True if the row names nothing.
    pub fn is_empty(&self) -> bool {
        self.ridden_over.is_none() && self.lists().iter().all(|(_, words)| words.is_empty())
    }
}
