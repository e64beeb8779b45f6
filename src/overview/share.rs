//! A share of a count with its interval.
//!
//! In: how many of how many; out: [`Share`]. The interval is Wilson's score interval at 95 %, without a
//! correction (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927; recommended for small counts by Brown, Cai and
//! `DasGupta`, Stat. Sci. 16, 2001).

use serde::Serialize;

/// The 97.5 % point of the normal distribution.
pub(super) const Z: f64 = 1.959_963_984_540_054;

/// Fewest jobs of which a share is told. (Workshop judgement.)
pub const FEWEST_JOBS: usize = 5;

/// A share.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Share {
    /// How many.
    pub count: usize,
    /// Of how many; not zero.
    pub of: usize,
    /// The lower end of the interval, from 0.
    pub low: f64,
    /// The upper end of the interval, to 1.
    pub high: f64,
}

impl Share {
    /// The share with its interval; `None` of nothing.
    pub fn of(count: usize, of: usize) -> Option<Self> {
        if of == 0 {
            return None;
        }
        let (n, p) = (of as f64, count as f64 / of as f64);
        let spread = Z * Z / n;
        let middle = (p + spread / 2.0) / (1.0 + spread);
        let half = Z / (1.0 + spread) * (p * (1.0 - p) / n + spread / (4.0 * n)).sqrt();
        let low = if count == 0 { 0.0 } else { (middle - half).max(0.0) };
        let high = if count == of { 1.0 } else { (middle + half).min(1.0) };
        Some(Self { count, of, low, high })
    }
}
