//! No-load current against the baseline of the model.
//!
//! No published limit was found. A model's baseline is the workshop's; how many times it is still
//! taken is the workshop's too, or 1.3 by common practice. Of several readings the largest counts.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure};
use super::input::Input;
use super::measure::Measure;
use super::reading::{in_units, measured, worst};
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit};
use crate::sheet::bench::Reading;

/// 1.3 times the baseline; common practice, no source.
const USUAL_FACTOR: Decimal = Decimal::from_parts(13, 0, 0, false, 1);

/// Current with nothing to drive.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let limit = limit(own);
    let bounds = limit.as_ref().map_or(Bounds::AtMost(Decimal::ZERO), |limit| limit.bounds);
    let line = CheckResult::new(Measure::Of(input.check), "A").limited(limit);
    vec![line.judged(input, |readings| {
        let highest = worst(readings, Decimal::ONE, bounds)?;
        let remarks = if rising(readings) { vec![Remark::Rising] } else { Vec::new() };
        Ok((Figure::read(highest), remarks))
    })]
}

fn limit(own: &ShopLimits) -> Option<Limit> {
    let (baseline, origin) = own.get(|own| own.no_load_current.clone())?;
    let baseline = in_units(&baseline.0, Decimal::ONE).ok()?;
    let times =
        |factor: Decimal| baseline.checked_mul(factor).and_then(|most| Bounds::AtMost(most).sane());
    let factor = own.get(|own| own.no_load_factor.as_ref().map(|share| share.0.number));
    if let Some((percent, _)) = factor {
        return Some(Limit::new(times(percent.checked_div(Decimal::ONE_HUNDRED)?)?, origin));
    }
    Some(Limit::common(times(USUAL_FACTOR)?))
}

/// True if no reading is below the one before it and the last is above the first.
fn rising(readings: &[Reading]) -> bool {
    let values: Vec<Decimal> =
        readings.iter().filter_map(|one| Some(measured(one, Decimal::ONE).ok()?.value)).collect();
    let never_falls = values.windows(2).all(|pair| pair[0] <= pair[1]);
    never_falls && values.first() < values.last()
}
