//! Voltage of a lithium battery pack at rest, as a safety flag and no more.
//!
//! In: one reading of the pack, or one a group of cells; out: lines whose verdict outside means: do
//! not charge, refer. Window and spread are common practice; a pack inside them is not thereby
//! safe.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure, Stage};
use super::input::Input;
use super::measure::Measure;
use super::reading::{Measured, exact, only, worst};
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason, Verdict};
use crate::sheet::vocabulary::Chemistry;

/// Voltages of one cell at rest, in hundredths of a volt; common practice and makers' cell sheets.
struct Cell {
    /// Never gone below.
    low: u32,
    /// Usual cut-off.
    empty: u32,
    /// Full.
    full: u32,
    /// Never gone above.
    high: u32,
}

/// Volts of `cells` cells with `hundredths` of a volt each.
fn volts(hundredths: u32, cells: u32) -> Decimal {
    Decimal::new(i64::from(hundredths), 2) * Decimal::from(cells)
}

impl Cell {
    fn of(chemistry: Chemistry) -> Self {
        match chemistry {
            Chemistry::LithiumIon => Self { low: 250, empty: 300, full: 420, high: 425 },
            Chemistry::Lfp => Self { low: 200, empty: 250, full: 365, high: 370 },
        }
    }

    fn bounds(&self, cells: u32) -> Bounds {
        Bounds::Between(volts(self.low, cells), volts(self.high, cells))
    }
}

/// Volts between the highest and the lowest group; common practice names 0.05 to 0.1.
const SPREAD: Decimal = Decimal::from_parts(100, 0, 0, false, 3);

/// Volts of a pack with `cells` cells in series: full and at the usual cut-off.
pub fn window(chemistry: Chemistry, cells: u32) -> (Decimal, Decimal) {
    let cell = Cell::of(chemistry);
    (volts(cell.full, cells), volts(cell.empty, cells))
}

/// Pack against its window, and groups of cells if one reading each was taken.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let cells = input.cells.or_else(|| own.get(|own| own.cells).map(|(cells, _)| cells.0));
    let groups = |count: usize| cells.is_some_and(|cells| count > 1 && count == cells as usize);
    let by_group = [&input.before, &input.after].iter().any(|readings| groups(readings.len()));
    let lines = if by_group { of_groups(input) } else { vec![of_pack(input, cells)] };
    lines.into_iter().map(flag).collect()
}

fn of_pack(input: &Input, cells: Option<u32>) -> CheckResult {
    let mut line = CheckResult::new(Measure::Of(input.check), "V");
    if let Some(cells) = cells {
        let chemistry = input.chemistry.unwrap_or_default();
        let bounds = Cell::of(chemistry).bounds(cells);
        let (full, empty) = window(chemistry, cells);
        line = line.limited(Some(Limit::common(bounds))).remark(Remark::PackWindow { full, empty });
    }
    line.judged(input, |readings| {
        cells.ok_or(Reason::MissingCells)?;
        Ok((Figure::read(only(readings, Decimal::ONE)?), Vec::new()))
    })
}

fn of_groups(input: &Input) -> Vec<CheckResult> {
    let bounds = Cell::of(input.chemistry.unwrap_or_default()).bounds(1);
    let cell = CheckResult::new(Measure::CellVoltage, "V")
        .limited(Some(Limit::common(bounds)))
        .judged(input, |readings| {
            Ok((Figure::read(worst(readings, Decimal::ONE, bounds)?), Vec::new()))
        });
    let spread = CheckResult::new(Measure::CellSpread, "V")
        .limited(Some(Limit::common(Bounds::AtMost(SPREAD))))
        .judged(input, |readings| {
            let all: Vec<_> =
                readings.iter().map(|one| exact(one, Decimal::ONE)).collect::<Result<_, _>>()?;
            let by_value = |one: &&Measured, other: &&Measured| one.value.cmp(&other.value);
            let ends = all.iter().max_by(by_value).zip(all.iter().min_by(by_value));
            let (highest, lowest) = ends.ok_or(Reason::ReadingCount { needed: 1, found: 0 })?;
            Ok((Figure::computed(highest.value - lowest.value, None, 3), Vec::new()))
        });
    vec![cell, spread]
}

/// Adds the caution to every stage that is not within.
fn flag(mut line: CheckResult) -> CheckResult {
    let stages: [&mut Option<Stage>; 2] = [&mut line.before, &mut line.after];
    for stage in stages.into_iter().flatten() {
        if matches!(stage.verdict, Verdict::Outside | Verdict::Undecided) {
            stage.remarks.push(Remark::DoNotCharge);
        }
    }
    line
}
