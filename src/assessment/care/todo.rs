//! The few things that page 1 asks the reader to do.
//!
//! In: [`Care`]; out: at most three of its own pieces. Their words are not here.

use chrono::NaiveDate;

use super::schedule::{HAND_TEST, WORKSHOP_LOOK};
use super::{Advice, Care};
use crate::sheet::vocabulary::UnitKind;

/// How many things page 1 has room for.
const MOST: usize = 3;

/// One thing to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Todo<'a> {
    /// A piece of advice.
    Advice(&'a Advice),
    /// The hand test.
    HandTest {
        /// At the cranks or at the wheel.
        kind: UnitKind,
        /// By which day.
        date: Option<NaiveDate>,
    },
    /// A visit to the workshop.
    WorkshopLook {
        /// By which day.
        date: Option<NaiveDate>,
    },
}

impl Care {
    /// At most three things: advice first, then the hand test, then the visit, as far as there are.
    pub fn todo(&self) -> Vec<Todo<'_>> {
        let check = |kind: &str| self.checks.iter().find(|check| check.kind == kind);
        let hand_test = self.hand_test.zip(check(HAND_TEST));
        let hand_test = hand_test.map(|(kind, check)| Todo::HandTest { kind, date: check.date });
        let look = check(WORKSHOP_LOOK).map(|check| Todo::WorkshopLook { date: check.date });
        let last: Vec<Todo<'_>> = hand_test.into_iter().chain(look).collect();
        let (first, _) = self.split(MOST - last.len());
        first.iter().map(Todo::Advice).chain(last).collect()
    }

    /// The advice that is left for the care section, since page 1 does not say it.
    pub fn beyond_page_one(&self) -> &[Advice] {
        let on_page_one = self.todo().iter().filter(|todo| matches!(todo, Todo::Advice(_))).count();
        self.split(on_page_one).1
    }

    fn split(&self, at: usize) -> (&[Advice], &[Advice]) {
        self.rules.split_at(at.min(self.rules.len()))
    }
}
