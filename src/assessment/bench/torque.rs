//! Torque that screws were set to, against the figure for them in `workshop.yaml`.
//!
//! A torque is a setting, not a reading. Only the model's or the workshop's own figure judges it; a
//! table of steel screws by thread gives a remark and no verdict. Table: largest torques of class 8.8
//! at 90 % of the yield point after the formula of VDI 2230-1 (M4 to M12 as its tables print them, from
//! memory; M3 by the formula), with the friction as part of every row, since editions differ in it.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure, Stage};
use super::measure::Measure;
use super::reading::{Measured, in_units};
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason};
use crate::sheet::profile::TorqueLimit;
use crate::sheet::quantity::Quantity;

/// Screws with the torque they were set to.
#[derive(Clone, Debug)]
pub struct Screws {
    /// Which screws, as typed.
    pub screws: String,
    /// The torque.
    pub set: Quantity,
    /// Metric coarse thread, such as `M5`.
    pub thread: Option<String>,
    /// Coefficient of friction in thread and under the head: 0.10, 0.12 or 0.14.
    pub friction: Option<Decimal>,
}

/// Frictions of the columns, in hundredths.
pub const FRICTIONS: [u32; 3] = [10, 12, 14];

/// A coarse thread with its largest torques of class 8.8 at those frictions, in hundredths of N m.
pub const TORQUES: &[(&str, [u32; 3])] = &[
    ("M3", [115, 131, 145]),
    ("M4", [260, 300, 330]),
    ("M5", [520, 590, 650]),
    ("M6", [900, 1010, 1130]),
    ("M8", [2160, 2460, 2730]),
    ("M10", [4300, 4800, 5400]),
    ("M12", [7300, 8400, 9300]),
];

/// The table's largest torque in N m; `None` outside the table.
pub fn most(thread: &str, friction: Decimal) -> Option<Decimal> {
    let column = FRICTIONS.iter().position(|own| Decimal::new(i64::from(*own), 2) == friction)?;
    let (_, row) = TORQUES.iter().find(|(own, _)| own.eq_ignore_ascii_case(thread.trim()))?;
    Some(Decimal::new(i64::from(row[column]), 2).normalize())
}

/// One line a group of screws.
pub fn run(screws: &Screws, own: &ShopLimits) -> CheckResult {
    let mut line = CheckResult::new(Measure::Torque, "N·m");
    line.of = Some(screws.screws.clone());
    let limit = own
        .torque(&screws.screws)
        .map(|(torque, origin)| Ok::<_, Reason>(Limit::new(nominal(torque)?, origin)));
    let found = in_units(&screws.set, Decimal::ONE).and_then(|value| {
        if let Some(Err(reason)) = &limit {
            return Err(reason.clone());
        }
        let measured = Measured { value, uncertainty: None, side: None };
        Ok((Figure::read(measured), Vec::new()))
    });
    if limit.is_none() {
        let friction = screws.friction.unwrap_or(Decimal::new(12, 2));
        let steel = screws.thread.as_ref().and_then(|thread| most(thread, friction));
        line.remarks.extend(steel.map(Remark::SteelAtMost));
    }
    line.limit = limit.and_then(Result::ok);
    line.after = Some(Stage::of(found, line.limit.as_ref()));
    line
}

fn nominal(torque: &TorqueLimit) -> Result<Bounds, Reason> {
    let set = in_units(&torque.set.0, Decimal::ONE)?;
    let tolerance = torque.tolerance.as_ref().map(|share| share.0.number);
    let bounds = Bounds::around(set, tolerance.unwrap_or_default());
    bounds.and_then(Bounds::sane).ok_or(Reason::OutOfRange)
}
