//! Capture times against the sheet and against each other.
//!
//! Three things are reported, each of which can be defended:
//! 1. A clock that was never set: its day is before 2001, or outside the job's days and a first of
//!    January, which is where cameras start counting when their battery was empty.
//! 2. A camera of which *all* photos, two or more, are before the arrival, or all after the return:
//!    one doubt about its clock instead of one for each photo.
//! 3. A clock that ran back by more than a day between two neighbours of one camera's own numbering,
//!    eight signs of which the last four count, 0001 to 9999 (JEITA CP-3461, "DCF"; read from memory).
//!    Names that a person gave say nothing about order, nor does the order of the sheet.
//!
//! A jump forward alone is not reported: days pass between arrival and return.

use std::collections::BTreeMap;

use chrono::{Datelike, NaiveDate, TimeDelta};

use super::doubt::{ClockDoubt, Doubt, Side};
use super::seen::Seen;
use crate::photo::Taken;

/// The days between which photos of a job are taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    pub(super) arrival: Option<NaiveDate>,
    pub(super) returned: Option<NaiveDate>,
}

/// First year in which a day is believed.
const FIRST_YEAR: i32 = 2001;

/// A clock may run back by this much: a journey through the zones, or summer time.
const MOST_BACK: TimeDelta = TimeDelta::days(1);

/// Numbers further apart come from two rounds of the counter.
const ONE_ROUND: u16 = 5000;

/// A photo whose clock is believed.
#[derive(Clone, Copy)]
struct Dated {
    photo: usize,
    taken: Taken,
    /// The side of the job on which it is, and by how many days.
    outside: Option<(Side, i64)>,
}

/// Everything that the clocks give reason for.
pub(super) fn judge(photos: &[Seen<'_>], span: Span) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let mut dated: Vec<Dated> = Vec::new();
    for (photo, seen) in photos.iter().enumerate() {
        let Some(taken) = seen.taken else { continue };
        let (day, outside) = (taken.local.date(), outside(&taken, span));
        let is_new_year = day.month() == 1 && day.day() == 1;
        if day.year() < FIRST_YEAR || outside.is_some() && is_new_year {
            doubts.push(Doubt::Clock(ClockDoubt::NeverSet { photo, day }));
        } else {
            dated.push(Dated { photo, taken, outside });
        }
    }
    let mut by_camera: BTreeMap<&str, Vec<Dated>> = BTreeMap::new();
    for one in &dated {
        if let Some(camera) = photos[one.photo].camera {
            by_camera.entry(camera).or_default().push(*one);
        }
    }
    let mut told = Vec::new();
    for own in by_camera.values() {
        if let Some((side, days)) = one_side(own) {
            let photos: Vec<usize> = own.iter().map(|one| one.photo).collect();
            told.extend(&photos);
            doubts.push(Doubt::Clock(ClockDoubt::WholeCamera { photos, side, days }));
        }
        doubts.extend(ran_back(photos, own).into_iter().map(Doubt::Clock));
    }
    for Dated { photo, taken, outside } in dated {
        let day = taken.local.date();
        match (outside, span) {
            _ if told.contains(&photo) => {}
            (Some((Side::Before, _)), Span { arrival: Some(arrival), .. }) => {
                doubts.push(Doubt::BeforeArrival { photo, day, arrival });
            }
            (Some((Side::After, _)), Span { returned: Some(returned), .. }) => {
                doubts.push(Doubt::AfterReturn { photo, day, returned });
            }
            _ => {}
        }
    }
    doubts
}

/// On which side of the job a time is, and by how many days.
fn outside(taken: &Taken, Span { arrival, returned }: Span) -> Option<(Side, i64)> {
    let grace = i64::from(taken.offset.is_none());
    let day = taken.local.date();
    let before = arrival.map(|arrival| (arrival - day).num_days());
    let after = returned.map(|returned| (day - returned).num_days());
    if let Some(days) = before.filter(|days| grace < *days) {
        return Some((Side::Before, days));
    }
    after.filter(|days| grace < *days).map(|days| (Side::After, days))
}

/// The side on which all of two or more photos are, and the fewest days.
fn one_side(own: &[Dated]) -> Option<(Side, i64)> {
    let (side, _) = own.first()?.outside?;
    let days: Option<Vec<i64>> = own
        .iter()
        .map(|one| one.outside.filter(|(own, _)| *own == side).map(|(_, days)| days))
        .collect();
    let nearest = days?.into_iter().min()?;
    (2 <= own.len()).then_some((side, nearest))
}

/// Neighbours of one numbering whose time runs back.
fn ran_back(photos: &[Seen<'_>], own: &[Dated]) -> Vec<ClockDoubt> {
    let mut numbered: BTreeMap<&str, BTreeMap<u16, (usize, Taken)>> = BTreeMap::new();
    for Dated { photo, taken, .. } in own {
        if let Some((series, number)) = counter(photos[*photo].name) {
            numbered.entry(series).or_default().entry(number).or_insert((*photo, *taken));
        }
    }
    let mut doubts = Vec::new();
    for series in numbered.values() {
        let first = series.keys().next().copied().unwrap_or_default();
        let last = series.keys().next_back().copied().unwrap_or_default();
        if ONE_ROUND < last - first {
            continue;
        }
        let order: Vec<&(usize, Taken)> = series.values().collect();
        for pair in order.windows(2) {
            let [(earlier, before), (later, after)] = pair else { continue };
            let by = instant(before, after) - instant(after, before);
            if MOST_BACK < by {
                doubts.push(ClockDoubt::RanBack { earlier: *earlier, later: *later, by });
            }
        }
    }
    doubts
}

/// A time for comparison with another: in UTC if both zones are known, else as shown.
fn instant(own: &Taken, other: &Taken) -> chrono::NaiveDateTime {
    match (own.offset, other.offset) {
        (Some(offset), Some(_)) => {
            own.local - TimeDelta::seconds(i64::from(offset.local_minus_utc()))
        }
        _ => own.local,
    }
}

/// The series and number of a camera's own file name, such as `IMG_0412.jpg`.
fn counter(name: &str) -> Option<(&str, u16)> {
    let file = name.rsplit('/').next()?;
    let (stem, _) = file.rsplit_once('.')?;
    if stem.len() != 8 || !stem.bytes().all(|sign| sign.is_ascii_alphanumeric() || sign == b'_') {
        return None;
    }
    let (series, digits) = stem.split_at_checked(4)?;
    let is_number = digits.bytes().all(|digit| digit.is_ascii_digit());
    let number = digits.parse().ok().filter(|number| is_number && 0 < *number)?;
    Some((series, number))
}
