//! The ride as a curve for drawing: both ends clipped, evenly spaced, heights without their level.
//!
//! In: pace and heights of a path; out: at most [`rule::SAMPLES`] points. What is within
//! [`rule::CLIP`] of either end is left out, because a ride often starts and ends at a door; heights
//! are above the lowest point that is shown, because a level gives a place away.

use std::ops::RangeInclusive;

use super::pace::Pace;
use super::pause::tenths;
use super::rule;

/// One point of the curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// Metres ridden from the start of the ride, to 1 m.
    pub distance_m: f64,
    /// km/h, to 0.1; `None` without times.
    pub speed_kmh: Option<f64>,
    /// Metres above the lowest point of the curve, to 0.1 m; `None` if no height is known.
    pub height_m: Option<f64>,
}

/// The part of a ride of this many metres that may be seen.
pub(super) fn shown(distance: f64) -> Option<RangeInclusive<f64>> {
    let (start, end) = (rule::CLIP.value, distance - rule::CLIP.value);
    (end - start >= rule::DRAWN.value).then_some(start..=end)
}

/// Resamples a ride between its clipped ends.
pub(super) fn curve(
    pace: &Pace,
    levels: &[Option<f64>],
    shown: Option<&RangeInclusive<f64>>,
) -> Vec<CurvePoint> {
    let Some(shown) = shown else { return Vec::new() };
    let way = shown.end() - shown.start();
    // No closer than 5 m, near what a receiver resolves.
    let parts = ((way / 5.0) as usize).clamp(1, rule::SAMPLES - 1);
    let mut points = Vec::with_capacity(parts + 1);
    let mut at = 1;
    for part in 0..=parts {
        let distance = shown.start() + way * part as f64 / parts as f64;
        while at + 1 < pace.along.len() && pace.along[at] < distance {
            at += 1;
        }
        let (before, after) = (pace.along[at - 1], pace.along[at]);
        let share = if after > before { (distance - before) / (after - before) } else { 1.0 };
        let between = |values: &[Option<f64>]| match (values[at - 1], values[at]) {
            (Some(from), Some(to)) => Some(from + (to - from) * share.clamp(0.0, 1.0)),
            (one, other) => one.or(other),
        };
        points.push(CurvePoint {
            distance_m: distance.round(),
            speed_kmh: between(&pace.speed).map(tenths),
            height_m: between(levels),
        });
    }
    let lowest = points.iter().filter_map(|point| point.height_m).fold(f64::INFINITY, f64::min);
    for point in &mut points {
        point.height_m = point.height_m.map(|height| tenths(height - lowest));
    }
    points
}
