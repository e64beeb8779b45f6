//! Temperature rise of the winding after a run, by its resistance and by a thermometer.
//!
//! By resistance after IEC 60034-1: rise = R2 / R1 (235 + t1) - (235 + ta). The rises of the
//! thermal classes are common practice for motors of less than 600 W (its own row of that standard,
//! from memory); a workshop's own limit goes first.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure, Stage};
use super::input::Input;
use super::measure::{Measure, Method};
use super::reading::{Measured, celsius, decimal, exact, float};
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason};
use super::winding::COPPER_IN_MACHINES;
use crate::assessment::sources::SourceId;
use crate::sheet::number::Count;
use crate::sheet::vocabulary::WindingClass;

impl WindingClass {
    /// Most rise by resistance of a winding of less than 600 W with surroundings of up to 40 degC, K;
    /// common practice: the row of the standard could not be read.
    pub fn most_rise(self) -> Decimal {
        Decimal::from(match self {
            Self::B => 85,
            Self::F => 110,
            Self::H => 130,
        })
    }
}

const BY_RESISTANCE: Method =
    Method { rule: "rise-by-resistance", source: Some(SourceId::Machines) };

/// Temperature of a copper winding from its resistance, cold and hot; `cold_at` and result in degC.
///
/// # Errors
/// [`Reason::NotPositive`] and [`Reason::OutOfRange`] for resistances that cannot be.
pub fn hot_temperature(cold: Decimal, cold_at: Decimal, hot: Decimal) -> Result<Decimal, Reason> {
    if cold <= Decimal::ZERO || hot <= Decimal::ZERO {
        return Err(Reason::NotPositive);
    }
    let ratio = hot.checked_div(cold).ok_or(Reason::OutOfRange)?;
    let above = ratio.checked_mul(COPPER_IN_MACHINES + cold_at).ok_or(Reason::OutOfRange)?;
    Ok(above - COPPER_IN_MACHINES)
}

/// Rise by resistance if both resistances are there, by thermometer if readings are there.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let mut lines = Vec::new();
    if input.cold.is_some() || input.hot.is_some() {
        lines.push(by_resistance(input, own));
    }
    if lines.is_empty() || !(input.before.is_empty() && input.after.is_empty()) {
        lines.push(by_thermometer(input, own));
    }
    lines
}

fn own_limit(own: &ShopLimits) -> Option<Limit> {
    let most = |most: Count| Some(Bounds::AtMost(Decimal::from(most.0)));
    own.limit(|own| own.temperature_rise, most)
}

fn by_resistance(input: &Input, own: &ShopLimits) -> CheckResult {
    let of_class = || {
        let (class, _) = own.get(|own| own.thermal_class)?;
        Some(Limit::common(Bounds::AtMost(class.most_rise())))
    };
    let limit = own_limit(own);
    let limit = limit.or_else(of_class);
    let mut line = CheckResult::new(Measure::Of(input.check), "K").limited(limit).by(BY_RESISTANCE);
    let found = rise(input).map(|figure| (figure, Vec::new()));
    line.after = Some(Stage::of(found, line.limit.as_ref()));
    line
}

fn rise(input: &Input) -> Result<Figure, Reason> {
    let (Some(cold), Some(hot)) = (&input.cold, &input.hot) else {
        return Err(Reason::MissingColdOrHot);
    };
    let (cold, hot) = (exact(cold, Decimal::ONE)?, exact(hot, Decimal::ONE)?);
    let cold_at = celsius(input.at.as_ref().ok_or(Reason::MissingTemperature)?)?;
    let ambient = celsius(input.ambient.as_ref().ok_or(Reason::MissingAmbient)?)?;
    let winding = hot_temperature(cold.value, cold_at, hot.value)?;
    if winding > Decimal::from(400) || winding < Decimal::from(-50) {
        return Err(Reason::OutOfRange);
    }
    let uncertainty = uncertainty(cold, hot, winding + COPPER_IN_MACHINES)?;
    Ok(Figure::computed(winding - ambient, uncertainty, 1))
}

/// Relative uncertainties of both resistances, as independent; those of the thermometers not.
fn uncertainty(cold: Measured, hot: Measured, above: Decimal) -> Result<Option<Decimal>, Reason> {
    if cold.uncertainty.is_none() && hot.uncertainty.is_none() {
        return Ok(None);
    }
    let share = |one: Measured| float(one.uncertainty.unwrap_or_default()) / float(one.value);
    decimal(float(above) * share(cold).hypot(share(hot))).map(Some)
}

fn by_thermometer(input: &Input, own: &ShopLimits) -> CheckResult {
    let limit = own_limit(own);
    let line = CheckResult::new(Measure::RiseByThermometer, "K").limited(limit);
    line.judged(input, |readings| {
        let all: Result<Vec<Measured>, Reason> =
            readings.iter().map(|one| exact(one, Decimal::ONE)).collect();
        let hottest = all?.into_iter().max_by(|one, other| one.value.cmp(&other.value));
        let hottest = hottest.ok_or(Reason::ReadingCount { needed: 1, found: 0 })?;
        let ambient = celsius(input.ambient.as_ref().ok_or(Reason::MissingAmbient)?)?;
        Ok((Figure::computed(hottest.value - ambient, hottest.uncertainty, 1), Vec::new()))
    })
}
