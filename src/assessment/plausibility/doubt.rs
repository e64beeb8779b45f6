//! What somebody should look at.

use chrono::{NaiveDate, TimeDelta};

/// Something to look at. Photos are named by their place in the list that was judged; if there are
/// several they are in that order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Doubt {
    /// Taken before the day of arrival.
    BeforeArrival {
        /// The photo.
        photo: usize,
        /// Day by the camera's clock.
        day: NaiveDate,
        /// The day of arrival.
        arrival: NaiveDate,
    },
    /// Taken after the day of return.
    AfterReturn {
        /// The photo.
        photo: usize,
        /// Day by the camera's clock.
        day: NaiveDate,
        /// The day of return.
        returned: NaiveDate,
    },
    /// A camera's clock does not fit.
    Clock(ClockDoubt),
    /// Files of the same bytes; two or more.
    SamePicture(Vec<usize>),
    /// Different files that look alike; two or more.
    NearDuplicate {
        /// The photos.
        photos: Vec<usize>,
        /// The camera's clock sets them apart, and still they look the same.
        apart: bool,
    },
    /// The metadata state a change.
    Edited(usize),
    /// Nothing in it is sharp.
    Blurred(usize),
    /// Under-exposed.
    Dark(usize),
    /// Over-exposed.
    Bright(usize),
}

impl Doubt {
    /// The photos that it is about; it is reported at the first.
    pub fn photos(&self) -> Vec<usize> {
        match self {
            Self::BeforeArrival { photo, .. } | Self::AfterReturn { photo, .. } => vec![*photo],
            Self::Edited(photo) | Self::Blurred(photo) | Self::Dark(photo) => vec![*photo],
            Self::Bright(photo) => vec![*photo],
            Self::Clock(doubt) => doubt.photos(),
            Self::SamePicture(photos) | Self::NearDuplicate { photos, .. } => photos.clone(),
        }
    }
}

/// Why a clock is doubted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ClockDoubt {
    /// It was never set.
    NeverSet {
        /// The photo.
        photo: usize,
        /// The day that it shows.
        day: NaiveDate,
    },
    /// Everything that this camera took is on one side.
    WholeCamera {
        /// Its photos, two or more.
        photos: Vec<usize>,
        /// On which side they are.
        side: Side,
        /// Days between the end of the job and the nearest of them.
        days: i64,
    },
    /// A higher number has an earlier time.
    RanBack {
        /// The photo with the lower number.
        earlier: usize,
        /// The photo with the next number.
        later: usize,
        /// By how much the clock ran back.
        by: TimeDelta,
    },
}

impl ClockDoubt {
    /// The photos that it is about.
    pub(super) fn photos(&self) -> Vec<usize> {
        match self {
            Self::NeverSet { photo, .. } => vec![*photo],
            Self::WholeCamera { photos, .. } => photos.clone(),
            Self::RanBack { earlier, later, .. } => vec![*later, *earlier],
        }
    }
}

/// Which end of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Before the arrival.
    Before,
    /// After the return.
    After,
}
