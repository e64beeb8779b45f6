//! How far the papers of a job are: which are due, and what the next one still needs.
//!
//! In: a sheet; out: [`Progress`], names alone. It is kept in the records of a run, so that a job that
//! is skipped can say it too.

use serde::{Deserialize, Serialize};

use super::of_jobs;
use crate::sheet::findings::FindingsSheet;

/// How far the papers of a job are.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Progress {
    /// Names of the papers that are due.
    pub due: Vec<String>,
    /// The paper that comes after them; none if the last one is due.
    pub next: Option<Next>,
}

/// A paper that cannot be made yet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Next {
    /// Its name.
    pub paper: String,
    /// The fields that the sheet lacks for it, as they are typed.
    pub needs: Vec<String>,
}

impl Progress {
    /// How far a job is.
    pub fn of(sheet: &FindingsSheet) -> Self {
        let due = of_jobs().filter(|paper| paper.is_due(sheet));
        let next = of_jobs().find(|paper| paper.is_ahead(sheet));
        Self {
            due: due.map(|paper| paper.name.to_owned()).collect(),
            next: next.map(|paper| Next {
                paper: paper.name.to_owned(),
                needs: paper.lacks(sheet).into_iter().map(str::to_owned).collect(),
            }),
        }
    }

    /// The same in words: `arrival-note is due; options-letter: needs options`, names in backticks.
    pub fn words(&self) -> String {
        let due = match self.due.as_slice() {
            [] => None,
            [one] => Some(format!("{one} is due")),
            several => Some(format!("{} are due", several.join(" and "))),
        };
        let next = self.next.as_ref().map(|next| {
            let needs = next.needs.iter().map(|field| format!("`{field}`"));
            format!("{}: needs {}", next.paper, needs.collect::<Vec<_>>().join(", "))
        });
        due.into_iter().chain(next).collect::<Vec<_>>().join("; ")
    }
}
