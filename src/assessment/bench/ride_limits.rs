//! What a test ride has to show, by the rules of a place: cut-off, run-on, walk assistance, length.
//!
//! Rules differ and change: every line asks to check local rules. A speed is in the unit of its rule and
//! counts as outside only if it is so after rounding to a tenth of it: 25.0 km/h are 15.5 mph. In: [`RideReadings`] and, if the
//! workshop names one, a [`RuleSet`]; out: lines. Speeds from positions are not good enough for the cut-off; which meter
//! was used is not known here.

pub mod rules;

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure, Stage};
use super::measure::Measure;
use super::reading::{Measured, measured};
use super::remark::Remark;
use super::verdict::{Bounds, Limit, Reason, Verdict};
use crate::sheet::bench::Reading;
use rules::{HALF_A_TENTH, Number, RuleSet, SpeedUnit, number};

/// What was read on the ride.
#[derive(Clone, Debug, Default)]
pub struct RideReadings {
    /// Speed at which the motor stops assisting.
    pub cut_off: Option<Reading>,
    /// Way that the motor runs on.
    pub run_on: Option<Reading>,
    /// Whether every brake lever cuts the motor off.
    pub brake_switches: Option<bool>,
    /// Speed of the walk assistance.
    pub walk: Option<Reading>,
    /// Length of the ride.
    pub distance: Option<Reading>,
}

/// One line a reading; without rules nothing is judged.
pub fn run(ride: &RideReadings, rules: Option<&RuleSet>) -> Vec<CheckResult> {
    let limit = |bounds: Bounds| rules.map(|rules| Limit::new(bounds, rules.origin));
    let at_most =
        |most: fn(&RuleSet) -> Option<Number>| limit(Bounds::AtMost(number(rules.and_then(most)?)));
    let speed = |most| Some(at_most(most)?.with_slack(number(HALF_A_TENTH)));
    let unit = rules.map_or(SpeedUnit::Kmh, |rules| rules.unit);
    let mut lines = Vec::new();
    let most = speed(|rules| Some(rules.cut_off));
    let most_walk = speed(|rules| rules.walk);
    if let Some(speed) = &ride.cut_off {
        lines.push(cut_off(speed, unit, most));
    }
    if let Some(way) = &ride.run_on {
        let limits = (at_most(|rules| rules.run_on), at_most(|rules| rules.run_on_with_switches));
        lines.push(run_on(way, ride.brake_switches, limits));
    }
    if let Some(speed) = &ride.walk {
        let line = CheckResult::new(Measure::WalkSpeed, unit.symbol()).limited(most_walk);
        lines.push(staged(line, in_tenths(measured(speed, unit.kmh()))));
    }
    if let Some(way) = &ride.distance {
        let least = rules.and_then(|rules| rules.distance);
        let least = least.and_then(|least| limit(Bounds::AtLeast(number(least))));
        let line = CheckResult::new(Measure::RideDistance, "km").limited(least);
        lines.push(judged(line, measured(way, Decimal::ONE_THOUSAND)));
    }
    lines.into_iter().map(|line| line.remark(Remark::CheckLocalRules)).collect()
}

fn judged(line: CheckResult, found: Result<Measured, Reason>) -> CheckResult {
    staged(line, found.map(|measured| (Figure::read(measured), Vec::new())))
}

fn staged(mut line: CheckResult, found: Result<(Figure, Vec<Remark>), Reason>) -> CheckResult {
    let mut stage = Stage::of(found, line.limit.as_ref());
    if let (Some(figure), Some(limit)) = (&stage.figure, &line.limit)
        && stage.verdict == Verdict::Within
        && limit.bounds.margin(figure.value) < Decimal::ZERO
    {
        stage.remarks.push(Remark::ComparedToTenths);
    }
    line.after = Some(stage);
    line
}

/// A speed that was converted has places that nobody read.
fn in_tenths(found: Result<Measured, Reason>) -> Result<(Figure, Vec<Remark>), Reason> {
    let found = found?;
    let figure = Figure::read(found);
    Ok((Figure { places: found.value.normalize().scale().min(1), ..figure }, Vec::new()))
}

fn cut_off(speed: &Reading, unit: SpeedUnit, limit: Option<Limit>) -> CheckResult {
    let mut line = CheckResult::new(Measure::CutOffSpeed, unit.symbol()).limited(limit);
    let mut found = measured(speed, unit.kmh());
    if let Ok(Measured { value, uncertainty: uncertainty @ None, .. }) = &mut found {
        // Accuracy that the test procedure for such bikes asks of the meter: 2 %.
        *uncertainty = Some(*value * Decimal::TWO / Decimal::ONE_HUNDRED);
        line.remarks.push(Remark::MeterAccuracyAssumed);
    }
    staged(line, in_tenths(found))
}

/// Without knowing of the brake switches, what is between the two limits is not decided.
fn run_on(
    way: &Reading,
    switches: Option<bool>,
    (strict, wide): (Option<Limit>, Option<Limit>),
) -> CheckResult {
    // The sheet's lengths have millimetres as their base.
    let found = measured(way, Decimal::ONE_THOUSAND);
    let own = if switches == Some(true) { wide.clone() } else { strict };
    let new = || CheckResult::new(Measure::RunOn, "m");
    let mut line = judged(new().limited(own), found.clone());
    let by_wide = judged(new().limited(wide), found);
    let verdict = |line: &CheckResult| line.after.as_ref().map(|stage| stage.verdict.clone());
    let is_open = switches.is_none()
        && matches!(verdict(&line), Some(Verdict::Outside | Verdict::Undecided))
        && verdict(&by_wide) != Some(Verdict::Outside);
    if let (true, Some(stage)) = (is_open, &mut line.after) {
        stage.verdict = Verdict::NotDetermined(Reason::BrakeSwitchesUnknown);
    }
    line
}
