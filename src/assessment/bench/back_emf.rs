//! Voltage of the driven motor: unbalance of the three line-to-line readings at one speed.
//!
//! No universal limit was found: the workshop's own is used, or none. One pair low points at a turn
//! or a joint, all three low at magnets or a wrong speed; speed and constant are not read here.

use rust_decimal::Decimal;

use super::check_result::CheckResult;
use super::input::Input;
use super::measure::{Measure, Method};
use super::shop_limits::ShopLimits;
use super::unbalance::unbalance;
use super::verdict::Bounds;

const METHOD: Method = Method { rule: "deviation-from-mean", source: None };

/// Unbalance of three line-to-line voltages.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let limit = own.limit(
        |own| own.back_emf_unbalance.as_ref().map(|most| most.0.number),
        |most| Some(Bounds::AtMost(most)),
    );
    let line = CheckResult::new(Measure::Of(input.check), "%").limited(limit).by(METHOD);
    vec![line.judged(input, |readings| Ok(unbalance(readings, Decimal::ONE)?.figure()))]
}
