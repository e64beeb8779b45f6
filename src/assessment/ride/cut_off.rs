//! Whether the ride reached the speed at which the help must stop, and whether it was held there.
//!
//! In: pace and the limit; out: [`CutOff`]. A rider who leans on the help rides at its limit: the
//! longest stretch of steady speed within the tolerance around it is a sign of where the help stops,
//! not a measurement. The speed that counts is the typed one, from a wheel sensor or meter.

use std::collections::VecDeque;

use rust_decimal::prelude::ToPrimitive;

use super::clean::{Link, Path};
use super::pace::Pace;
use super::pause::tenths;
use super::rule;
use crate::assessment::bench::ride_limits::rules::RuleSet;

/// Up to which speed the bike may help.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AssistLimit {
    /// Limit in km/h.
    pub kmh: f64,
}

impl AssistLimit {
    /// The limit of a set of rules.
    pub fn of(rules: &RuleSet) -> Self {
        Self { kmh: rules.cut_off_kmh().to_f64().unwrap_or_default() }
    }
}

/// What the track shows of the cut-off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CutOff {
    /// Never ridden as fast as the limit, nor held near it.
    NotReached {
        /// Fastest speed in km/h.
        fastest: f64,
    },
    /// Held near the limit, in steps of [`rule::HELD`] and [`rule::STEADY`]: a sign, no measurement.
    Held {
        /// Mean speed of the longest such stretch in km/h.
        kmh: f64,
        /// Its length in s.
        seconds: f64,
    },
    /// Ridden faster than the limit, but not held near it.
    Passed {
        /// Fastest speed in km/h.
        fastest: f64,
    },
    /// The track has no times, or no limit is known.
    NotDetermined,
}

/// Finds the longest steady stretch near the limit.
pub(super) fn cut_off(path: &Path, pace: &Pace, limit: Option<AssistLimit>) -> CutOff {
    let Some((speeds, limit)) = pace.speeds.zip(limit) else { return CutOff::NotDetermined };
    let reach = limit.kmh * rule::NEAR.value / 100.0;
    let near = limit.kmh - reach..=limit.kmh + reach;
    let speed = |at: usize| pace.speed[at].unwrap_or_default();
    let is_near = |at: usize| pace.speed[at].is_some_and(|speed| near.contains(&speed));
    // Points of the stretch whose speed is above, or below, all that follow them.
    let (mut tops, mut lows) = (VecDeque::<usize>::new(), VecDeque::<usize>::new());
    let mut start = 0;
    let mut longest: Option<(usize, usize)> = None;
    let lasts = |from: usize, to: usize| path.samples[to].time - path.samples[from].time;
    for at in 0..path.samples.len() {
        if path.samples[at].link != Link::Ridden || !is_near(at) {
            tops.clear();
            lows.clear();
            start = at;
            if !is_near(at) {
                start += 1;
                continue;
            }
        }
        while tops.back().is_some_and(|&last| speed(last) <= speed(at)) {
            tops.pop_back();
        }
        while lows.back().is_some_and(|&last| speed(last) >= speed(at)) {
            lows.pop_back();
        }
        tops.push_back(at);
        lows.push_back(at);
        while let (Some(&top), Some(&low)) = (tops.front(), lows.front())
            && speed(top) - speed(low) > rule::STEADY.value
        {
            start += 1;
            tops.pop_front_if(|first| *first < start);
            lows.pop_front_if(|first| *first < start);
        }
        if longest.is_none_or(|(from, to)| lasts(start, at) > lasts(from, to)) {
            longest = Some((start, at));
        }
    }
    let held = longest.filter(|&(from, to)| lasts(from, to) >= rule::HELD.value);
    if let Some((from, to)) = held {
        let seconds = lasts(from, to);
        let kmh = tenths((pace.along[to] - pace.along[from]) / seconds * 3.6);
        CutOff::Held { kmh, seconds: seconds.round() }
    } else if speeds.max >= limit.kmh {
        CutOff::Passed { fastest: speeds.max }
    } else {
        CutOff::NotReached { fastest: speeds.max }
    }
}
