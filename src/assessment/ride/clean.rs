//! Cleans a track: out go jumps and repeated points, and gaps split it into stretches.
//!
//! In: the points of a file; out: [`Path`], which holds lengths and times but no place, and the tally
//! of what was dropped. The rules are in `rule`.

use chrono::{DateTime, NaiveDate};

use super::cleaned::Cleaned;
use super::gpx::{Fix, Track};
use super::pause::Pause;
use super::refusal::Refusal;
use super::{geodesy, rule, timeline};

/// A kept point without its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    /// Seconds from the first point; zero in a track without times.
    pub time: f64,
    /// Metres from the point before; zero at the start of a stretch.
    pub step: f64,
    /// Metres above the sea.
    pub height: Option<f64>,
    /// Metres from end to end of the speed window, and its first and last point.
    pub window: (f64, usize, usize),
    /// How it hangs on the point before.
    pub link: Link,
}

/// How a point hangs on the one before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Link {
    /// Ridden.
    Ridden,
    /// Recording slept at one place: time passes, no way.
    Rest,
    /// Reception was lost, or a new segment starts: neither way nor time counts.
    Break,
}

/// A cleaned track.
pub(super) struct Path {
    /// Its points, two or more.
    pub samples: Vec<Sample>,
    /// False if the track has no times.
    pub timed: bool,
    /// Day of the first point.
    pub day: Option<NaiveDate>,
}

impl Path {
    /// Seconds from first to last point.
    pub fn elapsed(&self) -> Option<f64> {
        self.timed.then(|| self.samples.last().map_or(0.0, |last| last.time))
    }

    /// Where reception was lost; `along` are metres ridden to each point.
    pub fn gaps(&self, along: &[f64]) -> Vec<Pause> {
        let mut gaps = Vec::new();
        for (at, pair) in self.samples.windows(2).enumerate() {
            if pair[1].link == Link::Break {
                let seconds = self.timed.then_some(pair[1].time - pair[0].time);
                gaps.push(Pause { at_m: along[at + 1], seconds });
            }
        }
        gaps
    }
}

/// Cleans a track.
pub(super) fn clean(track: Track) -> Result<(Path, Cleaned), Refusal> {
    let read = track.fixes.len() + track.off_earth;
    let mut cleaned = Cleaned { read, off_earth: track.off_earth, ..Cleaned::default() };
    let (fixes, timed) = timeline::ordered(track.fixes, &mut cleaned);
    let fixes = without_strays(fixes, timed, &mut cleaned);
    if fixes.len() < 2 {
        return Err(Refusal::TooFewPoints(read));
    }
    let day = fixes[0].time.filter(|_| timed).and_then(DateTime::from_timestamp_millis);
    let mut samples = samples(&fixes, timed);
    windows(&fixes, &mut samples);
    Ok((Path { samples, timed, day: day.map(|day| day.date_naive()) }, cleaned))
}

/// Seconds from one point to a later one.
fn seconds(from: &Fix, to: &Fix) -> f64 {
    match (from.time, to.time) {
        (Some(from), Some(to)) => (to - from) as f64 / 1000.0,
        _ => 0.0,
    }
}

fn metres(from: &Fix, to: &Fix) -> f64 {
    if from.place == to.place { 0.0 } else { geodesy::distance(from.place, to.place) }
}

fn is_jump(from: &Fix, to: &Fix, step: f64, timed: bool) -> bool {
    timed && step > seconds(from, to) * rule::JUMP.value / 3.6
}

/// Drops stretches of fewer than [`rule::STRAY`] points that a jump sets apart.
fn without_strays(fixes: Vec<Fix>, timed: bool, cleaned: &mut Cleaned) -> Vec<Fix> {
    let jumps: Vec<usize> = (1..fixes.len())
        .filter(|&at| {
            let (from, to) = (&fixes[at - 1], &fixes[at]);
            from.segment == to.segment && is_jump(from, to, metres(from, to), timed)
        })
        .collect();
    if jumps.is_empty() {
        return fixes;
    }
    let mut kept = Vec::with_capacity(fixes.len());
    let mut start = 0;
    for end in jumps.into_iter().chain([fixes.len()]) {
        if ((end - start) as f64) < rule::STRAY.value {
            cleaned.jumped += end - start;
        } else {
            kept.extend_from_slice(&fixes[start..end]);
        }
        start = end;
    }
    kept
}

fn samples(fixes: &[Fix], timed: bool) -> Vec<Sample> {
    let first = fixes[0];
    let mut samples = Vec::with_capacity(fixes.len());
    let bare = |fix: &Fix, step: f64, link: Link| Sample {
        time: if timed { seconds(&first, fix) } else { 0.0 },
        step,
        height: fix.height,
        window: (0.0, 0, 0),
        link,
    };
    samples.push(bare(&first, 0.0, Link::Break));
    for pair in fixes.windows(2) {
        let (from, to) = (&pair[0], &pair[1]);
        let step = metres(from, to);
        let wait = if timed { seconds(from, to) } else { 0.0 };
        let is_split = from.segment != to.segment
            || wait > rule::GAP.value
            || is_jump(from, to, step, timed)
            || (!timed && step > rule::LEAP.value);
        let link = match is_split {
            false => Link::Ridden,
            true if timed && step < rule::SAME_PLACE.value => Link::Rest,
            true => Link::Break,
        };
        samples.push(bare(to, if is_split { 0.0 } else { step }, link));
    }
    samples
}

/// Fills in each point's speed window: the points at least [`rule::WINDOW`] before and after it, or the
/// ends of its stretch.
fn windows(fixes: &[Fix], samples: &mut [Sample]) {
    let mut start = 0;
    while start < samples.len() {
        let is_split = |sample: &Sample| sample.link != Link::Ridden;
        let rest = &samples[start + 1..];
        let end = rest.iter().position(is_split).map_or(samples.len(), |at| start + 1 + at);
        let (mut low, mut high) = (start, start);
        for at in start..end {
            let time = samples[at].time;
            while samples[low + 1..=at].first().is_some_and(|s| s.time <= time - rule::WINDOW.value)
            {
                low += 1;
            }
            high = high.max(at);
            while high + 1 < end && samples[high].time < time + rule::WINDOW.value {
                high += 1;
            }
            samples[at].window = (metres(&fixes[low], &fixes[high]), low, high);
        }
        start = end;
    }
}
