//! Play of the crank along and across its axle, and of a hub's axle, by dial gauge.
//!
//! No published limit was found: the workshop's own is used, or none. Of several readings the
//! largest counts.

use rust_decimal::Decimal;

use super::input::Input;
use super::line::{Figure, Line};
use super::measure::Measure;
use super::own::{Own, OwnLimits};
use super::reading::{in_units, worst};
use super::verdict::Bounds;
use crate::sheet::quantity::Quantity;

/// Play of the crank along its axle.
pub fn crank_axial(input: &Input, own: &Own) -> Vec<Line> {
    play(input, own, |own| &own.crank_axial_play)
}

/// Play of the crank across its axle.
pub fn crank_radial(input: &Input, own: &Own) -> Vec<Line> {
    play(input, own, |own| &own.crank_radial_play)
}

/// Play of the wheel's axle in a hub.
pub fn axle(input: &Input, own: &Own) -> Vec<Line> {
    play(input, own, |own| &own.axle_play)
}

fn play(input: &Input, own: &Own, pick: impl Fn(&OwnLimits) -> &Option<Quantity>) -> Vec<Line> {
    let limit = own.limit(pick, |most| in_units(&most, Decimal::ONE).ok().map(Bounds::AtMost));
    let bounds = limit.as_ref().map_or(Bounds::AtMost(Decimal::ZERO), |limit| limit.bounds);
    let line = Line::new(input.check, Measure::Play, "mm").limited(limit);
    vec![line.judged(input, |readings| {
        Ok((Figure::read(worst(readings, Decimal::ONE, bounds)?), Vec::new()))
    })]
}
