//! Insulation resistance from winding to case, carried to 40 degC by a named rule.
//!
//! The limit comes from IEEE 43-2013, which is about machines of 750 W and more: for small
//! low-voltage motors it is borrowed, and its lines say so. The polarization index is
//! left out, since currents of such windings settle within seconds.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure};
use super::input::Input;
use super::measure::{Measure, Method};
use super::reading::{celsius, decimal, float, in_units, worst};
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason};
use crate::assessment::sources::SourceId;
use crate::sheet::vocabulary::InsulationRule;

impl InsulationRule {
    /// The factor from a temperature in degC to 40 degC, computed as floats; at 20 degC the two rules
    /// differ threefold. Halving: R40 = R x 0.5^((40 - T) / 10). Thermosetting insulation, 10 to
    /// 40 degC: K = exp(-1245 (1 / (T + 273) - 1 / 313)). Both from memory.
    ///
    /// # Errors
    /// [`Reason::TemperatureOutsideRule`] if the rule does not hold.
    pub fn factor(self, at: Decimal) -> Result<Decimal, Reason> {
        let degrees = float(at);
        match self {
            Self::Halving => decimal(0.5_f64.powf((40.0 - degrees) / 10.0)),
            Self::Thermosetting if (10.0..=40.0).contains(&degrees) => {
                decimal((-1245.0 * (1.0 / (degrees + 273.0) - 1.0 / 313.0)).exp())
            }
            Self::Thermosetting => Err(Reason::TemperatureOutsideRule),
        }
    }

    fn method(self) -> Method {
        let rule = match self {
            Self::Halving => "insulation-halving-per-10-k",
            Self::Thermosetting => "insulation-thermosetting",
        };
        Method { rule, source: None }
    }
}

/// Insulation resistance at 40 degC; of several readings the lowest counts.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let mega = Decimal::from(1_000_000);
    let correction = own.get(|own| own.insulation_correction);
    let correction = correction.map_or_else(InsulationRule::default, |(rule, _)| rule);
    let limit = own.limit(
        |own| own.insulation_resistance.clone(),
        |least| in_units(&least.0, mega).ok().map(Bounds::AtLeast),
    );
    let limit = limit.unwrap_or_else(|| {
        let bounds = Bounds::AtLeast(Decimal::from(5));
        Limit::published(bounds, SourceId::Insulation).borrowed()
    });
    let bounds = limit.bounds;
    let mut line = CheckResult::new(Measure::Of(input.check), "MΩ")
        .limited(Some(limit))
        .by(correction.method());
    match input.test_voltage.as_ref().map(|voltage| in_units(voltage, Decimal::ONE)) {
        None => line = line.remark(Remark::TestVoltageNotStated),
        Some(Ok(volts)) if volts <= Decimal::from(250) => {}
        Some(_) => line = line.remark(Remark::HighTestVoltage),
    }
    vec![line.judged(input, |readings| {
        let lowest = worst(readings, mega, bounds)?;
        let at = celsius(input.at.as_ref().ok_or(Reason::MissingTemperature)?)?;
        let factor = correction.factor(at)?;
        let uncertainty = lowest.uncertainty.map(|own| own * factor);
        let value = lowest.value.checked_mul(factor).ok_or(Reason::OutOfRange)?;
        let places = if value < Decimal::TEN { 2 } else { 0 };
        let figure = Figure::computed(value, uncertainty, places);
        Ok((Figure { side: lowest.side, ..figure }, Vec::new()))
    })]
}
