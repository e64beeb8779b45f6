//! The middle and the quarters of a list of figures.
//!
//! Quantiles by linear interpolation between order statistics (R. J. Hyndman, Y. Fan, Am. Stat. 50, 1996,
//! type 7).

use serde::Serialize;

/// The quarters of figures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Quartiles {
    /// How many figures.
    pub count: usize,
    /// A quarter lies below.
    pub lower: f64,
    /// Half lies below.
    pub median: f64,
    /// A quarter lies above.
    pub upper: f64,
}

impl Quartiles {
    /// Of figures in any order; `None` of none.
    pub fn of(figures: &[f64]) -> Option<Self> {
        let mut sorted = figures.to_vec();
        sorted.sort_by(f64::total_cmp);
        let at = |share: f64| {
            let place = share * (sorted.len() - 1) as f64;
            let below = place.floor() as usize;
            let above = (below + 1).min(sorted.len() - 1);
            sorted[below] + (place - place.floor()) * (sorted[above] - sorted[below])
        };
        (!sorted.is_empty()).then(|| Self {
            count: sorted.len(),
            lower: at(0.25),
            median: at(0.5),
            upper: at(0.75),
        })
    }
}
