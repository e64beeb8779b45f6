//! How many times as often a sign is seen with a cause as without it.
//!
//! In: four counts; out: [`Likelihood`]. It is the likelihood ratio of a test (Simel, Samsa and Matchar,
//! J. Clin. Epidemiol. 44, 1991), its interval by the normal distribution of its logarithm (Katz and others,
//! Biometrics 34, 1978), at 99 % because many signs are compared at once.

use serde::Serialize;

/// The 99.5 % point of the normal distribution.
const Z: f64 = 2.575_829_303_548_901;

/// A sign with a cause and without it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Counts {
    /// Jobs of the cause in which the sign was seen.
    pub seen_with: usize,
    /// Jobs of the cause.
    pub with: usize,
    /// Other jobs in which it was seen.
    pub seen_without: usize,
    /// Other jobs.
    pub without: usize,
}

/// The ratio with its interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Likelihood {
    /// Share seen with the cause over share seen without it.
    pub ratio: f64,
    /// The lower end of the interval.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl Likelihood {
    /// Of counts; `None` if there is no job of one of the kinds.
    ///
    /// Where a cell is empty, half a job is added to all four (Haldane and Anscombe).
    pub fn of(counts: Counts) -> Option<Self> {
        let Counts { seen_with, with, seen_without, without } = counts;
        if with == 0 || without == 0 {
            return None;
        }
        let cells = [seen_with, with - seen_with, seen_without, without - seen_without];
        let more = if cells.contains(&0) { 0.5 } else { 0.0 };
        let [a, b, c, d] = cells.map(|cell| cell as f64 + more);
        let log = (a / (a + b)).ln() - (c / (c + d)).ln();
        let spread = (1.0 / a - 1.0 / (a + b) + 1.0 / c - 1.0 / (c + d)).sqrt();
        let [ratio, low, high] = [log, log - Z * spread, log + Z * spread].map(f64::exp);
        Some(Self { ratio, low, high })
    }
}
