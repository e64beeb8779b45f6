//! Unbalance of three readings: the largest deviation from their mean, in per cent of it.
//!
//! The formula is that of ANSI/EASA AR100-2020 for resistances (as given in a motor-test trade
//! article of 2021) and of NEMA MG 1 for voltages (from memory). Limits are not here.

use rust_decimal::Decimal;

use super::check_result::Figure;
use super::reading::{Measured, decimal, exact, float};
use super::remark::Remark;
use super::verdict::Reason;
use crate::sheet::bench::Reading;

/// Three readings seen together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unbalance {
    /// Their mean.
    pub mean: Decimal,
    /// Expanded uncertainty of the mean, if every reading carries one.
    pub mean_uncertainty: Option<Decimal>,
    /// The largest deviation from the mean, in per cent of it.
    pub percent: Decimal,
    /// Its expanded uncertainty, if every reading carries one.
    pub uncertainty: Option<Decimal>,
    /// Which reading deviates most, from 0.
    pub reading: usize,
    /// True if that one is low.
    pub low: bool,
}

/// The unbalance of three readings, in units of `per` base units each.
///
/// Uncertainties are taken as independent (GUM, JCGM 100), which is on the careful side: an error
/// that all three share does not show in an unbalance.
///
/// # Errors
/// [`Reason::ReadingCount`] unless there are three, [`Reason::NotPositive`] for zero and below.
pub fn unbalance(readings: &[Reading], per: Decimal) -> Result<Unbalance, Reason> {
    let all: Result<Vec<Measured>, Reason> = readings.iter().map(|one| exact(one, per)).collect();
    let all: [Measured; 3] = all?
        .try_into()
        .map_err(|all: Vec<Measured>| Reason::ReadingCount { needed: 3, found: all.len() })?;
    if all.iter().any(|one| one.value <= Decimal::ZERO) {
        return Err(Reason::NotPositive);
    }
    let three = Decimal::from(3);
    let mean = all.iter().map(|one| one.value).sum::<Decimal>() / three;
    let mut reading = 0;
    for (at, one) in all.iter().enumerate() {
        if (one.value - mean).abs() > (all[reading].value - mean).abs() {
            reading = at;
        }
    }
    let deviation = all[reading].value - mean;
    let percent = (Decimal::ONE_HUNDRED * deviation.abs()).checked_div(mean);
    let percent = percent.ok_or(Reason::OutOfRange)?;
    let (mut mean_uncertainty, mut uncertainty) = (None, None);
    if let [Some(a), Some(b), Some(c)] = all.map(|one| one.uncertainty) {
        let own = [float(a), float(b), float(c)];
        let (middle, extreme) = (float(mean), float(all[reading].value));
        let by_mean = extreme / (3.0 * middle * middle);
        let square = |at: usize| {
            let slope = if at == reading { 1.0 / middle - by_mean } else { -by_mean };
            (slope * own[at]).powi(2)
        };
        uncertainty = Some(decimal(100.0 * (square(0) + square(1) + square(2)).sqrt())?);
        mean_uncertainty =
            Some(decimal(own.iter().map(|one| one * one).sum::<f64>().sqrt() / 3.0)?);
    }
    let low = deviation.is_sign_negative();
    Ok(Unbalance { mean, mean_uncertainty, percent, uncertainty, reading, low })
}

impl Unbalance {
    /// The unbalance as a figure in per cent, with the reading that deviates most.
    pub fn figure(&self) -> (Figure, Vec<Remark>) {
        let remarks = if self.percent.is_zero() {
            Vec::new()
        } else {
            vec![Remark::DeviatesMost { reading: self.reading, low: self.low }]
        };
        (Figure::computed(self.percent, self.uncertainty, 1), remarks)
    }
}
