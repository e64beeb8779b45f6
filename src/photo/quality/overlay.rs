//! Two pictures laid on each other: planes and a rough fit -> how much of their detail agrees.
//!
//! The fit is refined by least squares (B. Lucas and T. Kanade, 1981) in three sizes, with scale and
//! place of both directions and a small turn left free. What is compared then is detail alone:
//! brightness less its local mean, tile by tile, so that a brighter or duller copy agrees and another
//! shot of a like part does not. Both are smoothed first: grain that fell on other pixels when a copy was
//! cut and scaled says nothing, and what tells two parts apart is larger. The same arithmetic in the same order on every machine: sums,
//! products, quotients and square roots. Not here: finding what may be alike, and from which
//! agreement on two pictures are called the same (assessment).

#![allow(clippy::many_single_char_names, reason = "the letters of formulas")]

use super::area::Plane;
use super::fit::Fit;

/// How much of two pictures agrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Agreement {
    /// Correlation of detail in the middle one of all tiles that have any, in thousandths.
    pub middle: i32,
    /// That in the lowest quarter.
    pub quarter: i32,
    /// That in the lowest one of twenty.
    pub lowest: i32,
    /// That in the lowest one of all.
    pub least: i32,
    /// Tiles that have detail.
    pub tiles: usize,
    /// How much of the first picture is on the second, in thousandths.
    pub covered: u32,
    /// How much of the second picture the first one shows, in thousandths.
    pub shown: u32,
}

/// Long edge at which pictures are compared.
pub(super) const EDGE: u32 = 384;

/// Long edges in which the fit is refined, from coarse to fine; the last is compared.
const EDGES: [u32; 3] = [96, 192, EDGE];

/// Most steps of refining in each size; mostly three or four are needed.
const STEPS: [usize; 3] = [10, 8, 6];

/// A fit that a step moves by less than this, in pixels, is settled.
const SETTLED: f64 = 0.05;

/// Agreement in the middle tile of smaller pictures, in thousandths, below which they are others.
const HOPELESS: i32 = 500;

/// Agreement in the middle tile from which the refined fit is the good one.
const SETTLED_FROM: i32 = 960;

/// A difference of one pixel that is more than this says nothing of the fit.
const MOST_REST: f64 = 40.0;

/// Tiles along the long edge.
const TILES: usize = 12;

/// How often pictures are smoothed of which one may be a cut of the other. Measured on cuts of the
/// samples: once, the grainy ones agree by 860 thousandths in the middle; four times, all by 900 and
/// more, and other parts agree less.
pub(super) const OF_CUTS: usize = 4;

/// How often two pictures of one frame are smoothed: little, so that a small change shows.
pub(super) const OF_WHOLES: usize = 1;

/// Reach of the local mean, in pixels.
const REACH: usize = 5;

/// Least deviation of detail in a tile, in steps of brightness, so that noise is not compared.
const LEAST_DETAIL: f64 = 2.0;

/// Least tiles with detail; with fewer the pictures are too plain to compare.
const LEAST_TILES: usize = 8;

/// Lays the first picture on the second and compares them, a cut in as many pixels as the whole's part.
/// Both are smoothed so often before.
pub(super) fn compare(
    first: &Plane,
    second: &Plane,
    rough: Fit,
    smoothed: usize,
) -> Option<Agreement> {
    let Fit([a, b, _, d, e, _]) = rough;
    let larger = (a * e - b * d).abs().sqrt();
    let (mut fit, mut best) = (rough, None);
    for (edge, steps) in EDGES.into_iter().zip(STEPS) {
        let (one, other) = even(first, second, edge, larger);
        let (one, other) = (first.within(one), second.within(other));
        let [one, other] = [&one, &other].map(|plane| Grid::of(plane, smoothed));
        fit = refined(&one, &other, fit, steps)?;
        // Other pictures do not agree when they are small, and are not laid on each other at full size.
        if edge < EDGE {
            let found = agreement(&one, &other, fit).filter(|found| found.middle < HOPELESS);
            if found.is_some() {
                return found;
            }
        }
        best = Some((one, other));
    }
    let (one, other) = best?;
    let found = agreement(&one, &other, fit);
    if found.is_some_and(|found| SETTLED_FROM <= found.middle) {
        return found;
    }
    // Fine grain can lead the refining astray; where the rough fit was the better one, it counts.
    match (found, agreement(&one, &other, rough)) {
        (Some(found), Some(unrefined)) if found.middle < unrefined.middle => Some(unrefined),
        (found, unrefined) => found.or(unrefined),
    }
}

