//! When a photo was taken.

use chrono::{FixedOffset, NaiveDateTime};

/// When a photo was taken, by the camera's own clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Taken {
    /// Date and time as the camera's clock showed them, with its fraction of a second if recorded.
    pub local: NaiveDateTime,
    /// Distance of that clock from UTC; many cameras do not record it.
    pub offset: Option<FixedOffset>,
}
