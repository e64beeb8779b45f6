//! Bench checks: readings, limits and rules -> lines with figures, verdicts and their sources.
//!
//! ```text
//!  Input, ShopLimits ──► CHECKS row ──► CheckResult: before, after, change, limit, method, remarks
//! ```
//!
//! A reading outside its limit is a result, never an error; what cannot be computed is "not
//! determined" with its reason. A check whose figure is the reading itself is added by one row of
//! `plain.rs`, another by one file and one arm of `rule`. Torque of screws ([`torque`]) and the
//! test ride ([`ride_limits`]) give the same lines from their own readings. Nothing is worded or
//! rounded for print here.

pub mod back_emf;
pub mod battery;
pub mod bearing;
pub mod check_result;
pub mod clearance;
pub mod fit;
pub mod hall;
pub mod input;
pub mod insulation;
pub mod measure;
pub mod no_load;
pub mod noise;
pub mod plain;
pub mod reading;
pub mod remark;
pub mod ride_limits;
pub mod seat;
pub mod shop_limits;
pub mod shown;
pub mod temperature_rise;
pub mod torque;
pub mod unbalance;
pub mod verdict;
pub mod winding;

use crate::sheet::vocabulary::CheckKind;
use check_result::CheckResult;
use input::Input;
use shop_limits::ShopLimits;

/// Computes the lines of a check.
type Rule = fn(&Input, &ShopLimits) -> Vec<CheckResult>;

/// The rule of a check.
fn rule(check: CheckKind) -> Rule {
    match check {
        CheckKind::WindingResistance => winding::run,
        CheckKind::InsulationResistance => insulation::run,
        CheckKind::NoLoadCurrent => no_load::run,
        CheckKind::RunningNoise => noise::run,
        CheckKind::BackEmf => back_emf::run,
        CheckKind::TemperatureRise => temperature_rise::run,
        CheckKind::HallStates => hall::run,
        CheckKind::ShaftSeat => seat::shaft,
        CheckKind::HousingSeat => seat::housing,
        CheckKind::BearingClearance => clearance::run,
        CheckKind::BatteryVoltage => battery::run,
        // The figure is the reading; a test looks that its row is there.
        _ => plain::run,
    }
}

/// The lines of a check.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    rule(input.check)(input, own)
}
