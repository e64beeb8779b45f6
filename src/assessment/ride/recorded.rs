//! What a recorded ride shows.

use chrono::NaiveDate;

use super::cleaned::Cleaned;
use super::climb::{Climb, NoClimb};
use super::curve::CurvePoint;
use super::cut_off::CutOff;
use super::pace::Speeds;
use super::pause::Pause;
use super::proof::Proof;

/// What a recorded ride shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Ride {
    /// Day of the first point in UTC, if the track has times; a local day may be one off.
    pub day: Option<NaiveDate>,
    /// Points that were kept.
    pub points: usize,
    /// Length ridden in m, to 0.1 m: over the ellipsoid, without gaps, jumps and the drift of stops.
    pub distance_m: f64,
    /// Time from first to last point in s.
    pub elapsed_s: Option<f64>,
    /// Time in motion in s: without stops and gaps.
    pub moving_s: Option<f64>,
    /// Stops of at least [`super::rule::STOP`] outside the clipped ends.
    pub stops: Vec<Pause>,
    /// Places outside the clipped ends where reception or recording was lost.
    pub gaps: Vec<Pause>,
    /// Height climbed and descended, or why it is not known.
    pub climb: Result<Climb, NoClimb>,
    /// Speeds in motion, if the track has times.
    pub speed: Option<Speeds>,
    /// At most [`super::rule::SAMPLES`] points for drawing, both ends clipped; empty if too little is left.
    pub curve: Vec<CurvePoint>,
    /// Whether the speed at which the help stops was ridden.
    pub cut_off: CutOff,
    /// What was dropped, and by which rule.
    pub cleaned: Cleaned,
    /// Whether the ride proves the repair.
    pub proof: Proof,
}
