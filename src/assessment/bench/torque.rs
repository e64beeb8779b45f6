//! Torque that screws were set to, against the model's figure or a table for their thread.
//!
//! Table: maximum torques of VDI 2230-1 (2003/2015) for class 8.8 at 90 % of the yield point, from
//! memory; they agree with the formula of that guideline within 4 %. Older editions print the same
//! numbers for another friction, so the friction is part of every row. The table is for steel on
//! steel: in light alloy it is an upper bound at best, and the model's figure goes first.

use rust_decimal::Decimal;

use super::line::{Figure, Line, Stage};
use super::measure::Measure;
use super::own::{Own, OwnTorque};
use super::reading::{Measured, in_units};
use super::remark::Remark;
use super::verdict::{Bounds, Limit, Reason};
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

/// A coarse thread with its maximum torques of class 8.8 at those frictions, in tenths of N m.
pub const TORQUES: &[(&str, [u32; 3])] =
    &[("M4", [26, 30, 33]), ("M5", [52, 59, 65]), ("M6", [90, 101, 113]), ("M8", [216, 246, 273])];

/// The table's maximum torque in N m; `None` outside the table.
pub fn most(thread: &str, friction: Decimal) -> Option<Decimal> {
    let column = FRICTIONS.iter().position(|own| Decimal::new(i64::from(*own), 2) == friction)?;
    let (_, row) = TORQUES.iter().find(|(own, _)| own.eq_ignore_ascii_case(thread.trim()))?;
    Some(Decimal::new(i64::from(row[column]), 1))
}

/// One line a group of screws.
pub fn run(screws: &Screws, own: &Own) -> Line {
    let mut line = Line::new("torque", Measure::Torque, "N·m");
    let of_model = own.model.torques.iter().map(|torque| (torque, true));
    let mut all = of_model.chain(own.general.torques.iter().map(|torque| (torque, false)));
    let of_screws = all.find(|(torque, _)| torque.screws == screws.screws);
    let limit = if let Some((torque, of_model)) = of_screws {
        nominal(torque).map(|bounds| Limit::workshop(bounds, of_model))
    } else {
        line.remarks.extend(screws.friction.is_none().then_some(Remark::FrictionAssumed));
        line.remarks.push(Remark::SteelUpperBound);
        of_thread(screws)
    };
    let found = in_units(&screws.set, Decimal::ONE).and_then(|value| {
        limit.as_ref().map_err(Clone::clone)?;
        Ok((Figure::read(Measured { value, uncertainty: None }), Vec::new()))
    });
    if limit.is_err() {
        line.remarks.clear();
    }
    line.limit = limit.ok();
    line.after = Some(Stage::of(found, line.limit.as_ref()));
    line
}

fn nominal(torque: &OwnTorque) -> Result<Bounds, Reason> {
    let set = in_units(&torque.set, Decimal::ONE)?;
    let bounds = Bounds::around(set, torque.tolerance.unwrap_or_default());
    bounds.and_then(Bounds::sane).ok_or(Reason::OutOfRange)
}

fn of_thread(screws: &Screws) -> Result<Limit, Reason> {
    let thread = screws.thread.as_ref().ok_or(Reason::MissingThread)?;
    let friction = screws.friction.unwrap_or(Decimal::new(12, 2));
    let bounds = Bounds::AtMost(most(thread, friction).ok_or(Reason::NotInTable)?);
    let source = "VDI 2230-1, largest torque of class 8.8 at this friction, from memory";
    Ok(Limit::published(bounds, source, "2003/2015"))
}
