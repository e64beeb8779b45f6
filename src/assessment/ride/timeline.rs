//! Puts time in order: drops the fewest points after which time runs forward.
//!
//! In: points in the order of the file; out: the kept ones and how many were dropped, and why. One
//! point from the future costs itself, not every point after it.

use super::cleaned::Cleaned;
use super::gpx::Fix;
use super::rule;

/// Keeps the points that fit one timeline, and says whether there is one.
pub(super) fn ordered(fixes: Vec<Fix>, cleaned: &mut Cleaned) -> (Vec<Fix>, bool) {
    let timed = fixes.iter().filter(|fix| fix.time.is_some()).count();
    let is_timed = timed > 0 && timed as f64 * 100.0 >= fixes.len() as f64 * rule::TIMES.value;
    if !is_timed {
        let before = fixes.len();
        let mut fixes = fixes;
        fixes.dedup_by(|next, last| next.place == last.place && next.segment == last.segment);
        cleaned.repeated = before - fixes.len();
        return (fixes, false);
    }
    let before = fixes.len();
    let fixes: Vec<Fix> = fixes.into_iter().filter(|fix| fix.time.is_some()).collect();
    cleaned.without_time = before - fixes.len();
    let kept = forward(&fixes);
    let mut next = 0;
    for (at, fix) in fixes.iter().enumerate() {
        if kept.get(next) == Some(&at) {
            next += 1;
            continue;
        }
        // Beside the dropped point: the last kept one and the one that is kept next.
        let beside = [next.checked_sub(1).and_then(|last| kept.get(last)), kept.get(next)];
        let is_repeat = beside.into_iter().flatten().any(|&near| fixes[near].time == fix.time);
        *(if is_repeat { &mut cleaned.repeated } else { &mut cleaned.backwards }) += 1;
    }
    (kept.into_iter().map(|at| fixes[at]).collect(), true)
}

/// Places of a longest strictly rising run of times, in n log n steps.
fn forward(fixes: &[Fix]) -> Vec<usize> {
    let time = |at: usize| fixes[at].time;
    // ends[k]: the point with the earliest time that ends a rising run of k + 1 points.
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(fixes.len());
    for at in 0..fixes.len() {
        let slot = ends.partition_point(|&end| time(end) < time(at));
        before.push(slot.checked_sub(1).map(|last| ends[last]));
        match ends.get_mut(slot) {
            // Of two points with one time the first stays.
            Some(end) if time(at) < fixes[*end].time => *end = at,
            Some(_) => {}
            None => ends.push(at),
        }
    }
    let mut kept = Vec::with_capacity(ends.len());
    let mut at = ends.last().copied();
    while let Some(place) = at {
        kept.push(place);
        at = before[place];
    }
    kept.reverse();
    kept
}