/// Long edges of at most `edge` in which what is on both pictures has as many pixels in either;
/// `larger` is how much larger the second one is.
fn even(first: &Plane, second: &Plane, edge: u32, larger: f64) -> (u32, u32) {
    let most = |plane: &Plane| f64::from(edge).min(plane.width.max(plane.height) as f64);
    let other = most(second).min(most(first) / larger);
    let one = other * larger;
    (one.round().max(1.0) as u32, other.round().max(1.0) as u32)
}

/// Brightness as numbers, smoothed, and its long edge.
struct Grid {
    width: usize,
    height: usize,
    long: f64,
    values: Vec<f64>,
}

impl Grid {
    fn of(plane: &Plane, smoothed: usize) -> Self {
        let (width, height) = (plane.width, plane.height);
        let values: Vec<f64> = plane.values.iter().map(|value| f64::from(*value)).collect();
        let values = (0..smoothed)
            .fold(values, |values, _| smooth(&smooth(&values, width, 1), width, width));
        let long = width.max(height) as f64;
        Self { width, height, long, values }
    }

    /// The area in squares of the long edge, less the rim that is not compared.
    fn area(&self) -> f64 {
        (self.width.max(2) - 1) as f64 * (self.height.max(2) - 1) as f64 / (self.long * self.long)
    }

    /// Brightness at a place in pixels, between four of them; nothing at the rim and outside.
    fn at(&self, x: f64, y: f64) -> Option<f64> {
        if !(0.0 <= x && 0.0 <= y) {
            return None;
        }
        let (left, top) = (x as usize, y as usize);
        if self.width < left + 2 || self.height < top + 2 {
            return None;
        }
        let (right, low) = (x - left as f64, y - top as f64);
        let at = top * self.width + left;
        let line = |at: usize| self.values[at] * (1.0 - right) + self.values[at + 1] * right;
        Some(line(at) * (1.0 - low) + line(at + self.width) * low)
    }

    /// What of another picture is on each pixel of this one, and how many have something.
    fn laid(&self, other: &Self, fit: Fit) -> (Vec<Option<f64>>, usize) {
        let mut n = 0;
        let mut laid = Vec::with_capacity(self.values.len());
        for y in 0..self.height {
            for x in 0..self.width {
                let own = |at: usize| (at as f64 + 0.5) / self.long;
                let (ox, oy) = fit.of(own(x), own(y));
                let value = other.at(ox * other.long - 0.5, oy * other.long - 0.5);
                n += usize::from(value.is_some());
                laid.push(value);
            }
        }
        (laid, n)
    }
}

/// Every value with a quarter of each neighbour along a line (step 1) or a column (step `width`).
fn smooth(values: &[f64], width: usize, step: usize) -> Vec<f64> {
    let mut smoothed = values.to_vec();
    let inner = smoothed.iter_mut().skip(step);
    let around = values.iter().zip(&values[step.min(values.len())..]);
    let around = around.zip(values.get(2 * step..).unwrap_or_default());
    for (own, ((left, middle), right)) in inner.zip(around) {
        *own = (left + 2.0 * middle + right) / 4.0;
    }
    // Along a line the ends are no neighbours of those of the next.
    if step == 1 && 0 < width {
        for at in (0..values.len()).step_by(width) {
            let end = (at + width).min(values.len()) - 1;
            (smoothed[at], smoothed[end]) = (values[at], values[end]);
        }
    }
    smoothed
}

