//! Readings of the sheet as plain numbers of one unit, refused if no bench gives such a value.
//!
//! In: quantities with units; out: [`Measured`] or the [`Reason`] against it. Floats are used only
//! where a root or a logarithm is taken, and their results are rounded to nine decimal places.

use rust_decimal::Decimal;

use super::verdict::{Bounds, MOST, Reason, Side, Verdict, judge, judge_one_side};
use crate::sheet::bench::{Beyond, Reading};
use crate::sheet::quantity::Quantity;

/// A value in the unit of its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Measured {
    /// The value.
    pub value: Decimal,
    /// Its expanded uncertainty (k = 2), if one is typed.
    pub uncertainty: Option<Decimal>,
    /// The side of it on which the true value is, if the meter was over its range.
    pub side: Option<Side>,
}

impl Measured {
    /// Its verdict against bounds.
    pub fn judged(&self, bounds: Bounds) -> Verdict {
        match self.side {
            None => judge(self.value, self.uncertainty, bounds),
            Some(side) => judge_one_side(self.value, self.uncertainty, side, bounds),
        }
    }

    /// The same, if it is a number to compute with.
    ///
    /// # Errors
    /// [`Reason::OverRange`] if the meter was over its range.
    pub fn exact(self) -> Result<Self, Reason> {
        if self.side.is_some() { Err(Reason::OverRange) } else { Ok(self) }
    }
}

fn sane(value: Option<Decimal>) -> Result<Decimal, Reason> {
    value.filter(|value| value.abs() <= Decimal::from(MOST)).ok_or(Reason::OutOfRange)
}

/// A quantity in units of `per` base units each, such as 1 000 000 for megohms.
///
/// # Errors
/// [`Reason::OutOfRange`] if it is larger than anything that a bench instrument reads.
pub fn in_units(quantity: &Quantity, per: Decimal) -> Result<Decimal, Reason> {
    let base = quantity.number.checked_mul(quantity.unit.factor());
    let base = base.and_then(|base| base.checked_add(quantity.unit.offset()));
    let value = sane(sane(base)?.checked_div(per))?;
    Ok(as_fine_as_read(value, quantity))
}

/// `3.02 kg` are 3020 g, not 3020.00: places that only the factor brought are taken off.
fn as_fine_as_read(value: Decimal, quantity: &Quantity) -> Decimal {
    let plain = value.normalize();
    let is_coarser = quantity.unit.factor() > Decimal::ONE && plain.scale() < value.scale();
    if is_coarser { plain } else { value }
}

/// A reading in units of `per` base units each.
///
/// # Errors
/// [`Reason::OutOfRange`] if it is larger than anything that a bench instrument reads.
pub fn measured(reading: &Reading, per: Decimal) -> Result<Measured, Reason> {
    let value = in_units(&reading.value, per)?;
    let uncertainty = match &reading.uncertainty {
        Some(own) => {
            let base = sane(own.number.checked_mul(own.unit.factor()))?;
            Some(sane(base.checked_div(per))?.abs())
        }
        None => None,
    };
    let side = reading.beyond.map(|beyond| match beyond {
        Beyond::Above => Side::AtLeast,
        Beyond::Below => Side::AtMost,
    });
    Ok(Measured { value, uncertainty, side })
}

/// A reading that has to be a number.
///
/// # Errors
/// As [`measured`] and [`Measured::exact`].
pub fn exact(reading: &Reading, per: Decimal) -> Result<Measured, Reason> {
    measured(reading, per)?.exact()
}

/// The one reading there has to be.
///
/// # Errors
/// [`Reason::ReadingCount`] if there are more, or as [`measured`].
pub fn only(readings: &[Reading], per: Decimal) -> Result<Measured, Reason> {
    match readings {
        [one] => measured(one, per),
        _ => Err(Reason::ReadingCount { needed: 1, found: readings.len() }),
    }
}

/// The reading that is worst with regard to its bounds, uncertainty counted in.
///
/// # Errors
/// As [`measured`], [`Reason::NotPositive`] if one is below zero, and [`Reason::ReadingCount`]
/// if there is none.
pub fn worst(readings: &[Reading], per: Decimal, bounds: Bounds) -> Result<Measured, Reason> {
    let all: Result<Vec<Measured>, Reason> =
        readings.iter().map(|one| measured(one, per)).collect();
    let margin = |one: &Measured| bounds.margin(one.value) - one.uncertainty.unwrap_or_default();
    let all = all?;
    if all.iter().any(|one| one.value < Decimal::ZERO) {
        return Err(Reason::NotPositive);
    }
    let rank = |one: &Measured| match one.judged(bounds) {
        Verdict::Outside => 0,
        Verdict::Undecided | Verdict::NotDetermined(_) => 1,
        Verdict::Within => 2,
    };
    all.into_iter()
        .min_by(|one, other| (rank(one), margin(one)).cmp(&(rank(other), margin(other))))
        .ok_or(Reason::ReadingCount { needed: 1, found: 0 })
}

/// A temperature in degrees Celsius, from -50 to 250.
///
/// # Errors
/// [`Reason::OutOfRange`] beyond.
pub fn celsius(quantity: &Quantity) -> Result<Decimal, Reason> {
    let degrees = in_units(quantity, Decimal::ONE)?;
    let is_sane = Decimal::from(-50) <= degrees && degrees <= Decimal::from(250);
    if is_sane { Ok(degrees) } else { Err(Reason::OutOfRange) }
}

/// A decimal as a float, for roots and logarithms.
pub fn float(value: Decimal) -> f64 {
    f64::try_from(value).unwrap_or(f64::NAN)
}

/// A float as a decimal, rounded to nine places.
///
/// # Errors
/// [`Reason::OutOfRange`] if it is not a number or larger than anything that a bench instrument reads.
pub fn decimal(value: f64) -> Result<Decimal, Reason> {
    sane(Decimal::try_from(value).ok()).map(|value| value.round_dp(9))
}
