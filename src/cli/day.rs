//! A day as it is typed behind an option.

use chrono::NaiveDate;

/// Reads a day such as `2026-03-11`.
pub(super) fn day(text: &str) -> Result<NaiveDate, String> {
    text.parse().map_err(|_| "write the day as 2026-03-11".to_owned())
}
