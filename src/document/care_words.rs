//! The words of care: advice, checks, the card for the first fit, the hand test, cautions, and why
//! they fit a job.
//!
//! In: `wording/LANGUAGE/care.yaml`; out: texts by the names that the table of care rules uses. When
//! a rule applies is not here.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::assessment::care::fact::Aspect;
use crate::assessment::care::reason::Reason;
use crate::sheet::vocabulary::UnitKind;

type Words = BTreeMap<String, String>;

/// The whole file.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct CareWords {
    advice: BTreeMap<String, Words>,
    checks: BTreeMap<String, Words>,
    refit_card: Words,
    refit: Words,
    hand_test: BTreeMap<String, Vec<String>>,
    page_one: BTreeMap<String, Words>,
    cautions: Words,
    schedule: Words,
    because_cause: Words,
    because_use: Words,
    because_washing: Words,
    because_storage: Words,
    because_ridden: Words,
}

/// A word of a list, or its key where the language lacks it, which a test forbids.
fn of<'a>(words: Option<&'a Words>, key: &'a str) -> &'a str {
    words.and_then(|words| words.get(key)).map_or(key, String::as_str)
}

impl CareWords {
    /// Words of a piece of advice: `what`, `why`.
    pub fn advice<'a>(&'a self, rule: &str, which: &'a str) -> &'a str {
        of(self.advice.get(rule), which)
    }

    /// Words of a check: `what`, `how`.
    pub fn check<'a>(&'a self, kind: &str, which: &'a str) -> &'a str {
        of(self.checks.get(kind), which)
    }

    /// Words around the card for the first fit: `heading`, `text`.
    pub fn refit_card<'a>(&'a self, which: &'a str) -> &'a str {
        of(Some(&self.refit_card), which)
    }

    /// A line of that card.
    pub fn refit<'a>(&'a self, name: &'a str) -> &'a str {
        of(Some(&self.refit), name)
    }

    /// Words of page 1: `what`, `why`.
    pub fn page_one<'a>(&'a self, key: &str, which: &'a str) -> &'a str {
        of(self.page_one.get(key), which)
    }

    /// The steps of the hand test.
    pub fn hand_test(&self, kind: UnitKind) -> &[String] {
        self.hand_test.get(kind.word()).map_or(&[], Vec::as_slice)
    }

    /// A caution.
    pub fn caution<'a>(&'a self, name: &'a str) -> &'a str {
        of(Some(&self.cautions), name)
    }

    /// A form of the schedule.
    pub fn form<'a>(&'a self, key: &'a str) -> &'a str {
        of(Some(&self.schedule), key)
    }

    /// Why a rule fits; empty for a fact that is no reason to a reader, such as the kind of unit.
    pub fn because(&self, reason: Reason) -> Option<&str> {
        let words = match reason.aspect {
            Aspect::Cause | Aspect::Contributing => &self.because_cause,
            Aspect::Use => &self.because_use,
            Aspect::Washing => &self.because_washing,
            Aspect::Storage => &self.because_storage,
            Aspect::Ridden => &self.because_ridden,
            Aspect::Kind
            | Aspect::Outcome
            | Aspect::Work
            | Aspect::Fitness
            | Aspect::Found
            | Aspect::Battery
            | Aspect::Danger
            | Aspect::Offer => return None,
        };
        words.get(reason.word).map(String::as_str)
    }
}
