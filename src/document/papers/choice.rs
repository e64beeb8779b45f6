//! Which papers of a job a run makes.
//!
//! In: a [`Choice`] and a sheet; out: rows of the table of papers, or what one of them lacks.

#![allow(clippy::similar_names, reason = "a name and what has it")]

use super::{Paper, of_jobs};
use crate::sheet::findings::FindingsSheet;

/// Which papers of a job are wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Choice {
    /// Those that are due.
    Due,
    /// These, by name, due or not.
    Named(Vec<String>),
    /// Every one that can be made from the sheet: the due ones, and those that were due before.
    All,
}

impl Choice {
    /// The papers that are wanted of a job, in the order of the table.
    ///
    /// # Errors
    /// A paper that was asked for and cannot be made yet, with the fields that it lacks.
    pub fn of(
        &self,
        sheet: &FindingsSheet,
    ) -> Result<Vec<&'static Paper>, (&'static Paper, Vec<&'static str>)> {
        match self {
            Self::Due => Ok(of_jobs().filter(|paper| paper.is_due(sheet)).collect()),
            Self::All => Ok(of_jobs().filter(|paper| paper.lacks(sheet).is_empty()).collect()),
            Self::Named(names) => {
                let named = of_jobs().filter(|paper| names.iter().any(|name| name == paper.name));
                let can_be = |paper: &'static Paper| match paper.lacks(sheet) {
                    lacks if lacks.is_empty() => Ok(paper),
                    lacks => Err((paper, lacks)),
                };
                named.map(can_be).collect()
            }
        }
    }

    /// What separates this choice from another in the records of a run; empty for the usual one.
    pub fn word(&self) -> String {
        match self {
            Self::Due => String::new(),
            Self::All => "every paper".to_owned(),
            Self::Named(names) => {
                let mut names = names.clone();
                names.sort();
                names.dedup();
                names.join(" ")
            }
        }
    }
}
