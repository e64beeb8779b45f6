//! Plausibility of photos: what is known of the photos of a job -> what somebody should look at.
//!
//! Every doubt is a warning that names a fact; none of them refuses a job or accuses anybody. A photo
//! without a capture time gives no doubt about its time. Limits were measured on phone photos and on
//! changed copies of them, and are beside the rule that uses them. Not here: measuring pixels and
//! reading metadata (photo), and where on the sheet a warning points (job).

mod clock;
mod doubt;
mod likeness;
mod seen;
mod shared;

use chrono::NaiveDate;

use crate::photo::Quality;
use clock::Span;
use seen::{BLURRED_BELOW, BRIGHT_FROM, DARK_BELOW};

pub use doubt::{ClockDoubt, Doubt, Side};
pub use likeness::{ALIKE_PERMILLE, APART, LEAST_SLOPES};
pub use seen::Seen;
pub use shared::{Shared, shared};

/// Judges the photos of a job, in the order of the sheet. Doubts are in the order of their first
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

/// What makes a photo poor evidence. A wrong exposure takes the sharpness with it, so it is reported
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
