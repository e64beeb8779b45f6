//! The last visit of a unit before this one, and the job that gave it out: what sentences may say of them.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::earlier::Visit;
use crate::document::format;
use crate::document::wording::Wording;

/// The last visit, as printed.
#[derive(Debug, Serialize)]
pub struct Before {
    /// Number of the job.
    job: String,
    /// The day of arrival.
    arrived_on: String,
    /// The day of return, if it is noted.
    returned_on: Option<String>,
    /// How it ended, if it is noted.
    outcome: Option<String>,
    /// How often it was here before.
    visits: usize,
}

/// The job in which the unit was given out in exchange, as printed.
#[derive(Debug, Serialize)]
pub struct Given {
    /// Number of the job.
    job: String,
    /// The day on which it went out.
    on: String,
}

/// The visits in which the unit itself came in.
pub(super) fn came_in(visits: &[Visit]) -> impl DoubleEndedIterator<Item = &Visit> {
    visits.iter().filter(|visit| !visit.is_given)
}

/// The last time that the unit was given out in exchange, if its day is noted.
pub(super) fn given(visits: &[Visit]) -> Option<(&Visit, NaiveDate)> {
    let mut given = visits.iter().rev().filter(|visit| visit.is_given);
    given.find_map(|visit| Some((visit, visit.returned_on()?)))
}

/// The same, as printed.
pub(super) fn given_in_words(visits: &[Visit], wording: &Wording) -> Option<Given> {
    let (visit, day) = given(visits)?;
    Some(Given { job: visit.job.clone(), on: format::day(day, wording) })
}

/// The last of the visits; nothing if there was none.
pub(super) fn of(visits: &[Visit], wording: &Wording) -> Option<Before> {
    let last = came_in(visits).next_back()?;
    let day = |day: NaiveDate| format::day(day, wording);
    Some(Before {
        job: last.job.clone(),
        arrived_on: day(last.arrived.parse().ok()?),
        returned_on: last.returned_on().map(day),
        outcome: last.outcome().map(|word| wording.choice("outcomes", word.word()).to_owned()),
        visits: came_in(visits).count(),
    })
}
