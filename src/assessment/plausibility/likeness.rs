//! Photos that are the same, or look it.
//!
//! Likeness is the share of slopes that only one of two fingerprints has, in thousandths. Measured on
//! 38 photos of phones, cameras and the samples, and on changed copies of each (median, 90th
//! percentile, largest):
//!
//! | change | unlike |
//! |---|---|
//! | saved again at quality 70 | 5, 14, 23 |
//! | half the size, quality 70 | 9, 23, 33 |
//! | saved again at quality 30 | 14, 42, 65 |
//! | an arrow and a ring drawn in | 26, 54, 172 |
//! | 30 % brighter | 51, 126, 510 |
//! | cut by 2 % on every side | 253, 314, 337 |
//! | turned by 2 degrees | 301, 356, 383 |
//! | by hand, 1 % and half a degree off | 213, 283, 315 |
//! | by hand, 2 % and one degree off | 381, 441, 490 |
//! | two shots from a tripod, nothing changed | 28, 55, 121 |
//!
//! Two different pictures have at least 455 (703 pairs); before and after from a tripod in the samples
//! have 65, 165 and 284. So likeness alone cannot separate a copy from the picture after the repair: the
//! camera's clock has to. Pictures that it sets apart were taken on purpose, and are reported only if
//! next to nothing differs.

use std::collections::BTreeMap;

use chrono::TimeDelta;

use super::doubt::Doubt;
use super::seen::{BRIGHT_FROM, DARK_BELOW, Seen};

/// From here on, in thousandths, two pictures do not look alike.
pub const ALIKE_PERMILLE: u32 = 350;

/// From here on, in thousandths, two pictures that the clock sets apart are not the same.
pub const COPY_PERMILLE: u32 = 40;

/// Fewer slopes than this and two pictures are too plain to compare: parts on bare paper have up to
/// 49, photos of a workshop at least 86.
pub const LEAST_SLOPES: u32 = 64;

/// Shots further apart by the camera's clock were taken on purpose.
pub const APART: TimeDelta = TimeDelta::seconds(60);

/// Groups of files with the same bytes.
pub(super) fn same(photos: &[Seen<'_>]) -> Vec<Vec<usize>> {
    let mut groups: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for (at, photo) in photos.iter().enumerate() {
        groups.entry(photo.sha256).or_default().push(at);
    }
    groups.into_values().filter(|group| 2 <= group.len()).collect()
}

/// Groups of different files that look alike. A wrong exposure hides what would separate two pictures
/// apart, so such photos are left out; of files with the same bytes the first is taken.
pub(super) fn near(photos: &[Seen<'_>]) -> Vec<Doubt> {
    let speaks = |at: &usize| {
        let (photo, earlier) = (&photos[*at], &photos[..*at]);
        DARK_BELOW <= photo.quality.brightest
            && photo.quality.burnt < BRIGHT_FROM
            && earlier.iter().all(|other| other.sha256 != photo.sha256)
    };
    let speakers: Vec<usize> = (0..photos.len()).filter(speaks).collect();
    let mut doubts = Vec::new();
    for apart in [false, true] {
        let alike = |one: usize, other: usize| are_alike(&photos[one], &photos[other], apart);
        let groups = groups(&speakers, alike);
        doubts.extend(groups.into_iter().map(|photos| Doubt::NearDuplicate { photos, apart }));
    }
    doubts
}

/// Whether two photos look alike, by the limit for shots that the clock sets apart or for others.
fn are_alike(one: &Seen<'_>, other: &Seen<'_>, apart: bool) -> bool {
    let limit = if apart { COPY_PERMILLE } else { ALIKE_PERMILLE };
    let likeness = one.quality.fingerprint.likeness(&other.quality.fingerprint);
    are_apart(one, other) == apart
        && likeness.unlike_permille(LEAST_SLOPES).is_some_and(|unlike| unlike < limit)
}

/// Whether two photos are known to be separate shots: other cameras, or times that are apart. A zone
/// does not matter, as both clocks are read as shown; a photo without a time may be a copy of any.
fn are_apart(one: &Seen<'_>, other: &Seen<'_>) -> bool {
    let cameras = one.camera.zip(other.camera);
    let times = one.taken.zip(other.taken);
    cameras.is_some_and(|(one, other)| one != other)
        || times.is_some_and(|(one, other)| APART < (one.local - other.local).abs())
}

/// What hangs together, directly or through others; each group in order, by its first.
fn groups(members: &[usize], belong: impl Fn(usize, usize) -> bool) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for &member in members {
        let (joined, mut others): (Vec<_>, Vec<_>) = groups
            .into_iter()
            .partition(|group: &Vec<usize>| group.iter().any(|&other| belong(other, member)));
        let mut joined: Vec<usize> = joined.into_iter().flatten().collect();
        joined.push(member);
        joined.sort_unstable();
        others.push(joined);
        groups = others;
    }
    groups.retain(|group| 2 <= group.len());
    groups.sort();
    groups
}
