//! The test ride: a recorded track and what the sheet says of the ride, as facts without a place.
//!
//! In: the bytes of a GPX 1.1 file, or the values typed in the sheet; out: [`Ride`] or [`Refusal`].
//! No latitude, longitude, time of day or height above the sea leaves this module: positions live in
//! types that only it can name, and what comes out are lengths, times and height differences. Drawing
//! and words are not here, nor is the verdict on readings of a bench.

mod clean;
mod climb;
mod curve;
mod cut_off;
mod geodesy;
mod gpx;
pub mod judged;
mod pace;
mod proof;
mod refusal;
pub mod rule;
mod timeline;
mod typed;

use std::ops::RangeInclusive;

use chrono::NaiveDate;

pub use clean::Cleaned;
pub use climb::{Climb, NoClimb, hysteresis};
pub use curve::CurvePoint;
pub use cut_off::{AssistLimit, CutOff};
pub use geodesy::distance;
pub use pace::Speeds;
pub use proof::{Proof, Unproven};
pub use refusal::Refusal;
pub use typed::{Remark, TypedRide, compare};

/// What a recorded ride shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Ride {
    /// Day of the first point in UTC, where the track has times; a local day may be one off.
    pub day: Option<NaiveDate>,
    /// Points that were kept.
    pub points: usize,
    /// Length ridden in m, to 0.1 m: over the ellipsoid, without gaps, jumps and the drift of stops.
    pub distance_m: f64,
    /// Time from first to last point in s.
    pub elapsed_s: Option<f64>,
    /// Time in motion in s: without stops and gaps.
    pub moving_s: Option<f64>,
    /// Stops of at least [`rule::STOP`] outside the clipped ends.
    pub stops: Vec<Pause>,
    /// Places outside the clipped ends where reception or recording was lost.
    pub gaps: Vec<Pause>,
    /// Height climbed and descended, or why it cannot be told.
    pub climb: Result<Climb, NoClimb>,
    /// Speeds in motion, where the track has times.
    pub speed: Option<Speeds>,
    /// At most [`rule::SAMPLES`] points for drawing, both ends clipped; empty where too little is left.
    pub curve: Vec<CurvePoint>,
    /// Whether the speed at which the help stops was ridden.
    pub cut_off: CutOff,
    /// What was dropped, and by which rule.
    pub cleaned: Cleaned,
    /// Whether the ride proves the repair.
    pub proof: Proof,
}

/// A stop or a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pause {
    /// Where, in m ridden from the start.
    pub at_m: f64,
    /// How long in s, where the track has times.
    pub seconds: Option<f64>,
}

/// The facts of a ride from the bytes of its GPX file.
///
/// # Errors
/// [`Refusal`] where the file is no GPX track, is hostile or damaged, or holds fewer than two usable
/// points. Anything less is cleaned and counted in [`Ride::cleaned`].
pub fn read(bytes: &[u8], limit: Option<AssistLimit>) -> Result<Ride, Refusal> {
    let track = gpx::track(bytes)?;
    let (path, cleaned) = clean::clean(track)?;
    let pace = pace::pace(&path);
    let heights = climb::levels(&path, &pace.along);
    let distance = pace.along.last().copied().unwrap_or_default();
    let shown = curve::shown(distance);
    let shown = shown.as_ref();
    let gaps = path.gaps(&pace.along);
    let cleaned = Cleaned { height_jumps: heights.jumps, ..cleaned };
    Ok(Ride {
        day: path.day,
        points: path.samples.len(),
        distance_m: tenths(distance),
        elapsed_s: path.elapsed().map(tenths),
        moving_s: pace.moving.map(tenths),
        stops: inside(&pace.stops, shown),
        gaps: inside(&gaps, shown),
        curve: curve::curve(&pace, &heights.levels, shown),
        cut_off: cut_off::cut_off(&path, &pace, limit),
        proof: proof::proof(&path, &pace, &cleaned),
        speed: pace.speeds,
        climb: heights.climb,
        cleaned,
    })
}

/// The pauses that lie in the part that may be seen.
fn inside(pauses: &[Pause], shown: Option<&RangeInclusive<f64>>) -> Vec<Pause> {
    let Some(shown) = shown else { return Vec::new() };
    let is_shown = |pause: &&Pause| shown.contains(&pause.at_m);
    let rounded =
        |pause: &Pause| Pause { at_m: pause.at_m.round(), seconds: pause.seconds.map(f64::round) };
    pauses.iter().filter(is_shown).map(rounded).collect()
}

/// Rounds to a tenth, well below what a receiver can tell.
fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
