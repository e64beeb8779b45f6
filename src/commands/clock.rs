//! The machine's clock and time zone, for commands that need them: the register's lines, what is due
//! today, the day on which a sheet is begun.
//!
//! Below the commands a time is an argument.

use std::time::{Instant, SystemTime};

use chrono::{DateTime, Local, NaiveDate, NaiveDateTime, Utc};

/// The present time.
#[allow(clippy::disallowed_methods, reason = "a seal says when it was made")]
pub fn now() -> DateTime<Utc> {
    SystemTime::now().into()
}

/// The present day where the workshop is.
pub fn today() -> NaiveDate {
    now().with_timezone(&Local).date_naive()
}

/// A time in nanoseconds since 1970 as clocks showed it where the workshop is.
pub fn local(nanoseconds: u128) -> NaiveDateTime {
    let nanoseconds = i64::try_from(nanoseconds).unwrap_or_default();
    DateTime::from_timestamp_nanos(nanoseconds).with_timezone(&Local).naive_local()
}

/// The present time as clocks show it where the workshop is.
pub fn local_now() -> NaiveDateTime {
    now().with_timezone(&Local).naive_local()
}

/// A moment to measure a length of time from.
#[allow(
    clippy::disallowed_methods,
    reason = "how often files are looked at hangs on how long that takes"
)]
pub fn stopwatch() -> Instant {
    Instant::now()
}
