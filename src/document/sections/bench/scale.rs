//! Where readings and limits are on a drawn line: straight, or by powers of ten if they are far apart.
//!
//! In: exact decimals; out: fractions of the line, as floats since they are only drawn.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::assessment::bench::verdict::Bounds;

/// Figures more than this many times apart are drawn by powers of ten.
const FAR_APART: f64 = 30.0;
/// Part of the line that is kept free at its right end.
const FREE: f64 = 0.12;

/// The scale of one line.
pub struct Scale {
    least: f64,
    most: f64,
    by_tens: bool,
}

impl Scale {
    /// A scale on which all of these figures show.
    pub fn of(figures: &[Decimal], bounds: Option<Bounds>) -> Self {
        let edges = match bounds {
            Some(Bounds::AtMost(edge) | Bounds::AtLeast(edge)) => vec![edge],
            Some(Bounds::Between(least, most)) => vec![least, most],
            None => Vec::new(),
        };
        let all: Vec<f64> = figures.iter().chain(&edges).filter_map(ToPrimitive::to_f64).collect();
        let most = all.iter().copied().fold(0.0, f64::max);
        let least = all.iter().copied().filter(|one| 0.0 < *one).fold(f64::INFINITY, f64::min);
        let is_narrow = matches!(bounds, Some(Bounds::Between(..))) && 0.5 * most < least;
        if is_narrow {
            // A window far from zero, such as a seat's, fills the middle of the line.
            let span = (most - least).max(most * 1e-6);
            return Self { least: least - 0.4 * span, most: most + 0.4 * span, by_tens: false };
        }
        let by_tens = all.iter().all(|one| 0.0 < *one) && least * FAR_APART < most;
        if by_tens {
            return Self { least: least / 3.0, most: most * 3.0, by_tens };
        }
        Self { least: 0.0, most: if most == 0.0 { 1.0 } else { most / (1.0 - FREE) }, by_tens }
    }

    /// A figure's place, from 0 to 1.
    pub fn place(&self, figure: Decimal) -> f64 {
        let value = figure.to_f64().unwrap_or(self.least);
        let share = if self.by_tens {
            (value / self.least).ln() / (self.most / self.least).ln()
        } else {
            (value - self.least) / (self.most - self.least)
        };
        share.clamp(0.0, 1.0)
    }

    /// The allowed part of the line.
    pub fn allowed(&self, bounds: Bounds) -> (f64, f64) {
        match bounds {
            Bounds::AtMost(most) => (0.0, self.place(most)),
            Bounds::AtLeast(least) => (self.place(least), 1.0),
            Bounds::Between(least, most) => (self.place(least), self.place(most)),
        }
    }
}
