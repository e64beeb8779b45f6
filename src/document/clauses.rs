//! Which sentences the report says of a job: the table of clauses, and the choice from it.
//!
//! In: the facts that hold; out: keys of sentences, place by place. The words are in the wordings,
//! how facts are known in [`super::facts`]. A sentence that no fact licenses cannot be said.

pub mod fact;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use serde::Deserialize;

use fact::Fact;

/// A place of the report that holds sentences.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq, PartialOrd, Ord)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "the table says it beside each place")]
pub enum Slot {
    Told,
    Lead,
    Found,
    Why,
    Did,
    Rides,
    CauseHeading,
    Triage,
    Cause,
    Contributing,
    CauseSupport,
    AnswerSupport,
    RideHeading,
    Ride,
    WorkHeading,
    FindingHeading,
    Finding,
    ArrivalHeading,
    Arrival,
    ArrivalLead,
    ArrivalSeen,
    ArrivalPoints,
    ArrivalNext,
    AsItIs,
    MessageArrivalNote,
    MessageOptionsLetter,
    MessageReturnReport,
    MessageEvidenceFile,
}

/// One sentence with its licence.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clause {
    /// Key of its words.
    pub say: String,
    /// What must hold, all of it.
    #[serde(default)]
    pub when: Vec<Condition>,
    /// True if it is said even beside the technician's own words for this place.
    #[serde(default)]
    pub always: bool,
}

/// A fact that must hold, or must not.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(try_from = "String")]
pub struct Condition {
    /// The fact.
    pub fact: Fact,
    /// True if it must hold.
    pub holds: bool,
}

impl TryFrom<String> for Condition {
    type Error = serde::de::value::Error;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        use serde::de::IntoDeserializer;
        let (name, holds) = text.strip_prefix("not ").map_or((&*text, true), |name| (name, false));
        Ok(Self { fact: Fact::deserialize(name.into_deserializer())?, holds })
    }
}

/// One entry of a place: a sentence, or the first of several that is licensed.
#[derive(Clone, Debug, Deserialize)]
#[serde(untagged)]
pub enum Entry {
    /// The first that is licensed.
    OneOf(Vec<Clause>),
    /// Said if it is licensed.
    Single(Clause),
}

impl Entry {
    /// Its sentences in order.
    pub fn clauses(&self) -> &[Clause] {
        match self {
            Self::OneOf(clauses) => clauses,
            Self::Single(clause) => std::slice::from_ref(clause),
        }
    }
}

/// Every place with its entries.
pub type Table = BTreeMap<Slot, Vec<Entry>>;

/// The table, read once.
#[expect(
    clippy::expect_used,
    reason = "an embedded table that does not parse is our own mistake, and every test reads it"
)]
pub static TABLE: LazyLock<Table> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("clauses/clauses.yaml")).expect("the table is well-formed")
});

/// What holds of a job, or of a job and one of its parts.
pub type Facts = BTreeSet<Fact>;

impl Clause {
    /// True if all that it rests on holds.
    pub fn is_licensed(&self, facts: &Facts) -> bool {
        self.when.iter().all(|one| facts.contains(&one.fact) == one.holds)
    }
}

/// The sentences to say in a place, in order.
pub fn said(slot: Slot, facts: &Facts) -> Vec<&'static Clause> {
    let entries = TABLE.get(&slot).map_or(&[][..], Vec::as_slice);
    entries
        .iter()
        .filter_map(|entry| entry.clauses().iter().find(|clause| clause.is_licensed(facts)))
        .collect()
}
