//! The curve of units that still run, as places on a drawing from 0 to 1.
//!
//! In: [`Distance`]; out: [`Curve`]: steps, band, fitted line, marks of both axes.

use serde::Serialize;

use super::learned::Distance;
use crate::sheet::profile::Units;

/// Kilometres of a mile (international yard and pound agreement, 1959).
pub const KM_PER_MILE: f64 = 1.609_344;
/// Points of the fitted line.
const POINTS: usize = 60;

/// A drawing; places are shares of its width and height.
#[derive(Debug, Serialize)]
pub struct Curve {
    steps: Vec<(f64, f64)>,
    band: Vec<(f64, f64)>,
    fitted: Vec<(f64, f64)>,
    /// Marks of the way: place and words.
    way: Vec<(f64, String)>,
    alt: String,
}

/// Draws a curve that has steps.
pub fn drawn(distance: &Distance, units: Units) -> Curve {
    let (per, name) = match units {
        Units::Imperial => (KM_PER_MILE, "mi"),
        Units::Metric => (1.0, "km"),
    };
    let last = distance.steps.last().map_or(1.0, |step| step.km);
    let mark = round_mark(last / per);
    let end = (last / per / mark).ceil() * mark * per;
    let n_marks = (end / per / mark).round() as usize;
    let place = |km: f64| km / end;
    let (mut steps, mut upper, mut lower) = (vec![(0.0, 1.0)], Vec::new(), Vec::new());
    let ends = distance.steps.iter().skip(1).map(|step| step.km).chain([end]);
    let mut before = 1.0;
    for (step, until) in distance.steps.iter().zip(ends) {
        steps.extend([(place(step.km), before), (place(step.km), step.surviving)]);
        before = step.surviving;
        for at in [step.km, until] {
            upper.push((place(at), step.high));
            lower.push((place(at), step.low));
        }
    }
    steps.push((1.0, before));
    lower.reverse();
    let fitted = distance.weibull.map_or_else(Vec::new, |fitted| {
        let at = |part: usize| part as f64 / POINTS as f64;
        (0..=POINTS).map(|part| (at(part), fitted.surviving(at(part) * end))).collect()
    });
    let words = |at: usize| format!("{:.0} {name}", mark * at as f64);
    Curve {
        steps,
        band: [upper, lower].concat(),
        fitted,
        way: (0..=n_marks).map(|at| (place(mark * at as f64 * per), words(at))).collect(),
        alt: format!(
            "Share of {} units that still ran, over the distance, down to {:.0} % at {:.0} {name}.",
            distance.units,
            100.0 * before,
            last / per
        ),
    }
}

/// A round distance of which about five go into a way: 1, 2 or 5 with zeros.
fn round_mark(way: f64) -> f64 {
    let rough = way / 5.0;
    let ten = 10_f64.powf(rough.log10().floor());
    let share = rough / ten;
    ten * if share < 2.0 {
        1.0
    } else if share < 5.0 {
        2.0
    } else {
        5.0
    }
}
