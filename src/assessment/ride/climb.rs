//! Height climbed and descended: single spikes taken out, then hysteresis.
//!
//! In: the heights of a path; out: smoothed heights and [`Climb`]. Summing every small rise counts the
//! noise of a receiver as climbing, up to twice the truth; so a rise counts only from
//! [`rule::HYSTERESIS`] on, and the figure is printed together with that rule.

use super::clean::{Link, Path};
use super::pause::tenths;
use super::rule;

/// Height gained and lost.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Climb {
    /// Metres climbed.
    pub up_m: f64,
    /// Metres descended.
    pub down_m: f64,
}

/// Why no climb is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoClimb {
    /// No point has a height.
    NoHeights,
    /// Fewer points than [`rule::HEIGHTS`] have one.
    FewHeights,
}

/// Heights of a path.
pub(super) struct Heights {
    /// Smoothed height of each point, if it has one.
    pub levels: Vec<Option<f64>>,
    /// What was climbed.
    pub climb: Result<Climb, NoClimb>,
    /// Steps steeper than one in one, which were not climbed.
    pub jumps: usize,
}

/// Smooths the heights of a path and sums up its climbs; `along` are metres ridden to each point.
pub(super) fn levels(path: &Path, along: &[f64]) -> Heights {
    let samples = &path.samples;
    let places: Vec<usize> =
        (0..samples.len()).filter(|&at| samples[at].height.is_some()).collect();
    let raw: Vec<f64> = places.iter().filter_map(|&at| samples[at].height).collect();
    let smooth = medians(&raw);
    let mut levels = vec![None; samples.len()];
    for (place, level) in places.iter().zip(&smooth) {
        levels[*place] = Some(tenths(*level));
    }
    let mut jumps = 0;
    let mut climbed = Vec::with_capacity(smooth.len());
    // Metres taken out at gaps and jumps so far.
    let mut offset = 0.0;
    for (at, (place, level)) in places.iter().zip(&smooth).enumerate() {
        if let Some(last) = at.checked_sub(1) {
            let rise = level - smooth[last];
            let way = along[*place] - along[places[last]];
            let is_gap = samples[places[last] + 1..=*place].iter().any(|s| s.link == Link::Break);
            let is_jump = !is_gap && rise.abs() > way.max(rule::HYSTERESIS.value);
            if is_gap || is_jump {
                offset += rise;
            }
            jumps += usize::from(is_jump);
        }
        climbed.push(level - offset);
    }
    let climb = if places.is_empty() {
        Err(NoClimb::NoHeights)
    } else if (places.len() as f64) * 100.0 < samples.len() as f64 * rule::HEIGHTS.value {
        Err(NoClimb::FewHeights)
    } else {
        let climb = hysteresis(climbed, rule::HYSTERESIS.value);
        Ok(Climb { up_m: tenths(climb.up_m), down_m: tenths(climb.down_m) })
    };
    Heights { levels, climb, jumps }
}

/// The middle of up to [`rule::MEDIAN`] neighbours; fewer towards the ends, as many on either side.
fn medians(heights: &[f64]) -> Vec<f64> {
    let half = rule::MEDIAN.value as usize / 2;
    (0..heights.len())
        .map(|at| {
            let reach = half.min(at).min(heights.len() - 1 - at);
            let mut near = heights[at - reach..=at + reach].to_vec();
            near.sort_by(f64::total_cmp);
            near[reach]
        })
        .collect()
}

/// Sums up climbs and descents between turns. A turn is a highest or lowest point from which the height
/// then departs by `threshold` metres or more; a threshold of zero sums every rise.
pub fn hysteresis(heights: impl IntoIterator<Item = f64>, threshold: f64) -> Climb {
    let mut heights = heights.into_iter();
    let mut climb = Climb::default();
    let Some(first) = heights.next() else { return climb };
    let (mut low, mut high) = (first, first);
    // Up, down, or not known before the first departure.
    let mut is_up = None;
    for height in heights {
        match is_up {
            None => {
                low = low.min(height);
                high = high.max(height);
                if height - low >= threshold && height > low {
                    is_up = Some(true);
                    high = height;
                } else if high - height >= threshold && height < high {
                    is_up = Some(false);
                    low = height;
                }
            }
            Some(true) if height >= high => high = height,
            Some(true) if high - height >= threshold => {
                climb.up_m += high - low;
                is_up = Some(false);
                low = height;
            }
            Some(false) if height <= low => low = height,
            Some(false) if height - low >= threshold => {
                climb.down_m += high - low;
                is_up = Some(true);
                high = height;
            }
            Some(_) => {}
        }
    }
    match is_up {
        Some(true) => climb.up_m += high - low,
        Some(false) => climb.down_m += high - low,
        None => {}
    }
    climb
}
