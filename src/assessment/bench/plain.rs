//! Checks whose figure is the reading itself: play, vacuum, drag, sensor output, mass, power, pulses.
//!
//! No published limit was found for any of them: the workshop's own is used, or none. A check is added
//! by one row of `PLAIN`. Of several readings the worst counts.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure};
use super::input::Input;
use super::measure::Measure;
use super::reading::{in_units, worst};
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit};
use crate::sheet::profile::Limits;
use crate::sheet::quantity::Length;
use crate::sheet::vocabulary::CheckKind;

/// A check that reads one figure directly, in its dimension's base unit.
struct Plain {
    check: CheckKind,
    unit: &'static str,
    /// True if less is worse, if no limit says so.
    low_is_worse: bool,
    /// Its own field of a workshop's limits; the others are in `checks:`.
    limit: Option<fn(&Limits) -> &Option<Length>>,
}

const fn plain(check: CheckKind, unit: &'static str, low_is_worse: bool) -> Plain {
    Plain { check, unit, low_is_worse, limit: None }
}

const fn play(check: CheckKind, limit: fn(&Limits) -> &Option<Length>) -> Plain {
    Plain { check, unit: "mm", low_is_worse: false, limit: Some(limit) }
}

const PLAIN: &[Plain] = &[
    play(CheckKind::CrankAxialPlay, |own| &own.crank_axial_play),
    play(CheckKind::CrankRadialPlay, |own| &own.crank_radial_play),
    play(CheckKind::AxlePlay, |own| &own.axle_play),
    plain(CheckKind::VacuumHold, "mbar", true),
    plain(CheckKind::CrankDrag, "N·m", false),
    plain(CheckKind::TorqueSensorOutput, "V", true),
    plain(CheckKind::UnitMass, "g", false),
    plain(CheckKind::RollerPower, "W", true),
    plain(CheckKind::SpeedPulses, "", true),
];

/// The line of such a check; none for a check of another kind.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let Some(row) = PLAIN.iter().find(|row| row.check == input.check) else {
        return Vec::new();
    };
    let limit = limit(row, own);
    let worse = if row.low_is_worse { Bounds::AtLeast } else { Bounds::AtMost };
    let bounds = limit.as_ref().map_or(worse(Decimal::ZERO), |limit| limit.bounds);
    let line = CheckResult::new(Measure::Of(row.check), row.unit).limited(limit);
    vec![line.judged(input, |readings| {
        Ok((Figure::read(worst(readings, Decimal::ONE, bounds)?), Vec::new()))
    })]
}

fn limit(row: &Plain, own: &ShopLimits) -> Option<Limit> {
    let Some(field) = row.limit else { return own.of_check(row.check, Decimal::ONE) };
    own.limit(
        |own| field(own).clone(),
        |most| in_units(&most.0, Decimal::ONE).ok().map(Bounds::AtMost),
    )
}
