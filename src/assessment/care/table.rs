//! The table of care rules that a person can edit.
//!
//! In: `care/rules.yaml`, embedded; out: [`TABLE`]. Whether a row applies is decided elsewhere.

use std::sync::LazyLock;

use serde::Deserialize;

use super::fact::Facts;

/// What `source` says if nothing was published.
pub const COMMON_PRACTICE: &str = "common practice, no source";

/// The whole table.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Table {
    /// Pieces of advice.
    pub advice: Vec<Row>,
    /// Checks; several rows may be of one check.
    pub checks: Vec<Row>,
    /// What whoever fits the unit checks before the first ride, in the order in which it is done.
    pub refit: Vec<Row>,
    /// Cautions, in the order in which they are printed.
    pub cautions: Vec<Row>,
}

/// A row of any of the four lists; a test holds which keys a list's rows have.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Its name, under the word for its list.
    #[serde(rename = "advice", alias = "check", alias = "refit", alias = "caution")]
    pub name: String,
    /// Of advice: 1 comes first.
    #[serde(default)]
    pub rank: Option<u32>,
    /// All of these must hold.
    #[serde(default)]
    pub only: Facts,
    /// Any of these must hold; if it names nothing, none need.
    #[serde(default)]
    pub when: Facts,
    /// None of these may hold.
    #[serde(default)]
    pub unless: Facts,
    /// Of checks: until the first one after the return, if that comes earlier.
    #[serde(default)]
    pub first: Option<IntervalRow>,
    /// Of checks: from one to the next; a check without it is done once.
    #[serde(default)]
    pub every: Option<IntervalRow>,
    /// Of advice and checks: what it rests on.
    #[serde(default)]
    pub source: Option<String>,
}

/// An interval as written: a distance, and weeks or months.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IntervalRow {
    /// Kilometres.
    pub km: u32,
    /// Weeks.
    #[serde(default)]
    pub weeks: Option<u32>,
    /// Calendar months.
    #[serde(default)]
    pub months: Option<u32>,
}

/// What a rule rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A publication, by its name.
    Published(&'static str),
    /// Nothing that was published.
    CommonPractice,
}

impl Source {
    /// A row's source.
    pub fn of(row: &'static Row) -> Self {
        match row.source.as_deref() {
            None | Some(COMMON_PRACTICE) => Self::CommonPractice,
            Some(name) => Self::Published(name),
        }
    }
}

/// The table.
pub static TABLE: LazyLock<Table> = LazyLock::new(embedded);

#[expect(
    clippy::expect_used,
    reason = "an embedded table that does not parse is our own mistake, and tests read it"
)]
fn embedded() -> Table {
    serde_yaml::from_str(include_str!("rules.yaml")).expect("the embedded table is well-formed")
}
