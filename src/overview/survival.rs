//! How many units still run after a distance, with those that have not failed yet.
//!
//! In: distances, each with a failure or without; out: the steps of the Kaplan-Meier curve (E. L. Kaplan,
//! P. Meier, J. Am. Stat. Assoc. 53, 1958) with 95 % bands: Greenwood's variance on the scale of
//! log(-log S), on which they stay between 0 and 1 (J. D. Kalbfleisch, R. L. Prentice, 1980).

use serde::Serialize;

use super::share::Z;

/// A unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    /// Kilometres ridden, above zero.
    pub at: f64,
    /// True if it failed there, false if it still ran.
    pub failed: bool,
}

/// A step of the curve, where units failed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Kilometres.
    pub km: f64,
    /// Units that had got so far.
    pub at_risk: usize,
    /// Units that failed there.
    pub failures: usize,
    /// The share that runs on.
    pub surviving: f64,
    /// The lower band.
    pub low: f64,
    /// The upper band.
    pub high: f64,
}

/// The curve, a step for each distance at which units failed. One that had not failed at that distance
/// counts as having got so far.
pub fn kaplan_meier(units: &[Observation]) -> Vec<Step> {
    let mut distances: Vec<f64> =
        units.iter().filter(|unit| unit.failed).map(|unit| unit.at).collect();
    distances.sort_by(f64::total_cmp);
    distances.dedup();
    let (mut surviving, mut greenwood) = (1.0_f64, 0.0_f64);
    let step = |km: f64| {
        let at_risk = units.iter().filter(|unit| km <= unit.at).count();
        let failures =
            units.iter().filter(|unit| unit.failed && unit.at.total_cmp(&km).is_eq()).count();
        let (n, d) = (at_risk as f64, failures as f64);
        surviving *= 1.0 - d / n;
        greenwood += d / (n * (n - d));
        let (low, high) = band(surviving, greenwood);
        Step { km, at_risk, failures, surviving, low, high }
    };
    distances.into_iter().map(step).collect()
}

/// The band around a share, by Greenwood's sum; of a curve that has come down to zero nothing is known.
fn band(surviving: f64, greenwood: f64) -> (f64, f64) {
    if surviving <= 0.0 {
        return (0.0, 0.0);
    }
    let log = surviving.ln();
    let half = Z * greenwood.sqrt() / log.abs();
    (surviving.powf(half.exp()), surviving.powf((-half).exp()))
}

/// The distance by which half of the units have failed; `None` if the curve does not come down so far.
pub fn median(steps: &[Step]) -> Option<f64> {
    steps.iter().find(|step| step.surviving <= 0.5).map(|step| step.km)
}
