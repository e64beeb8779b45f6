//! Short sheets to begin a job with: the fields that such a job needs, with a blank for every fact.
//!
//! In: which kind of job, its number and day; out: YAML text. No starter says that anything was seen.

use chrono::NaiveDate;

use crate::sheet::blanks::BLANK;

/// Kinds of job that there is a starter for, with their names as typed.
pub const STARTERS: &[(&str, &str)] = &[
    ("arrival", include_str!("starters/arrival.yaml")),
    ("early-bearing", include_str!("starters/early-bearing.yaml")),
    ("overhaul", include_str!("starters/overhaul.yaml")),
    ("gear", include_str!("starters/gear.yaml")),
    ("board", include_str!("starters/board.yaml")),
    ("no-fault", include_str!("starters/no-fault.yaml")),
];

/// A starter with what is known at once.
#[derive(Debug)]
pub struct Filled<'a> {
    /// Name of the starter.
    pub like: &'a str,
    /// Number of the job, if its folder can give one.
    pub number: Option<&'a str>,
    /// The day on which the sheet is begun.
    pub today: NaiveDate,
    /// Lines of comment on the photos that are there.
    pub photos: &'a str,
}

impl Filled<'_> {
    /// The sheet; its first line points an editor to the schema file.
    pub fn text(&self, schema: &str) -> String {
        let known = STARTERS.iter().find(|(name, _)| *name == self.like).or(STARTERS.first());
        let text = known.map_or("", |(_, text)| *text);
        let text = text
            .replace("@SCHEMA@", schema)
            .replace("@JOB@", self.number.unwrap_or(BLANK))
            .replace("@TODAY@", &self.today.to_string());
        format!("{text}{}", self.photos)
    }
}
