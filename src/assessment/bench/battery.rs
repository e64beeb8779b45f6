//! Voltage of a lithium-ion battery pack at rest, as a safety flag and no more.
//!
//! In: one reading of the pack, or one a group of cells; out: lines whose verdict outside means: do
//! not charge, refer. Window and spread are common practice; a pack inside them is not thereby
//! safe.

use rust_decimal::Decimal;

use super::input::Input;
use super::line::{Figure, Line, Stage};
use super::measure::Measure;
use super::own::Own;
use super::reading::{only, worst};
use super::remark::Remark;
use super::verdict::{Bounds, Limit, Reason, Verdict};

/// Volts of a cell that are never gone below at rest; common practice.
const CELL_LOW: Decimal = Decimal::from_parts(250, 0, 0, false, 2);
/// Volts of a cell that are never gone above; common practice.
const CELL_HIGH: Decimal = Decimal::from_parts(425, 0, 0, false, 2);
/// Volts of a full cell (a cell maker's sheet).
const CELL_FULL: Decimal = Decimal::from_parts(420, 0, 0, false, 2);
/// Volts of a cell at the usual cut-off.
const CELL_EMPTY: Decimal = Decimal::from_parts(300, 0, 0, false, 2);
/// Volts between the highest and the lowest group; common practice names 0.05 to 0.1.
const SPREAD: Decimal = Decimal::from_parts(100, 0, 0, false, 3);

/// Volts of a pack with so many cells in series: full and at the usual cut-off.
pub fn window(cells: u32) -> (Decimal, Decimal) {
    let cells = Decimal::from(cells);
    (CELL_FULL * cells, CELL_EMPTY * cells)
}

/// Pack against its window, and groups of cells where one reading each was taken.
pub fn run(input: &Input, own: &Own) -> Vec<Line> {
    let cells = input.cells.or_else(|| own.get(|own| &own.cells).map(|(cells, _)| cells));
    let groups = |count: usize| cells.is_some_and(|cells| count > 1 && count == cells as usize);
    let by_group = [&input.before, &input.after].iter().any(|readings| groups(readings.len()));
    let lines = if by_group { of_groups(input) } else { vec![of_pack(input, cells)] };
    lines.into_iter().map(flag).collect()
}

fn of_pack(input: &Input, cells: Option<u32>) -> Line {
    let mut line = Line::new(input.check, Measure::PackVoltage, "V");
    if let Some(cells) = cells {
        let count = Decimal::from(cells);
        let bounds = Bounds::Between(CELL_LOW * count, CELL_HIGH * count);
        let (full, empty) = window(cells);
        line = line.limited(Some(Limit::common(bounds))).remark(Remark::PackWindow { full, empty });
    }
    line.judged(input, |readings| {
        cells.ok_or(Reason::MissingCells)?;
        Ok((Figure::read(only(readings, Decimal::ONE)?), Vec::new()))
    })
}

fn of_groups(input: &Input) -> Vec<Line> {
    let bounds = Bounds::Between(CELL_LOW, CELL_HIGH);
    let cell = Line::new(input.check, Measure::CellVoltage, "V")
        .limited(Some(Limit::common(bounds)))
        .judged(input, |readings| {
            Ok((Figure::read(worst(readings, Decimal::ONE, bounds)?), Vec::new()))
        });
    let spread = Line::new(input.check, Measure::CellSpread, "V")
        .limited(Some(Limit::common(Bounds::AtMost(SPREAD))))
        .judged(input, |readings| {
            let highest = worst(readings, Decimal::ONE, Bounds::AtMost(Decimal::ZERO))?;
            let lowest = worst(readings, Decimal::ONE, Bounds::AtLeast(Decimal::ZERO))?;
            Ok((Figure::computed(highest.value - lowest.value, None, 3), Vec::new()))
        });
    vec![cell, spread]
}

/// Adds the caution to every stage that is not within.
fn flag(mut line: Line) -> Line {
    let stages: [&mut Option<Stage>; 2] = [&mut line.before, &mut line.after];
    for stage in stages.into_iter().flatten() {
        if matches!(stage.verdict, Verdict::Outside | Verdict::Undecided) {
            stage.remarks.push(Remark::DoNotCharge);
        }
    }
    line
}
