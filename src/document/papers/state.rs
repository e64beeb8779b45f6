//! Where a job stands, in the words of its sheet, and since when.
//!
//! In: a sheet; out: a [`State`] and the day of the last thing that happened. Finer than the stages by
//! which papers fall due, and for the workshop alone: no paper says it.

use chrono::NaiveDate;

use super::due::{self, Stage};
use crate::sheet::findings::FindingsSheet;

/// Where a job stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// It came in, and nobody has opened it.
    Arrived,
    /// It was opened, and nothing is offered yet.
    StrippedDown,
    /// The owner has a choice to make.
    OptionsOffered,
    /// The owner has decided, and the work has not begun.
    Decided,
    /// It is being worked on, tried out or exchanged.
    AtWork,
    /// It has an outcome and is still here.
    ReadyToReturn,
    /// It went back.
    Returned,
}

impl State {
    /// Where a job stands by its sheet.
    pub fn of(sheet: &FindingsSheet) -> Self {
        let has_begun = sheet.work.is_some() || sheet.exchange.is_some() || sheet.ride.is_some();
        match due::stage(sheet) {
            _ if sheet.returned.is_some() => Self::Returned,
            Stage::Closed => Self::ReadyToReturn,
            Stage::Decided if has_begun => Self::AtWork,
            Stage::Decided => Self::Decided,
            Stage::Offered => Self::OptionsOffered,
            Stage::Opened => Self::StrippedDown,
            Stage::Arrived => Self::Arrived,
        }
    }

    /// Its words for people; scripts get them with `-` between them.
    pub fn words(self) -> &'static str {
        match self {
            Self::Arrived => "arrived",
            Self::StrippedDown => "stripped down",
            Self::OptionsOffered => "options offered",
            Self::Decided => "decided",
            Self::AtWork => "at work",
            Self::ReadyToReturn => "ready to return",
            Self::Returned => "returned",
        }
    }
}

/// The day of the last thing that the workshop or the owner did, by the sheet.
pub fn last_step(sheet: &FindingsSheet) -> NaiveDate {
    let steps = [
        sheet.strip_down.as_ref().map(|strip| strip.date.0),
        sheet.decision.as_ref().and_then(|decision| Some(decision.date.as_ref()?.0)),
        sheet.work.as_ref().and_then(|work| Some(work.date.as_ref()?.0)),
        sheet.ride.as_ref().and_then(|ride| Some(ride.date.as_ref()?.0)),
        sheet.billing.as_ref().and_then(|billing| Some(billing.paid.as_ref()?.0)),
        sheet.returned.as_ref().map(|day| day.0),
    ];
    steps.into_iter().flatten().fold(sheet.arrival.date.0, NaiveDate::max)
}
