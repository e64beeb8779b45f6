//! What a test ride has to show, by the rules of a place: cut-off, run-on, walk assistance, length.
//!
//! Rules differ and change: every line asks to check local rules. In: [`RideReadings`] and, where the
//! workshop names one, a [`RuleSet`]; out: lines. Speeds from positions are not good enough for the cut-off; which meter
//! was used is not known here.

pub mod rules;

use rust_decimal::Decimal;

use super::line::{Figure, Line, Stage};
use super::measure::Measure;
use super::reading::{Measured, measured};
use super::remark::Remark;
use super::verdict::{Bounds, Limit, Reason, Verdict};
use crate::sheet::bench::Reading;
use rules::{Number, RuleSet, number};

/// What was read on the ride.
#[derive(Clone, Debug, Default)]
pub struct RideReadings {
    /// Speed at which the help ends.
    pub cut_off: Option<Reading>,
    /// Way that the help runs on.
    pub run_on: Option<Reading>,
    /// Whether every brake lever cuts the motor off.
    pub brake_switches: Option<bool>,
    /// Speed of the walk assistance.
    pub walk: Option<Reading>,
    /// Length of the ride.
    pub distance: Option<Reading>,
}

/// One line a reading; without rules nothing is judged.
pub fn run(ride: &RideReadings, rules: Option<&RuleSet>) -> Vec<Line> {
    let limit =
        |bounds: Bounds| rules.map(|rules| Limit::published(bounds, rules.source, rules.edition));
    let at_most =
        |most: fn(&RuleSet) -> Option<Number>| limit(Bounds::AtMost(number(rules.and_then(most)?)));
    let mut lines = Vec::new();
    if let Some(speed) = &ride.cut_off {
        lines.push(cut_off(speed, at_most(|rules| Some(rules.cut_off_at_most()))));
    }
    if let Some(way) = &ride.run_on {
        let limits = (at_most(|rules| rules.run_on), at_most(|rules| rules.run_on_with_switches));
        lines.push(run_on(way, ride.brake_switches, limits));
    }
    if let Some(speed) = &ride.walk {
        let most = at_most(|rules| rules.walk);
        let line = Line::new("walk", Measure::WalkSpeed, "km/h").limited(most);
        lines.push(judged(line, measured(speed, Decimal::ONE)));
    }
    if let Some(way) = &ride.distance {
        let least = rules.and_then(|rules| rules.distance);
        let least = least.and_then(|least| limit(Bounds::AtLeast(number(least))));
        let line = Line::new("distance", Measure::RideDistance, "km").limited(least);
        lines.push(judged(line, measured(way, Decimal::ONE_THOUSAND)));
    }
    lines.into_iter().map(|line| line.remark(Remark::CheckLocalRules)).collect()
}

fn judged(mut line: Line, found: Result<Measured, Reason>) -> Line {
    let found = found.map(|measured| (Figure::read(measured), Vec::new()));
    line.after = Some(Stage::of(found, line.limit.as_ref()));
    line
}

fn cut_off(speed: &Reading, limit: Option<Limit>) -> Line {
    let mut line = Line::new("cut-off", Measure::CutOffSpeed, "km/h").limited(limit);
    let mut found = measured(speed, Decimal::ONE);
    if let Ok(Measured { value, uncertainty: uncertainty @ None }) = &mut found {
        // Accuracy of the meter in the test procedure of TBIS 15194:2019, 4.2.11: 2 %.
        *uncertainty = Some(*value * Decimal::TWO / Decimal::ONE_HUNDRED);
        line.remarks.push(Remark::MeterAccuracyAssumed);
    }
    judged(line, found)
}

/// Without knowing of the brake switches, what lies between the two limits is not decided.
fn run_on(
    way: &Reading,
    switches: Option<bool>,
    (strict, wide): (Option<Limit>, Option<Limit>),
) -> Line {
    // The sheet's lengths have millimetres as their base.
    let found = measured(way, Decimal::ONE_THOUSAND);
    let own = if switches == Some(true) { wide.clone() } else { strict };
    let new = || Line::new("run-on", Measure::RunOn, "m");
    let mut line = judged(new().limited(own), found.clone());
    let by_wide = judged(new().limited(wide), found);
    let verdict = |line: &Line| line.after.as_ref().map(|stage| stage.verdict.clone());
    let is_open = switches.is_none()
        && matches!(verdict(&line), Some(Verdict::Outside | Verdict::Undecided))
        && verdict(&by_wide) != Some(Verdict::Outside);
    if let (true, Some(stage)) = (is_open, &mut line.after) {
        stage.verdict = Verdict::NotDetermined(Reason::BrakeSwitchesUnknown);
    }
    line
}