/// Refines a fit; nothing where the pictures hardly overlap or nothing settles it.
fn refined(one: &Grid, other: &Grid, rough: Fit, steps: usize) -> Option<Fit> {
    let (mut fit, mut best) = (rough, (f64::MAX, rough));
    for _ in 0..steps {
        let (laid, n) = one.laid(other, fit);
        if n < one.values.len() / 20 {
            return None;
        }
        let (gain, offset) = levels(&one.values, &laid, n)?;
        let far = rest(&one.values, &laid, gain, offset) / n as f64;
        if far < best.0 {
            best = (far, fit);
        }
        let mut sums = [[0.0; 7]; 6];
        for y in 1..one.height.saturating_sub(1) {
            for x in 1..one.width.saturating_sub(1) {
                let at = y * one.width + x;
                let around = [
                    laid[at],
                    laid[at - 1],
                    laid[at + 1],
                    laid[at - one.width],
                    laid[at + one.width],
                ];
                let [Some(own), Some(left), Some(right), Some(above), Some(below)] = around else {
                    continue;
                };
                let (across, down) = ((right - left) * gain / 2.0, (below - above) * gain / 2.0);
                let off = one.values[at] - (own * gain + offset);
                // A wrong pixel, under an arrow that was drawn in, may not pull the fit.
                if MOST_REST < off.abs() {
                    continue;
                }
                let (px, py) = (x as f64 / one.long, y as f64 / one.long);
                let row = [across * px, across * py, across, down * px, down * py, down];
                for (line, left) in sums.iter_mut().zip(row) {
                    for (sum, right) in line.iter_mut().zip(row.iter().chain([&off])) {
                        *sum += left * right;
                    }
                }
            }
        }
        let step = solved(sums)?;
        // The step is in pixels of the first picture; before the fit it moves its places.
        let [a, b, c, d, e, f] = step.map(|value| value / one.long);
        let moved = Fit([1.0 + a, b, c, d, 1.0 + e, f]);
        fit = fit.after(moved);
        let largest = step.iter().fold(0.0, |most: f64, value| most.max(value.abs()));
        if largest < SETTLED {
            break;
        }
    }
    let (laid, n) = one.laid(other, fit);
    let (gain, offset) = levels(&one.values, &laid, n)?;
    let far = rest(&one.values, &laid, gain, offset) / n as f64;
    Some(if far < best.0 { fit } else { best.1 })
}

/// How far the pictures are from each other, in steps of brightness over all pixels; a wrong pixel
/// counts no more than forty.
fn rest(one: &[f64], laid: &[Option<f64>], gain: f64, offset: f64) -> f64 {
    let far = one.iter().zip(laid).filter_map(|(own, other)| {
        Some((own - (other.as_ref()? * gain + offset)).abs().min(MOST_REST))
    });
    far.sum()
}

/// Gain and offset that bring the second picture nearest to the first in brightness.
fn levels(one: &[f64], laid: &[Option<f64>], n: usize) -> Option<(f64, f64)> {
    let n = n as f64;
    let [mut x, mut y, mut xx, mut xy] = [0.0; 4];
    for (own, other) in one.iter().zip(laid) {
        let Some(other) = other else { continue };
        x += other;
        y += own;
        xx += other * other;
        xy += other * own;
    }
    let spread = xx - x * x / n;
    if spread < n {
        return None;
    }
    let gain = (xy - x * y / n) / spread;
    Some((gain, (y - gain * x) / n))
}

