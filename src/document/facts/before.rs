//! The last visit of a unit before this one: what sentences may say of it.

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

/// The last of the visits; nothing if there was none.
pub(super) fn of(visits: &[Visit], wording: &Wording) -> Option<Before> {
    let last = visits.last()?;
    let day = |day: chrono::NaiveDate| format::day(day, wording);
    Some(Before {
        job: last.job.clone(),
        arrived_on: day(last.arrived.parse().ok()?),
        returned_on: last.returned_on().map(day),
        outcome: last.outcome().map(|word| wording.choice("outcomes", word.word()).to_owned()),
        visits: visits.len(),
    })
}
