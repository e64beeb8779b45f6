//! A stop or a gap of a ride.

/// A stop or a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pause {
    /// Where, in m ridden from the start.
    pub at_m: f64,
    /// How long in s, if the track has times.
    pub seconds: Option<f64>,
}

/// Rounds to a tenth, well below what a receiver resolves.
pub(super) fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