/// Six equations solved by elimination with pivots.
fn solved(mut rows: [[f64; 7]; 6]) -> Option<[f64; 6]> {
    for at in 0..6 {
        let pivot =
            (at..6).fold(
                at,
                |best, row| {
                    if rows[best][at].abs() < rows[row][at].abs() { row } else { best }
                },
            );
        rows.swap(at, pivot);
        let line = rows[at];
        if line[at].abs() < 1e-6 {
            return None;
        }
        for (row, below) in rows.iter_mut().enumerate() {
            if row != at {
                let factor = below[at] / line[at];
                for (value, own) in below.iter_mut().zip(line) {
                    *value -= factor * own;
                }
            }
        }
    }
    let mut answer = [0.0; 6];
    for (at, value) in answer.iter_mut().enumerate() {
        *value = rows[at][6] / rows[at][at];
    }
    Some(answer)
}

/// Compares detail tile by tile.
fn agreement(one: &Grid, other: &Grid, fit: Fit) -> Option<Agreement> {
    let (laid, n) = one.laid(other, fit);
    let Fit([a, b, _, d, e, _]) = fit;
    let laid_area = n as f64 / (one.long * one.long) * (a * e - b * d).abs();
    let (own, laid) = (detail(one, &laid, true), detail(one, &laid, false));
    let edge = one.width.max(one.height).div_ceil(TILES);
    let mut found = Vec::new();
    for top in (0..one.height).step_by(edge) {
        for left in (0..one.width).step_by(edge) {
            let mut pairs = Vec::with_capacity(edge * edge);
            for y in top..(top + edge).min(one.height) {
                for at in y * one.width + left..y * one.width + (left + edge).min(one.width) {
                    pairs.extend(own[at].zip(laid[at]));
                }
            }
            if edge * edge / 2 <= pairs.len() {
                found.extend(correlation(&pairs));
            }
        }
    }
    found.sort_unstable();
    let tiles = found.len();
    (LEAST_TILES <= tiles).then(|| Agreement {
        middle: found[tiles / 2],
        quarter: found[tiles / 4],
        lowest: found[tiles / 20],
        least: found[0],
        tiles,
        covered: (n * 1000 / one.values.len().max(1)) as u32,
        shown: (laid_area / other.area() * 1000.0).min(1000.0) as u32,
    })
}

/// Brightness less the mean around it, of the first picture or of what is laid on it; only if
/// both have something all around.
fn detail(one: &Grid, laid: &[Option<f64>], is_own: bool) -> Vec<Option<f64>> {
    let value = |at: usize| laid[at].map(|other| if is_own { one.values[at] } else { other });
    // Means along the lines, then along the columns of these.
    let means = |values: &dyn Fn(usize) -> Option<f64>, step: usize, reach: usize, at: usize| {
        let mut sum = 0.0;
        for k in 0..=2 * reach {
            sum += values(at + k * step - reach * step)?;
        }
        Some(sum / (2 * reach + 1) as f64)
    };
    let mut lines = vec![None; laid.len()];
    for y in 0..one.height {
        for x in REACH..one.width.saturating_sub(REACH) {
            let at = y * one.width + x;
            lines[at] = means(&value, 1, REACH, at);
        }
    }
    let mut detail = vec![None; laid.len()];
    for y in REACH..one.height.saturating_sub(REACH) {
        for x in 0..one.width {
            let at = y * one.width + x;
            let mean = means(&|at| lines[at], one.width, REACH, at);
            detail[at] = value(at).zip(mean).map(|(value, mean)| value - mean);
        }
    }
    detail
}

/// Correlation in thousandths; nothing if either has no detail.
fn correlation(pairs: &[(f64, f64)]) -> Option<i32> {
    let n = pairs.len() as f64;
    let [mut x, mut y, mut xx, mut yy, mut xy] = [0.0; 5];
    for (own, other) in pairs {
        x += own;
        y += other;
        xx += own * own;
        yy += other * other;
        xy += own * other;
    }
    let (xx, yy, xy) = (xx - x * x / n, yy - y * y / n, xy - x * y / n);
    let least = LEAST_DETAIL * LEAST_DETAIL * n;
    (least <= xx.max(yy)).then(|| {
        let both = (xx.max(1.0) * yy.max(1.0)).sqrt();
        (xy / both * 1000.0) as i32
    })
}
