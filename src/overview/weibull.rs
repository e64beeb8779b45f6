//! A Weibull distribution through distances to failure, with those that still run.
//!
//! In: observations; out: shape and scale of greatest likelihood (A. C. Cohen, Technometrics 7, 1965: with
//! failures and units that still run the scale follows from the shape, and the shape is the root of one
//! falling function), and how far the curve is from the steps.

use serde::Serialize;

use super::survival::{Observation, Step};

/// Fewest failures that a distribution is drawn through. (Workshop judgement.)
pub const FEWEST: usize = 10;

/// A distribution.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weibull {
    /// Below 1 they fail early, at 1 by chance, above 1 by wear.
    pub shape: f64,
    /// Kilometres by which 63.2 % have failed.
    pub scale: f64,
    /// Largest distance between this curve and the steps, as a share of all units: a look at how well it
    /// fits, no test.
    pub farthest: f64,
}

impl Weibull {
    /// The distribution of greatest likelihood; `None` with fewer failures than [`FEWEST`], or where all of
    /// them lie at one distance.
    pub fn fit(units: &[Observation], steps: &[Step]) -> Option<Self> {
        let failures: Vec<f64> =
            units.iter().filter(|unit| unit.failed).map(|unit| unit.at).collect();
        if failures.len() < FEWEST || steps.len() < 2 {
            return None;
        }
        let shape = shape(units, &failures)?;
        // Powers of distances as shares of the largest one, so that none is too large.
        let largest = units.iter().map(|unit| unit.at).fold(0.0, f64::max);
        let sum: f64 = units.iter().map(|unit| (unit.at / largest).powf(shape)).sum();
        let scale = largest * (sum / failures.len() as f64).powf(1.0 / shape);
        let fitted = Self { shape, scale, farthest: 0.0 };
        Some(Self { farthest: fitted.farthest_from(steps), ..fitted })
    }

    /// The share that runs on after a distance.
    pub fn surviving(&self, km: f64) -> f64 {
        (-(km / self.scale).powf(self.shape)).exp()
    }

    /// A step has two ends: before it and after it.
    fn farthest_from(&self, steps: &[Step]) -> f64 {
        let before = [1.0].into_iter().chain(steps.iter().map(|step| step.surviving));
        let ends = steps.iter().zip(before).flat_map(|(step, before)| {
            let fitted = self.surviving(step.km);
            [(fitted - before).abs(), (fitted - step.surviving).abs()]
        });
        ends.fold(0.0, f64::max)
    }
}

/// Bounds between which shapes are looked for, and how often the rest is halved.
const SHAPES: (f64, f64) = (0.01, 100.0);
const HALVINGS: usize = 200;

/// The root of the derivative of the likelihood by the shape.
fn shape(units: &[Observation], failures: &[f64]) -> Option<f64> {
    let largest = units.iter().map(|unit| unit.at).fold(0.0, f64::max);
    let mean_log =
        failures.iter().map(|at| (at / largest).ln()).sum::<f64>() / failures.len() as f64;
    let falling = |shape: f64| {
        let (mut sum, mut logs) = (0.0, 0.0);
        for unit in units {
            let share = unit.at / largest;
            let power = share.powf(shape);
            sum += power;
            logs += power * share.ln();
        }
        1.0 / shape + mean_log - logs / sum
    };
    let (mut low, mut high) = SHAPES;
    if falling(low) <= 0.0 || 0.0 <= falling(high) {
        return None;
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        match 0.0 < falling(middle) {
            true => low = middle,
            false => high = middle,
        }
    }
    Some(f64::midpoint(low, high))
}
