//! How fast and how long: speeds over a window, stops, time in motion, length ridden.
//!
//! In: [`Path`]; out: [`Pace`]. Speeds are means over at least [`rule::WINDOW`], never of one step. A
//! speed from positions is no proof of a cut-off: a meter for that reads within 2 % (EN 15194).

use super::clean::{Link, Path, Sample};
use super::pause::{Pause, tenths};
use super::rule;

/// Speeds in motion in km/h, to 0.1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Speeds {
    /// Length over time in motion.
    pub mean: f64,
    /// Half of the time in motion was slower.
    pub median: f64,
    /// Of the time in motion 95 % was slower.
    pub p95: f64,
    /// Highest mean over a window.
    pub max: f64,
}

/// What follows from steps and times; each list has one entry a point.
pub(super) struct Pace {
    /// Metres ridden up to the point.
    pub along: Vec<f64>,
    /// km/h at the point; `None` without times or in a stretch too short for a window.
    pub speed: Vec<Option<f64>>,
    /// Stops, in their order.
    pub stops: Vec<Pause>,
    /// Seconds in motion, if the track has times.
    pub moving: Option<f64>,
    /// Speeds in motion.
    pub speeds: Option<Speeds>,
}

/// Measures a path.
pub(super) fn pace(path: &Path) -> Pace {
    let samples = &path.samples;
    let ways = sums(samples.iter().map(|sample| sample.step));
    let halts = if path.timed { halts(samples) } else { Vec::new() };
    let mut is_halted = vec![false; samples.len()];
    let mut halted_step = vec![false; samples.len()];
    for &(from, to) in &halts {
        is_halted[from..=to].fill(true);
        halted_step[from + 1..=to].fill(true);
    }
    let along =
        sums(samples.iter().zip(&halted_step).map(|(s, halt)| if *halt { 0.0 } else { s.step }));
    let speed: Vec<Option<f64>> = (0..samples.len())
        .map(|at| {
            let (_, low, high) = samples[at].window;
            let over = span(samples, at).filter(|_| path.timed)?;
            Some(if is_halted[at] { 0.0 } else { (ways[high] - ways[low]) / over * 3.6 })
        })
        .collect();
    let moved: Vec<f64> = (0..samples.len())
        .map(|at| match samples[at].link {
            Link::Ridden if !halted_step[at] => samples[at].time - samples[at - 1].time,
            _ => 0.0,
        })
        .collect();
    let stops = halts
        .iter()
        .map(|&(from, to)| {
            let seconds = Some(samples[to].time - samples[from].time);
            Pause { at_m: along[from], seconds }
        })
        .collect();
    let moving = path.timed.then(|| moved.iter().sum());
    let speeds = moving.and_then(|moving| {
        let distance = along.last().copied().unwrap_or_default();
        speeds(&speed, &moved, distance, moving)
    });
    Pace { along, speed, stops, moving, speeds }
}

/// Seconds of a point's window, if they suffice for a speed.
fn span(samples: &[Sample], at: usize) -> Option<f64> {
    let (_, low, high) = samples[at].window;
    let span = samples[high].time - samples[low].time;
    (span >= rule::WINDOW.value).then_some(span)
}

fn sums(values: impl Iterator<Item = f64>) -> Vec<f64> {
    values
        .scan(0.0, |sum, value| {
            *sum += value;
            Some(*sum)
        })
        .collect()
}

/// First and last point of each stop of at least [`rule::STOP`].
fn halts(samples: &[Sample]) -> Vec<(usize, usize)> {
    let is_standing = |at: usize| {
        span(samples, at)
            .is_some_and(|span| samples[at].window.0 / span * 3.6 < rule::STANDING.value)
    };
    // Towards its ends a window holds riding already: there single steps decide.
    let is_slow_step = |at: usize| {
        let time = samples[at].time - samples[at - 1].time;
        samples[at].link == Link::Ridden && samples[at].step * 3.6 < time * rule::STANDING.value
    };
    let mut halts: Vec<(usize, usize)> = Vec::new();
    let mut at = 0;
    while at < samples.len() {
        let is_rest = samples[at].link == Link::Rest;
        if !is_rest && !is_standing(at) {
            at += 1;
            continue;
        }
        let mut from = if is_rest { at - 1 } else { at };
        let mut to = at;
        while to + 1 < samples.len()
            && (samples[to + 1].link == Link::Rest
                || samples[to + 1].link == Link::Ridden && is_standing(to + 1)
                || is_slow_step(to + 1))
        {
            to += 1;
        }
        // Ends before the stop before: that one would have taken in the slow step after it.
        while from > 0 && is_slow_step(from) {
            from -= 1;
        }
        halts.push((from, to));
        at = to + 1;
    }
    halts.retain(|&(from, to)| samples[to].time - samples[from].time >= rule::STOP.value);
    halts
}

/// Speeds by their share of the time in motion.
fn speeds(speed: &[Option<f64>], moved: &[f64], distance: f64, moving: f64) -> Option<Speeds> {
    let mut shares: Vec<(f64, f64)> = speed
        .iter()
        .zip(moved)
        .filter_map(|(speed, moved)| speed.map(|speed| (speed, *moved)))
        .filter(|share| share.1 > 0.0)
        .collect();
    shares.sort_by(|a, b| a.0.total_cmp(&b.0));
    let whole: f64 = shares.iter().map(|share| share.1).sum();
    let below = |part: f64| {
        let mut sum = 0.0;
        let found = shares.iter().find(|share| {
            sum += share.1;
            sum >= whole * part
        });
        found.or(shares.last()).map(|share| tenths(share.0))
    };
    let max = tenths(shares.last()?.0);
    let mean = tenths(distance / moving * 3.6);
    Some(Speeds { mean, median: below(0.5)?, p95: below(0.95)?, max })
}
