//! The result of a bench check: one line a figure, with its limit, method, verdicts and change.
//!
//! A line holds facts from which a wording can be chosen; words for customers are not here.

use rust_decimal::Decimal;

use super::input::Input;
use super::measure::{Measure, Method};
use super::reading::Measured;
use super::remark::Remark;
use super::verdict::{Limit, Reason, Side, Verdict};
use crate::sheet::bench::Reading;

/// A figure in the unit of its line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// The value, not rounded.
    pub value: Decimal,
    /// Its expanded uncertainty (k = 2), if readings carry one.
    pub uncertainty: Option<Decimal>,
    /// The side of it on which the true value is, if only that is known.
    pub side: Option<Side>,
    /// Decimal places that are worth printing.
    pub places: u32,
}

impl Figure {
    /// A figure as read, printed with the places it was typed with, at most three.
    pub fn read(measured: Measured) -> Self {
        let Measured { value, uncertainty, side } = measured;
        Self { value, uncertainty, side, places: value.scale().min(3) }
    }

    /// The figure as a reading of its line.
    pub fn measured(&self) -> Measured {
        let Self { value, uncertainty, side, .. } = *self;
        Measured { value, uncertainty, side }
    }

    /// A figure that was computed, with the places that are worth printing.
    pub fn computed(value: Decimal, uncertainty: Option<Decimal>, places: u32) -> Self {
        Self { value, uncertainty, side: None, places }
    }
}

/// A figure before or after the work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stage {
    /// The figure; `None` if it could not be computed.
    pub figure: Option<Figure>,
    /// The verdict against the limit.
    pub verdict: Verdict,
    /// What is to be said beside it.
    pub remarks: Vec<Remark>,
}

impl Stage {
    /// Judges a figure, or carries the reason why there is none.
    pub fn of(found: Result<(Figure, Vec<Remark>), Reason>, limit: Option<&Limit>) -> Self {
        let (figure, remarks) = match found {
            Ok(found) => found,
            Err(reason) => {
                let verdict = Verdict::NotDetermined(reason);
                return Self { figure: None, verdict, remarks: Vec::new() };
            }
        };
        let verdict = match limit {
            None => Verdict::NotDetermined(Reason::NoLimit),
            Some(limit) => figure.measured().judged(limit.judged_by()),
        };
        Self { figure: Some(figure), verdict, remarks }
    }
}

/// How far a figure moved by the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// After less before, in the unit of the line.
    pub amount: Decimal,
    /// True if the true change goes the same way and is at least this large.
    pub at_least: bool,
}

/// One figure of a check.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckResult {
    /// Which check of the sheet it comes from, counted from 0; `None` for torques and rides.
    pub typed: Option<usize>,
    /// What of several it is of, as typed: the screws of a torque.
    pub of: Option<String>,
    /// What the figure is.
    pub measure: Measure,
    /// Symbol of its unit; empty if it counts.
    pub unit: &'static str,
    /// As found.
    pub before: Option<Stage>,
    /// As left.
    pub after: Option<Stage>,
    /// What the work did.
    pub change: Option<Change>,
    /// The limit, if there is one.
    pub limit: Option<Limit>,
    /// How the figure was computed, if it is not read directly.
    pub method: Option<Method>,
    /// What is to be said of both.
    pub remarks: Vec<Remark>,
}

impl CheckResult {
    /// A line without figures.
    pub fn new(measure: Measure, unit: &'static str) -> Self {
        Self {
            typed: None,
            of: None,
            measure,
            unit,
            before: None,
            after: None,
            change: None,
            limit: None,
            method: None,
            remarks: Vec::new(),
        }
    }

    /// Sets the limit.
    #[must_use]
    pub fn limited(mut self, limit: Option<Limit>) -> Self {
        self.limit = limit;
        self
    }

    /// Sets the method.
    #[must_use]
    pub fn by(mut self, method: Method) -> Self {
        self.method = Some(method);
        self
    }

    /// Adds a remark.
    #[must_use]
    pub fn remark(mut self, remark: Remark) -> Self {
        self.remarks.push(remark);
        self
    }

    /// Judges the readings before and after, each by the same computation.
    #[must_use]
    pub fn judged(
        mut self,
        input: &Input,
        figure: impl Fn(&[Reading]) -> Result<(Figure, Vec<Remark>), Reason>,
    ) -> Self {
        let stage = |readings: &[Reading]| {
            (!readings.is_empty()).then(|| Stage::of(figure(readings), self.limit.as_ref()))
        };
        (self.before, self.after) = (stage(&input.before), stage(&input.after));
        self.with_change()
    }

    /// Takes the change from the two figures, if both are known outright.
    #[must_use]
    pub fn with_change(mut self) -> Self {
        let figure = |stage: &Option<Stage>| {
            let figure = stage.as_ref()?.figure.as_ref()?;
            figure.side.is_none().then_some(figure.value)
        };
        let both = figure(&self.before).zip(figure(&self.after));
        self.change =
            both.map(|(before, after)| Change { amount: after - before, at_least: false });
        self
    }
}
