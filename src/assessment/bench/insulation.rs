//! Insulation resistance from winding to case, carried to 40 degC by a named rule.
//!
//! Rule and limit come from IEEE 43-2013, which speaks of machines of 750 W and more: for small
//! low-voltage motors both are borrowed practice, and their lines say so. The polarization index is
//! left out, since currents of such windings settle within seconds.

use rust_decimal::Decimal;

use super::input::Input;
use super::line::{Figure, Line};
use super::measure::{Measure, Method};
use super::own::Own;
use super::reading::{celsius, decimal, float, in_units, worst};
use super::remark::Remark;
use super::verdict::{Bounds, Limit, Reason};

/// How a reading is carried to 40 degC; at 20 degC the two differ threefold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Correction {
    /// Half for every 10 K: R40 = R x 0.5^((40 - T) / 10).
    #[default]
    Halving,
    /// Thermosetting insulation, 10 to 40 degC: K = exp(-1245 (1 / (T + 273) - 1 / 313)).
    Thermosetting,
}

impl Correction {
    /// The factor from a temperature in degC to 40 degC. Both rules from memory; computed as
    /// floats.
    ///
    /// # Errors
    /// [`Reason::TemperatureOutsideRule`] where the rule does not hold.
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
        Method { rule, source: "IEEE 43", edition: "2013", borrowed: true }
    }
}

/// Insulation resistance at 40 degC; of several readings the lowest counts.
pub fn run(input: &Input, own: &Own) -> Vec<Line> {
    let mega = Decimal::from(1_000_000);
    let correction = own.get(|own| &own.insulation_correction).unwrap_or_default().0;
    let limit = own.limit(
        |own| &own.insulation_resistance,
        |least| in_units(&least, mega).ok().map(Bounds::AtLeast),
    );
    let limit = limit.unwrap_or_else(|| {
        let bounds = Bounds::AtLeast(Decimal::from(5));
        Limit::published(bounds, "IEEE 43, windings below 1 kV, at 40 degC", "2013").borrowed()
    });
    let bounds = limit.bounds;
    let mut line = Line::new(input.check, Measure::InsulationAt40, "MΩ")
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
        Ok((Figure::computed(value, uncertainty, places), Vec::new()))
    })]
}
