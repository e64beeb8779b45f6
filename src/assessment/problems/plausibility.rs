//! Messages on photos that may not serve as evidence: doubt -> code, words and advice.
//!
//! Facts only: what the file, the clock and the sheet say. Nothing is decided here.

use chrono::TimeDelta;

use crate::assessment::plausibility::{ClockDoubt, Doubt, Seen, Side};
use crate::photo::EditSign;

impl Doubt {
    /// The stable code of the warning.
    pub fn code(&self) -> &'static str {
        match self {
            // A photo that was taken before the unit arrived, by its camera's clock.
            Self::BeforeArrival { .. } => "photo/taken-before-arrival",
            // A photo that was taken after the unit went back, by its camera's clock.
            Self::AfterReturn { .. } => "photo/taken-after-return",
            // A camera whose clock was never set, or is wrong.
            Self::Clock(_) => "photo/clock",
            // One file under several names.
            Self::SamePicture(_) => "photo/same-picture",
            // Photos that look nearly alike.
            Self::NearDuplicate { .. } => "photo/near-duplicate",
            // A photo that was changed after it was taken, as its metadata say.
            Self::Edited(_) => "photo/edited",
            // A photo in which nothing is sharp.
            Self::Blurred(_) => "photo/blurred",
            // A photo that is too dark to show anything.
            Self::Dark(_) => "photo/dark",
            // A photo that is largely burnt out to white.
            Self::Bright(_) => "photo/bright",
        }
    }

    /// What is to be looked at, on one line. `photos` are those that were judged.
    pub fn message(&self, photos: &[Seen<'_>]) -> String {
        let name = |at: usize| photos.get(at).map_or("", |photo| photo.name);
        match self {
            Self::BeforeArrival { photo, day, arrival } => {
                format!(
                    "`{}` was taken on {day} by its camera's clock, before the arrival on {arrival}",
                    name(*photo)
                )
            }
            Self::AfterReturn { photo, day, returned } => {
                format!(
                    "`{}` was taken on {day} by its camera's clock, after the return on {returned}",
                    name(*photo)
                )
            }
            Self::Clock(doubt) => clock(doubt, photos),
            Self::SamePicture(same) => {
                format!("{} are the same file under several names", listed(same, photos))
            }
            Self::NearDuplicate { photos: near, apart: false } => {
                format!("{} look nearly alike", listed(near, photos))
            }
            Self::NearDuplicate { photos: near, apart: true } => format!(
                "{} look the same, but were taken apart by their cameras' clocks",
                listed(near, photos)
            ),
            Self::Edited(photo) => edited(*photo, photos),
            Self::Blurred(photo) => {
                format!("nothing in `{}` is sharp; it may not serve as evidence", name(*photo))
            }
            Self::Dark(photo) => {
                format!("`{}` is very dark; it may not serve as evidence", name(*photo))
            }
            Self::Bright(photo) => {
                let burnt = photos.get(*photo).map_or(0, |photo| photo.quality.burnt / 10);
                format!(
                    "{burnt} % of `{}` is burnt out to white; it may not serve as evidence",
                    name(*photo)
                )
            }
        }
    }

    /// What to do about it.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::BeforeArrival { .. } => {
                "if it is the owner's, let its caption say so; else check the clock and `arrival: date:`"
            }
            Self::AfterReturn { .. } => "check the camera's clock and `returned:`",
            Self::Clock(ClockDoubt::NeverSet { .. }) => {
                "set the camera's clock, and let the caption say when it was taken"
            }
            Self::Clock(ClockDoubt::WholeCamera { side: Side::Before, .. }) => {
                "if they are the owner's, let the captions say so; else compare that camera's clock \
                 with a watch"
            }
            Self::Clock(ClockDoubt::WholeCamera { side: Side::After, .. }) => {
                "compare that camera's clock with a watch, and check `returned:`"
            }
            Self::Clock(ClockDoubt::RanBack { .. }) => {
                "compare the camera's clock with a watch; the originals stay as they are"
            }
            Self::SamePicture(_) => "name one of them on the sheet, and leave the other out",
            Self::NearDuplicate { apart: false, .. } => {
                "keep the better one, unless both are needed; an original counts more than its copy"
            }
            Self::NearDuplicate { apart: true, .. } => {
                "check that the photo after the work is not the one before it"
            }
            Self::Edited(_) => "give the original from the camera beside it, and name that one",
            Self::Blurred(_) => "take it again while the part is at hand, nearer to the light",
            Self::Dark(_) => "take it again with more light",
            Self::Bright(_) => "take it again without the flash, or from another angle",
        }
    }
}

fn clock(doubt: &ClockDoubt, photos: &[Seen<'_>]) -> String {
    let name = |at: usize| photos.get(at).map_or("", |photo| photo.name);
    match doubt {
        ClockDoubt::NeverSet { photo, day } => format!(
            "`{}` was taken on {day} by its camera's clock, which seems never to have been set",
            name(*photo)
        ),
        ClockDoubt::WholeCamera { photos: own, side, days } => {
            let first = own.first().and_then(|at| photos.get(*at));
            let camera = first.and_then(|photo| photo.camera).unwrap_or_default();
            let end = match side {
                Side::Before => "before the arrival",
                Side::After => "after the return",
            };
            let count = own.len();
            let days = spelled(TimeDelta::days(*days));
            format!("all {count} photos of the camera `{camera}` are {days} or more {end}")
        }
        ClockDoubt::RanBack { earlier, later, by } => format!(
            "`{}` follows `{}` by its number, but is {} before it by the camera's clock",
            name(*later),
            name(*earlier),
            spelled(*by)
        ),
    }
}

fn edited(photo: usize, photos: &[Seen<'_>]) -> String {
    let Some((seen, edited)) =
        photos.get(photo).and_then(|seen| seen.edited.map(|edited| (seen, edited)))
    else {
        return String::new();
    };
    let name = seen.name;
    let what = match edited.sign {
        EditSign::Composed => "was put together or made by a program".to_owned(),
        EditSign::Later(by) => format!("was changed {} after it was taken", spelled(by)),
        EditSign::Steps(1) => "was changed after it was taken".to_owned(),
        EditSign::Steps(steps) => format!("was changed in {steps} steps after it was taken"),
    };
    let by = edited.by.as_ref().map(|by| format!(", by `{by}`")).unwrap_or_default();
    format!("metadata say that `{name}` {what}{by}")
}

/// Names that a message holds before it counts the rest.
const NAMES: usize = 4;

/// Names in backticks; the last one after "and", or the number of those that are left.
fn listed(of: &[usize], photos: &[Seen<'_>]) -> String {
    let names: Vec<String> =
        of.iter().filter_map(|at| photos.get(*at)).map(|one| format!("`{}`", one.name)).collect();
    if NAMES < names.len() {
        let (first, rest) = names.split_at(NAMES - 1);
        return format!("{} and {} more", first.join(", "), rest.len());
    }
    match names.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
        None => String::new(),
    }
}

/// A length of time in its largest whole unit, cut.
fn spelled(time: TimeDelta) -> String {
    let units =
        [(time.num_days(), "day"), (time.num_hours(), "hour"), (time.num_minutes(), "minute")];
    let (count, unit) =
        units.into_iter().find(|(count, _)| 0 < *count).unwrap_or((time.num_seconds(), "second"));
    if count == 1 { format!("1 {unit}") } else { format!("{count} {unit}s") }
}
