//! The few things that page 1 asks the reader to do.
//!
//! In: [`Care`]; out: at most three of its own pieces. Their words are not here.

use chrono::NaiveDate;

use super::schedule::{FASTENINGS, HAND_TEST};
use super::state::Danger;
use super::{Advice, Care};
use crate::sheet::vocabulary::UnitKind;

/// How many things page 1 has room for.
const MOST: usize = 3;

/// How many of them may be checks with a day.
const MOST_CHECKS: usize = 2;

/// One thing to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Todo<'a> {
    /// What must not be done until a qualified person has looked.
    Danger(&'a Danger),
    /// A piece of advice.
    Advice(&'a Advice),
    /// A qualified person checks what holds the unit.
    Fastenings {
        /// By which day.
        date: NaiveDate,
    },
    /// The hand test.
    HandTest {
        /// At the cranks or at the wheel.
        kind: UnitKind,
        /// By which day.
        date: NaiveDate,
    },
}

impl Care {
    /// At most three things: open dangers, then advice, then the checks that are due first.
    pub fn todo(&self) -> Vec<Todo<'_>> {
        let dangers: Vec<Todo<'_>> = self.dangers.iter().map(Todo::Danger).take(MOST).collect();
        let room = MOST - dangers.len();
        let checks = self.checks.iter().filter_map(|check| {
            let date = check.date?;
            match check.kind {
                FASTENINGS => Some(Todo::Fastenings { date }),
                HAND_TEST => Some(Todo::HandTest { kind: self.hand_test?, date }),
                _ => None,
            }
        });
        let checks: Vec<Todo<'_>> = checks.take(MOST_CHECKS.min(room)).collect();
        let advice = self.rules.iter().take(room - checks.len()).map(Todo::Advice);
        dangers.into_iter().chain(advice).chain(checks).collect()
    }

    /// The advice that is left for the care section, since page 1 does not say it.
    pub fn beyond_page_one(&self) -> &[Advice] {
        let on_page_one = self.todo().iter().filter(|todo| matches!(todo, Todo::Advice(_))).count();
        self.rules.split_at(on_page_one.min(self.rules.len())).1
    }
}
