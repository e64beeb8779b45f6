//! Plausibility of photos: what is known of the photos of a job -> what somebody should look at.
//!
//! Every doubt is a warning that names a fact; none of them refuses a job or accuses anybody. A photo
//! without a capture time gives no doubt about its time. Limits were measured on phone photos and on
//! changed copies of them, and stand beside the rule that uses them. Not here: measuring pixels and
//! reading metadata (photo), and where on the sheet a warning points (job).

mod clock;
mod likeness;
mod shared;

use chrono::NaiveDate;

use crate::photo::{Digest, Edited, Photo, Quality, Taken};

pub use clock::{ClockDoubt, Side};
pub use likeness::{ALIKE_PERMILLE, APART, COPY_PERMILLE, LEAST_SLOPES};
pub use shared::{Shared, shared};

/// Sharpness below which even the sharpest parts of a photo are blurred.
///
/// Measured on 38 photos of phones, cameras and the samples: sharp ones have at least 410, a soft one
/// 129. Blurred by a Gaussian whose sigma is 1.5 pixels of the 1187 pixel copy they have 25 to 303,
/// by 2.2 pixels 11 to 100, by 3 pixels at most 46. Strong noise hides blur.
pub const BLURRED_BELOW: u32 = 60;

/// Brightness that a photo's brightest twentieth must reach.
///
/// Measured: photos that a camera exposed have at least 106, even at night; exposed four stops too
/// short, at most 71 and in the middle 57; three stops, 78 in the middle.
pub const DARK_BELOW: u8 = 70;

/// Burnt-out pixels, in thousandths, from which a photo is over-exposed.
///
/// Measured: photos that a camera exposed have at most 88; three stops too long, 530 in the middle.
pub const BRIGHT_FROM: u16 = 400;

/// What is known of one photo of the job.
#[derive(Debug, Clone, Copy)]
pub struct Seen<'a> {
    /// File name in the job folder.
    pub name: &'a str,
    /// Capture time by the camera's clock.
    pub taken: Option<Taken>,
    /// Maker and model of the camera.
    pub camera: Option<&'a str>,
    /// SHA-256 of the original.
    pub sha256: Digest,
    /// What the metadata say of changes.
    pub edited: Option<&'a Edited>,
    /// What was measured.
    pub quality: Quality,
}

impl<'a> Seen<'a> {
    /// From a prepared photo.
    pub fn of(name: &'a str, photo: &'a Photo) -> Self {
        Self {
            name,
            taken: photo.facts.taken,
            camera: photo.facts.camera.as_deref(),
            sha256: photo.facts.sha256,
            edited: photo.facts.edited.as_ref(),
            quality: photo.quality,
        }
    }
}

/// Something to look at. Photos are named by their place in the list that was judged; where there are
/// several they stand in that order.
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
    /// The photos that it speaks of; the first is where it is told.
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

/// The days between which photos of a job are taken.
#[derive(Debug, Clone, Copy)]
struct Span {
    arrival: Option<NaiveDate>,
    returned: Option<NaiveDate>,
}

/// Judges the photos of a job, in the order of the sheet. Doubts stand in the order of their first
/// photo, and for one photo in the order of [`Doubt`]'s cases.
///
/// A clock that records its zone is held to the days exactly, any other with a day of grace.
pub fn judge(
    photos: &[Seen<'_>],
    arrival: Option<NaiveDate>,
    returned: Option<NaiveDate>,
) -> Vec<Doubt> {
    let mut doubts = clock::judge(photos, Span { arrival, returned });
    doubts.extend(likeness::same(photos).into_iter().map(Doubt::SamePicture));
    doubts.extend(likeness::near(photos));
    for (at, photo) in photos.iter().enumerate() {
        doubts.extend(photo.edited.map(|_| Doubt::Edited(at)));
        doubts.extend(poor(&photo.quality).map(|case| case(at)));
    }
    doubts.sort_by_key(|doubt| doubt.photos().first().copied());
    doubts
}

/// What makes a photo poor evidence. A wrong exposure takes the sharpness with it, so it is told
/// alone.
fn poor(quality: &Quality) -> Option<fn(usize) -> Doubt> {
    if quality.brightest < DARK_BELOW {
        Some(Doubt::Dark)
    } else if BRIGHT_FROM <= quality.burnt {
        Some(Doubt::Bright)
    } else if quality.sharpness < BLURRED_BELOW {
        Some(Doubt::Blurred)
    } else {
        None
    }
}
