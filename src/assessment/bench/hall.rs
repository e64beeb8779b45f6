//! Hall states: which of the six showed, which cannot be, and which line is stuck.
//!
//! Placed at 120 degrees, three sensors give 1-3-2-6-4-5 or the reverse and never 0 or 7 (a drive
//! maker's support article); at 60 degrees they give 0 and 7 and never 2 or 5 (a bench record).
//! Levels in volts and lengths of the steps are not read here.

use rust_decimal::Decimal;

use super::check_result::{CheckResult, Figure, Stage};
use super::input::Input;
use super::measure::Measure;
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason, Verdict};
use crate::sheet::vocabulary::Placing;

impl Placing {
    /// The six states of one electrical turn, in order; each differs from the next in one line.
    pub fn cycle(self) -> [u8; 6] {
        match self {
            Self::Degrees120 => [1, 3, 2, 6, 4, 5],
            Self::Degrees60 => [7, 6, 4, 0, 1, 3],
        }
    }

    /// The placing that states show: a state that one placing cannot give supports the other.
    fn shown_by(states: &[u8]) -> Self {
        let at_60 = states.iter().any(|state| matches!(state, 0 | 7));
        let at_120 = states.iter().any(|state| matches!(state, 2 | 5));
        if at_60 && !at_120 { Self::Degrees60 } else { Self::Degrees120 }
    }
}

/// A state as typed: three digits of 0 and 1, or one number from 0 to 7.
pub fn state(text: &str) -> Option<u8> {
    match text.len() {
        1 => text.parse().ok().filter(|state| *state <= 7),
        3 => u8::from_str_radix(text, 2).ok().filter(|_| !text.starts_with('+')),
        _ => None,
    }
}

/// States seen while the rotor is turned by hand, as found and as left.
pub fn run(input: &Input, _: &ShopLimits) -> Vec<CheckResult> {
    let limit = Limit::common(Bounds::AtLeast(Decimal::from(6)));
    let mut line = CheckResult::new(Measure::Of(input.check), "").limited(Some(limit));
    let stage = |states: &[String]| {
        let limit = line.limit.as_ref();
        (!states.is_empty()).then(|| judged(Stage::of(seen(states, input.placing), limit)))
    };
    (line.before, line.after) = (stage(&input.states_before), stage(&input.states_after));
    vec![line.with_change()]
}

/// A state that cannot be is outside, however many valid ones showed.
fn judged(mut stage: Stage) -> Stage {
    if stage.remarks.iter().any(|remark| matches!(remark, Remark::InvalidStates(_))) {
        stage.verdict = Verdict::Outside;
    }
    stage
}

fn seen(typed: &[String], placing: Option<Placing>) -> Result<(Figure, Vec<Remark>), Reason> {
    let states: Option<Vec<u8>> = typed.iter().map(|text| state(text)).collect();
    let states = states.ok_or(Reason::NotAState)?;
    let placing = placing.unwrap_or_else(|| Placing::shown_by(&states));
    let cycle = placing.cycle();
    let missing: Vec<u8> = cycle.into_iter().filter(|one| !states.contains(one)).collect();
    let invalid: Vec<u8> =
        (0..8).filter(|one| states.contains(one) && !cycle.contains(one)).collect();
    let count = Decimal::from(cycle.len() - missing.len());
    let mut remarks = vec![Remark::Placing(placing)];
    if states.windows(2).any(|pair| (pair[0] ^ pair[1]).count_ones() > 1) {
        remarks.push(Remark::OutOfOrder);
    }
    if !missing.is_empty() {
        remarks.extend(stuck(&states));
        remarks.push(Remark::MissingStates(missing));
    }
    if !invalid.is_empty() {
        remarks.push(Remark::InvalidStates(invalid));
    }
    Ok((Figure::computed(count, None, 0), remarks))
}

/// Lines that never changed, if enough states showed.
fn stuck(states: &[u8]) -> Vec<Remark> {
    let moved = states.iter().any(|state| *state != states[0]);
    let level = |line: usize, state: u8| state >> (2 - line) & 1 == 1;
    (0..3)
        .filter(|line| {
            moved && states.iter().all(|one| level(*line, *one) == level(*line, states[0]))
        })
        .map(|line| Remark::StuckLine { line, high: level(line, states[0]) })
        .collect()
}
