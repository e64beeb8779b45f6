//! Running noise: the level of the unit alone, the background taken off, before and after.
//!
//! Correction of the form of ISO 3744 and ISO 10140-4: none from 15 dB above the background on, by
//! energy from 6 dB on, 1.3 dB and only as an upper bound from 3 dB on, no result below (the last
//! after ISO 3746; ISO 3744 and 3746 from memory). Levels are computed as floats. No limit is
//! published for such units: the workshop's own is used, or none.

use rust_decimal::Decimal;

use super::check_result::{Change, CheckResult, Figure, Stage};
use super::input::Input;
use super::measure::{Measure, Method};
use super::reading::{Measured, decimal, exact, float, in_units, only};
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason, Side, Verdict};
use crate::assessment::sources::SourceId;
use crate::sheet::bench::Reading;

const METHOD: Method = Method { rule: "background-by-energy", source: Some(SourceId::Background) };

/// The sum of levels by energy, in dB.
pub fn energy_sum(levels: &[f64]) -> f64 {
    10.0 * levels.iter().map(|level| 10_f64.powf(level / 10.0)).sum::<f64>().log10()
}

/// What is left of a level when the background is taken off by energy, in dB; NaN if nothing is.
pub fn energy_difference(level: f64, background: f64) -> f64 {
    10.0 * (10_f64.powf(level / 10.0) - 10_f64.powf(background / 10.0)).log10()
}

/// The correction K1 for a level that is `above` dB over the background, in dB.
pub fn background_correction(above: f64) -> f64 {
    -10.0 * (1.0 - 10_f64.powf(-above / 10.0)).log10()
}

/// Level of the unit alone as found and as left, and what the work did.
pub fn run(input: &Input, own: &ShopLimits) -> Vec<CheckResult> {
    let limit = own.limit(
        |own| own.running_noise.clone(),
        |most| in_units(&most.0, Decimal::ONE).ok().map(Bounds::AtMost),
    );
    let mut line = CheckResult::new(Measure::Of(input.check), "dB").limited(limit);
    line.method = (!input.background.is_empty()).then_some(METHOD);
    let (before, after) = match input.background.as_slice() {
        [] => (None, None),
        [both] => (Some(both), Some(both)),
        [before, after, ..] => (Some(before), Some(after)),
    };
    let limit = line.limit.as_ref();
    let stages = (stage(&input.before, before, limit), stage(&input.after, after, limit));
    (line.before, line.after) = stages;
    let mut line = line.with_change();
    if line.change.is_none() && before == after {
        line.change = at_least(input, &line);
    }
    vec![line]
}

fn stage(levels: &[Reading], background: Option<&Reading>, limit: Option<&Limit>) -> Option<Stage> {
    if levels.is_empty() {
        return None;
    }
    let found = mean(levels).and_then(|level| alone(level, background));
    let mut stage = Stage::of(found, limit);
    if stage.verdict == Verdict::Undecided && background.is_none() {
        stage.verdict = Verdict::NotDetermined(Reason::MissingBackground);
    }
    Some(stage)
}

/// Several readings of one state: their mean by energy; the largest of their uncertainties.
fn mean(readings: &[Reading]) -> Result<Measured, Reason> {
    if let [one] = readings {
        return only(std::slice::from_ref(one), Decimal::ONE)?.exact();
    }
    let all: Result<Vec<Measured>, Reason> =
        readings.iter().map(|one| exact(one, Decimal::ONE)).collect();
    let all = all?;
    let levels: Vec<f64> = all.iter().map(|one| float(one.value)).collect();
    let value = decimal(energy_sum(&levels) - 10.0 * (levels.len() as f64).log10())?;
    let uncertainty = all.iter().filter_map(|one| one.uncertainty).max();
    Ok(Measured { value, uncertainty, side: None })
}

fn alone(level: Measured, background: Option<&Reading>) -> Result<(Figure, Vec<Remark>), Reason> {
    let bound = |value: Decimal, remark: Remark| {
        let figure = Figure::computed(value, level.uncertainty, 1);
        Ok((Figure { side: Some(Side::AtMost), ..figure }, vec![remark]))
    };
    let Some(background) = background else {
        return bound(level.value, Remark::BackgroundNotMeasured);
    };
    let background = exact(background, Decimal::ONE)?;
    let above = level.value - background.value;
    if above < Decimal::from(3) {
        return Err(Reason::BackgroundTooLoud);
    }
    if above < Decimal::from(6) {
        let most = decimal(background_correction(float(above)))?.min(Decimal::new(13, 1));
        return bound(level.value - most, Remark::UpperBoundOnly);
    }
    if above >= Decimal::from(15) {
        return Ok((Figure::computed(level.value, level.uncertainty, 1), Vec::new()));
    }
    let value = decimal(energy_difference(float(level.value), float(background.value)))?;
    let share = 1.0 / (1.0 - 10_f64.powf(-float(above) / 10.0));
    let uncertainty = match (level.uncertainty, background.uncertainty) {
        (None, None) => None,
        (own, other) => {
            let own = share * float(own.unwrap_or_default());
            let other = (share - 1.0) * float(other.unwrap_or_default());
            Some(decimal(own.hypot(other))?)
        }
    };
    Ok((Figure::computed(value, uncertainty, 1), Vec::new()))
}

/// With one background in both, taking it off can only widen the difference of the levels. Where
/// none was measured, one for both is assumed; the stages say that it was not measured.
fn at_least(input: &Input, line: &CheckResult) -> Option<Change> {
    line.before.as_ref()?.figure.as_ref()?;
    line.after.as_ref()?.figure.as_ref()?;
    let amount = mean(&input.after).ok()?.value - mean(&input.before).ok()?.value;
    Some(Change { amount, at_least: true })
}
