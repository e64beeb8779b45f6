//! Radial clearance of a deep groove ball bearing against the range of its class.
//!
//! Ranges of ISO 5753-1 as two bearing makers' tables reprint them; the motor clearance CM is a
//! maker's own. They hold for a bearing that is not mounted. Pages are about that
//! print C3 of 18 to 24 mm as 13 to 25 micrometres; 13 to 28 is right.

use rust_decimal::Decimal;

use super::bearing::{Bearing, ClearanceClass, Kind};
use super::check_result::{CheckResult, Figure};
use super::input::Input;
use super::measure::Measure;
use super::reading::worst;
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason};
use crate::assessment::sources::SourceId;

/// Least and most clearance, in micrometres.
pub type Range = (u32, u32);

/// Bore over the first and up to and including the second, in mm; ranges of C2, CN, C3, C4, C5.
type Row = (u32, u32, [Range; 5]);

/// No such class for this bore.
const NONE: Range = (0, 0);

/// Deep groove ball bearings with a cylindrical bore.
const ROWS: &[Row] = &[
    // Over 2.5 mm in print; bores are whole millimetres. C4 and C5 are not made.
    (2, 6, [(0, 7), (2, 13), (8, 23), NONE, NONE]),
    (6, 10, [(0, 7), (2, 13), (8, 23), (14, 29), (20, 37)]),
    (10, 18, [(0, 9), (3, 18), (11, 25), (18, 33), (25, 45)]),
    (18, 24, [(0, 10), (5, 20), (13, 28), (20, 36), (28, 48)]),
    (24, 30, [(1, 11), (5, 20), (13, 28), (23, 41), (30, 53)]),
    (30, 40, [(1, 11), (6, 20), (15, 33), (28, 46), (40, 64)]),
    (40, 50, [(1, 11), (6, 23), (18, 36), (30, 51), (45, 73)]),
];

/// Motor clearance; its first row includes 10 mm.
const MOTOR: &[(u32, u32, Range)] =
    &[(9, 18, (4, 11)), (18, 24, (5, 12)), (24, 30, (5, 12)), (30, 40, (9, 17)), (40, 50, (9, 17))];

/// The range of a class for a bore in mm; `None` outside the table.
pub fn range(bore: u32, class: ClearanceClass) -> Option<Range> {
    let holds = |over: u32, up_to: u32| over < bore && bore <= up_to;
    let column = match class {
        ClearanceClass::C2 => 0,
        ClearanceClass::Normal => 1,
        ClearanceClass::C3 => 2,
        ClearanceClass::C4 => 3,
        ClearanceClass::C5 => 4,
        ClearanceClass::Motor => {
            return MOTOR.iter().find(|row| holds(row.0, row.1)).map(|row| row.2);
        }
    };
    let range = ROWS.iter().find(|row| holds(row.0, row.1)).map(|row| row.2[column]);
    range.filter(|range| *range != NONE)
}

/// Radial clearance of a bearing that is not mounted; the worst of several readings counts.
pub fn run(input: &Input, _: &ShopLimits) -> Vec<CheckResult> {
    let micro = Decimal::new(1, 3);
    let limit = limit(input);
    let line = CheckResult::new(Measure::Of(input.check), "µm")
        .limited(limit.clone().ok())
        .remark(Remark::UnmountedOnly);
    vec![line.judged(input, |readings| {
        let bounds = limit.as_ref().map_err(Clone::clone)?.bounds;
        Ok((Figure::read(worst(readings, micro, bounds)?), Vec::new()))
    })]
}

fn limit(input: &Input) -> Result<Limit, Reason> {
    let designation = input.bearing.as_ref().ok_or(Reason::MissingBearing)?;
    let bearing = Bearing::parse(designation).ok_or(Reason::UnknownBearing)?;
    if bearing.kind != Kind::DeepGroove || bearing.is_full {
        return Err(Reason::NotInTable);
    }
    let (least, most) = range(bearing.bore, bearing.clearance).ok_or(Reason::NotInTable)?;
    let bounds = Bounds::Between(Decimal::from(least), Decimal::from(most));
    Ok(match bearing.clearance {
        ClearanceClass::Motor => Limit::common(bounds),
        _ => Limit::published(bounds, SourceId::BearingClearance),
    })
}
