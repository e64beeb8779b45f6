//! The next checks: after how many kilometres, by which day, and how often after that.
//!
//! In: the table's intervals and a [`CareInput`]; out: [`NextCheck`]s. Of several rows the shortest
//! interval holds; of distance and calendar the earlier day. Miles and words are not here.

use chrono::{Days, Months, NaiveDate};
use rust_decimal::Decimal;

use super::input::CareInput;
use super::reason::Reason;
use super::table::{IntervalRow, Row, Source, TABLE};
use crate::sheet::vocabulary::Outcome;

/// Name of the check that a rider makes by hand.
pub const HAND_TEST: &str = "hand-test";

/// Name of the check that the workshop makes from outside.
pub const WORKSHOP_LOOK: &str = "workshop-look";

/// Name of the check of what holds the unit in the bike.
pub const FASTENINGS: &str = "fastenings";

/// A length of time by the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Span {
    /// Weeks.
    Weeks(u32),
    /// Calendar months; a day that the last month lacks becomes that month's last.
    Months(u32),
}

impl Span {
    /// For comparison only: a month counts 30 days.
    fn nominal_days(self) -> u64 {
        match self {
            Self::Weeks(weeks) => 7 * u64::from(weeks),
            Self::Months(months) => 30 * u64::from(months),
        }
    }

    fn after(self, from: NaiveDate) -> Option<NaiveDate> {
        match self {
            Self::Weeks(weeks) => from.checked_add_days(Days::new(7 * u64::from(weeks))),
            Self::Months(months) => from.checked_add_months(Months::new(months)),
        }
    }
}

/// A distance and a time, of which the one that comes first counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Interval {
    /// Kilometres.
    pub km: Decimal,
    /// Time.
    pub span: Span,
}

impl Interval {
    /// An interval as the table has it; weeks count if both are written, which a test forbids.
    fn of(row: IntervalRow) -> Self {
        let months = Span::Months(row.months.unwrap_or_default());
        Self { km: Decimal::from(row.km), span: row.weeks.map_or(months, Span::Weeks) }
    }

    /// The shorter distance and the shorter time of two.
    fn shorter(self, other: Self) -> Self {
        let is_sooner = other.span.nominal_days() < self.span.nominal_days();
        let span = if is_sooner { other.span } else { self.span };
        Self { km: self.km.min(other.km), span }
    }
}

/// What a check's day follows from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The rider's pace: the distance is reached before the time is over.
    Pace,
    /// The calendar alone.
    Calendar,
}

/// The next check of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NextCheck {
    /// Its name in the table and in the wordings.
    pub kind: &'static str,
    /// By which day; `None` only if the sheet has no day to count from.
    pub date: Option<NaiveDate>,
    /// What the day follows from.
    pub basis: Basis,
    /// After how many kilometres at the latest.
    pub after: Decimal,
    /// The reading, in kilometres, at which that is; `None` if it is not known, or if the
    /// reading belongs to the unit that stayed here.
    pub odometer: Option<Decimal>,
    /// How often after that; `None` for a check that is done once.
    pub every: Option<Interval>,
    /// What of this job makes the interval shorter than the usual one.
    pub because: Vec<Reason>,
    /// What the interval rests on.
    pub source: Source,
}

/// The next checks, the earliest first; of one day the one that comes after fewer kilometres. A unit
/// that must not be ridden has none.
pub fn checks(input: &CareInput) -> Vec<NextCheck> {
    if input.state.forbids_riding() {
        return Vec::new();
    }
    let mut kinds: Vec<&'static str> = Vec::new();
    for row in &TABLE.checks {
        if !kinds.contains(&row.name.as_str()) {
            kinds.push(&row.name);
        }
    }
    let mut checks: Vec<NextCheck> =
        kinds.into_iter().filter_map(|kind| next(kind, input)).collect();
    checks.sort_by_key(|check| (check.date, check.after));
    checks
}

/// A row that applies to a job.
#[derive(Clone, Debug)]
pub struct Applying {
    /// Why; empty for a row that is everybody's.
    pub because: Vec<Reason>,
    /// Until the next check: the shorter of its two intervals.
    pub next: Interval,
}

fn next(kind: &'static str, input: &CareInput) -> Option<NextCheck> {
    let (mut rows, mut applying): (Vec<&'static Row>, Vec<Applying>) = Default::default();
    for row in TABLE.checks.iter().filter(|row| row.name == kind) {
        let next = shortest(row.first.iter().chain(&row.every).copied());
        if let Some((because, next)) = row.applies_to(input).zip(next) {
            rows.push(row);
            applying.push(Applying { because, next });
        }
    }
    let next = applying.iter().map(|one| one.next).reduce(Interval::shorter)?;
    let (date, basis) = day(next, input);
    let is_exchanged = input.outcome == Some(Outcome::Exchanged);
    let ridden = input.ridden.filter(|_| !is_exchanged);
    Some(NextCheck {
        kind,
        date,
        basis,
        after: next.km,
        odometer: ridden.and_then(|ridden| ridden.checked_add(next.km)),
        every: shortest(rows.iter().filter_map(|row| row.every)),
        because: reasons(&applying, next),
        source: Source::of(rows.first()?),
    })
}

fn shortest(rows: impl Iterator<Item = IntervalRow>) -> Option<Interval> {
    rows.map(Interval::of).reduce(Interval::shorter)
}

/// The reasons of those rows that made the interval shorter than the rows for everybody do.
pub fn reasons(applying: &[Applying], next: Interval) -> Vec<Reason> {
    let usual = applying.iter().filter(|one| one.because.is_empty()).map(|one| one.next);
    let usual = usual.reduce(Interval::shorter);
    let is_nearer = usual.is_none_or(|usual| next.km != usual.km);
    let is_sooner = usual.is_none_or(|usual| next.span != usual.span);
    let mut reasons: Vec<Reason> = Vec::new();
    for one in applying {
        let shortens =
            (is_nearer && one.next.km == next.km) || (is_sooner && one.next.span == next.span);
        for reason in one.because.iter().filter(|_| shortens) {
            if !reasons.contains(reason) {
                reasons.push(*reason);
            }
        }
    }
    reasons
}

/// The earlier of the day by the rider's pace and the day by the calendar.
fn day(next: Interval, input: &CareInput) -> (Option<NaiveDate>, Basis) {
    let Some(from) = input.from else { return (None, Basis::Calendar) };
    let by_calendar = next.span.after(from);
    let by_pace = input.pace.as_ref().ok().and_then(|pace| pace.day_of(from, next.km));
    match by_pace {
        Some(day) if by_calendar.is_none_or(|calendar| day < calendar) => (Some(day), Basis::Pace),
        _ => (by_calendar, Basis::Calendar),
    }
}
