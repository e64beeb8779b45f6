//! What the templates see of care: advice, the card for the first fit, dated checks, the hand test,
//! cautions.

use serde::Serialize;

/// A piece of advice.
#[derive(Debug, Serialize)]
pub struct CareItem {
    /// What to do.
    pub what: String,
    /// Why it helps.
    pub why: String,
    /// Why it fits this bike, and its source if one was published.
    pub because: String,
}

/// A check and the day by which it is due.
#[derive(Debug, Serialize)]
pub struct CheckRow {
    /// By which day.
    pub when: String,
    /// The distance that may come first.
    pub or: String,
    /// What is checked.
    pub what: String,
    /// What that is.
    pub how: String,
    /// How often after that, and why so early.
    pub more: String,
}

/// The next checks.
#[derive(Debug, Serialize)]
pub struct Schedule {
    /// Its label.
    pub heading: String,
    /// Checks, the earliest first.
    pub rows: Vec<CheckRow>,
    /// What the days follow from.
    pub note: String,
}

/// The steps of the hand test.
#[derive(Debug, Serialize)]
pub struct Steps {
    /// Their label.
    pub heading: String,
    /// Each step.
    pub steps: Vec<String>,
}

/// The card for whoever fits the unit, to tick off.
#[derive(Debug, Serialize)]
pub struct Card {
    /// Its heading.
    pub heading: String,
    /// Who ticks it off, and what holds if it differs.
    pub text: String,
    /// Its lines.
    pub lines: Vec<String>,
}

/// Care.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CareView {
    /// The speaking heading.
    pub heading: String,
    /// Advice beyond page 1.
    pub items: Vec<CareItem>,
    /// The card for the first fit.
    pub refit: Option<Card>,
    /// The next checks.
    pub schedule: Option<Schedule>,
    /// The hand test.
    pub hand_test: Option<Steps>,
    /// Cautions.
    pub cautions: Vec<String>,
}
