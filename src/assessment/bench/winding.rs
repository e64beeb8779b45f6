//! Winding resistance: unbalance of three phase-to-phase readings, and their mean at 20 degC.
//!
//! The unbalance needs no temperature, since all three readings share it; the mean does. Windings
//! of some tens of milliohms need a four-wire meter; which meter was used is not known here.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure};
use super::input::Input;
use super::measure::{Measure, Method};
use super::reading::{celsius, in_units};
use super::shop_limits::ShopLimits;
use super::unbalance::unbalance;
use super::verdict::{Bounds, Limit, Reason};
use crate::assessment::sources::SourceId;
use crate::sheet::quantity::Quantity;

/// The constant of copper in rotating machines, degC (IEC 60034-1, as a meter maker quotes it).
pub const COPPER_IN_MACHINES: Decimal = Decimal::from_parts(235, 0, 0, false, 0);

const AT_20: Method = Method { rule: "copper-to-20-degc", source: Some(SourceId::Machines) };

const FROM_MEAN: Method =
    Method { rule: "deviation-from-mean", source: Some(SourceId::MotorRepair) };

/// By how much a copper winding's resistance grows between two temperatures in degC.
///
/// # Errors
/// [`Reason::OutOfRange`] if the temperature is at or below the constant's zero.
pub fn copper_factor(constant: Decimal, from: Decimal, to: Decimal) -> Result<Decimal, Reason> {
    let below = constant + from;
    if below <= Decimal::ZERO {
        return Err(Reason::OutOfRange);
    }
    (constant + to).checked_div(below).ok_or(Reason::OutOfRange)
}

/// Unbalance and mean of three phase-to-phase readings.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    vec![of_three(input, own), at_20(input, own)]
}

fn of_three(input: &Input, own: &ShopLimits) -> CheckResult {
    let limit = own.limit(
        |own| own.winding_unbalance.as_ref().map(|most| most.0.number),
        |most| Some(Bounds::AtMost(most)),
    );
    let limit = limit
        .unwrap_or_else(|| Limit::published(Bounds::AtMost(Decimal::TWO), SourceId::MotorRepair));
    CheckResult::new(Measure::WindingUnbalance, "%")
        .limited(Some(limit))
        .by(FROM_MEAN)
        .judged(input, |readings| Ok(unbalance(readings, Decimal::ONE)?.figure()))
}

fn at_20(input: &Input, own: &ShopLimits) -> CheckResult {
    let first = input.before.first().or(input.after.first()).map(|reading| reading.value.unit);
    let (unit, per) = first.map_or(("Ω", Decimal::ONE), |unit| (unit.symbol, unit.factor()));
    let limit = own.limit(|own| own.winding_resistance.clone(), |good| nominal(&good.0, per, own));
    CheckResult::new(Measure::Of(input.check), unit).limited(limit).by(AT_20).judged(
        input,
        |readings| {
            let three = unbalance(readings, per)?;
            let at = celsius(input.at.as_ref().ok_or(Reason::MissingTemperature)?)?;
            let factor = copper_factor(COPPER_IN_MACHINES, at, Decimal::from(20))?;
            let uncertainty = three.mean_uncertainty.map(|own| own * factor);
            Ok((Figure::computed(three.mean * factor, uncertainty, 1), Vec::new()))
        },
    )
}

/// The bounds around a model's resistance, if its tolerance is set too.
fn nominal(good: &Quantity, per: Decimal, own: &ShopLimits) -> Option<Bounds> {
    let good = in_units(good, per).ok()?;
    let tolerance = own.get(|own| own.winding_tolerance.as_ref().map(|share| share.0.number));
    let (tolerance, _) = tolerance?;
    Bounds::around(good, tolerance)
}
