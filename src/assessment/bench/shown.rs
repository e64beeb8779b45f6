//! Signs that bench readings show by themselves.
//!
//! In: a sheet, its bench lines and the table `shown.yaml`; out: signs with the check that shows them.
//! Only a figure as found that is outside its limit shows one, and only if the sheet says whatever
//! else the sign's words claim. What a sign supports is weighed in [`crate::assessment::cause`].

use std::sync::LazyLock;

use rust_decimal::Decimal;
use serde::{Deserialize, Deserializer, de::Error};

use super::check_result::{CheckResult, Stage};
use super::measure::Measure;
use super::remark::Remark;
use super::verdict::{Bounds, Verdict};
use crate::sheet::catalogue::group::PartGroup;
use crate::sheet::catalogue::{Sign, embedded};
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::vocabulary::{Action, CheckKind, Condition, Outcome};

/// A row of the table.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// The figure.
    #[serde(deserialize_with = "measure")]
    pub figure: Measure,
    /// What it shows.
    pub sign: Sign,
    /// What the sheet must say beside the figure.
    #[serde(rename = "if")]
    pub beside: Beside,
    /// The figure must be above this too.
    #[serde(default)]
    pub above: Option<u32>,
}

/// What a sheet must say beside a figure outside its limit; the table's head says each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Beside {
    /// Nothing more.
    Outside,
    /// The reading that deviates most is low.
    OneLow,
    /// The reading that deviates most is high.
    OneHigh,
    /// A state 0 or 7 that the placing cannot give.
    Impossible,
    /// It is above its limit.
    TooMuch,
    /// Dried, within its limit as left, nothing electrical new.
    DriedUp,
    /// Dried, and outside its limit as left.
    StayedLow,
    /// Bearings were checked, and whatever turns is sound.
    BearingsSound,
    /// Bearings were replaced and nothing of the motor, and it is within its limit as left.
    BearingsNew,
}

/// The table; a sign that the catalogue does not have cannot load.
pub static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| embedded(include_str!("shown.yaml")));

/// The signs that the readings of a sheet show, in the order of its lines.
pub fn shown(sheet: &FindingsSheet, lines: &[CheckResult]) -> Vec<(Sign, CheckKind)> {
    let of_line = |line: &CheckResult| {
        let check = line.typed.and_then(|typed| sheet.bench.get(typed))?.check.value;
        let is_one = |row: &&Row| row.figure == line.measure && shows(row, line, sheet);
        let row = ROWS.iter().find(is_one)?;
        Some((row.sign, check))
    };
    lines.iter().filter_map(of_line).collect()
}

fn shows(row: &Row, line: &CheckResult, sheet: &FindingsSheet) -> bool {
    let Some(found) = line.before.as_ref().filter(|stage| stage.verdict == Verdict::Outside) else {
        return false;
    };
    let figure = found.figure.as_ref().map(|figure| figure.value);
    let is_above = |least: Decimal| figure.is_some_and(|figure| least < figure);
    row.above.is_none_or(|least| is_above(Decimal::from(least)))
        && match row.beside {
            Beside::Outside => true,
            Beside::OneLow => deviates(found) == Some(true),
            Beside::OneHigh => deviates(found) == Some(false),
            Beside::Impossible => found.remarks.iter().any(is_impossible),
            Beside::TooMuch => match line.limit.as_ref().map(|limit| limit.bounds) {
                Some(Bounds::AtMost(most) | Bounds::Between(_, most)) => is_above(most),
                _ => false,
            },
            Beside::DriedUp => {
                is_left(line, sheet, &Verdict::Within)
                    && is_dried(sheet)
                    && !is_new(
                        sheet,
                        &[PartGroup::Motor, PartGroup::Wiring, PartGroup::Electronics],
                    )
            }
            Beside::StayedLow => is_left(line, sheet, &Verdict::Outside) && is_dried(sheet),
            Beside::BearingsSound => turns_freely(sheet),
            Beside::BearingsNew => {
                is_left(line, sheet, &Verdict::Within)
                    && is_new(sheet, &[PartGroup::Bearings])
                    && !is_new(
                        sheet,
                        &[
                            PartGroup::Motor,
                            PartGroup::Electronics,
                            PartGroup::Sensors,
                            PartGroup::Wiring,
                        ],
                    )
            }
        }
}

/// True if the reading that deviates most is low; `None` if none deviates.
fn deviates(stage: &Stage) -> Option<bool> {
    stage.remarks.iter().find_map(|remark| match remark {
        Remark::DeviatesMost { low, .. } => Some(*low),
        _ => None,
    })
}

fn is_impossible(remark: &Remark) -> bool {
    matches!(remark, Remark::InvalidStates(states) if states.iter().any(|one| matches!(one, 0 | 7)))
}

/// True if the same unit was read again with this verdict: another one goes back on an exchange.
fn is_left(line: &CheckResult, sheet: &FindingsSheet, verdict: &Verdict) -> bool {
    let is_another = sheet.outcome.as_ref().is_some_and(|one| one.value == Outcome::Exchanged);
    !is_another && line.after.as_ref().is_some_and(|stage| stage.verdict == *verdict)
}

fn is_dried(sheet: &FindingsSheet) -> bool {
    sheet.work.as_ref().is_some_and(|work| work.drying.is_some())
}

fn findings<'a>(
    sheet: &'a FindingsSheet,
    groups: &'a [PartGroup],
) -> impl Iterator<Item = &'a Finding> + 'a {
    let all = sheet.strip_down.iter().flat_map(|strip| &strip.findings);
    all.filter(|one| groups.contains(&one.part.group()))
}

fn is_new(sheet: &FindingsSheet, groups: &[PartGroup]) -> bool {
    findings(sheet, groups).any(|one| one.action == Some(Action::Replaced))
}

fn turns_freely(sheet: &FindingsSheet) -> bool {
    let turning = [
        PartGroup::Bearings,
        PartGroup::Gears,
        PartGroup::Clutch,
        PartGroup::Shaft,
        PartGroup::Case,
    ];
    findings(sheet, &[PartGroup::Bearings]).next().is_some()
        && findings(sheet, &turning).all(|one| one.condition == Condition::Sound)
}

fn measure<'de, D: Deserializer<'de>>(from: D) -> Result<Measure, D::Error> {
    let word = String::deserialize(from)?;
    Measure::of_word(&word).ok_or_else(|| D::Error::custom(format!("there is no figure `{word}`")))
}
