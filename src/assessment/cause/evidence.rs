//! Gathers what is known about a job: signs seen, signs looked for and not found, days.
//!
//! In: a sheet's typed fields and signs that other stages found (bench); out: [`Evidence`]. Silence
//! is *not examined* and gives nothing. Free text is never read for signs.

use std::ops::Range;

use chrono::{Days, Months, NaiveDate};
use rust_decimal::Decimal;

use crate::sheet::catalogue::sign::SheetField;
use crate::sheet::catalogue::{Part, SIGNS, Sign};
use crate::sheet::findings::{FindingsSheet, Noticed, Unit};
use crate::sheet::quantity::Distance;
use crate::sheet::reader::Marked;
use crate::sheet::vocabulary::{CheckKind, NoticedSign, Washing};

/// Where a sign comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// A finding of the strip-down.
    Finding {
        /// Place of the finding in the sheet, from 0.
        finding: usize,
        /// The part that it is on.
        part: Part,
        /// True if the finding has a photo as found.
        has_photo: bool,
        /// Bytes of the sheet's text.
        span: Range<usize>,
    },
    /// The list of signs that were looked for and not found.
    NotSeenList(Range<usize>),
    /// Signs on the whole unit at arrival.
    Arrival {
        /// True if the arrival has a photo.
        has_photo: bool,
        /// Bytes of the sheet's text.
        span: Range<usize>,
    },
    /// Derived from a typed field of the sheet.
    Derived(Derivation),
    /// Derived from a bench reading.
    Bench(CheckKind),
}

/// A typed field that carries a sign by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Derivation {
    /// `arrival: water:` above zero.
    WaterPoured,
    /// `unit: washed-with: pressure-washer`.
    WashedWithJet,
    /// `arrival: noticed:` noise, feel or play, more than two months or 300 km before arrival.
    NoticedLongBefore(NaiveDate),
}

/// How long before arrival the rider noticed a first sign.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Noticing {
    /// No day is known.
    #[default]
    Unknown,
    /// At most 14 days and less than 100 km before: the rider came promptly. Common practice, no
    /// source.
    Promptly(NaiveDate),
    /// Longer than that, and not long before.
    Later(NaiveDate),
    /// Something to hear or feel, more than two months or 300 km before.
    LongBefore(NaiveDate),
}

/// What the weighing starts from.
#[derive(Clone, Debug, Default)]
pub struct Evidence {
    /// Signs that were observed; a sign may come more than once.
    pub seen: Vec<(Sign, Origin)>,
    /// Signs that were looked for and not found.
    pub not_seen: Vec<(Sign, Origin)>,
    /// Day on which the rider noticed a first sign.
    pub noticed: Option<NaiveDate>,
    /// How long before arrival that was.
    pub noticing: Noticing,
    /// True if a bench check has a reading as found.
    pub has_readings: bool,
}

impl Evidence {
    /// Gathers the evidence of a sheet; `extra` are signs that other stages found.
    pub fn gather(sheet: &FindingsSheet, extra: Vec<(Sign, Origin)>) -> Self {
        let has_photo = !sheet.arrival.photos.is_empty();
        let arrived = |sign: &Marked<Sign>| {
            (sign.value, Origin::Arrival { has_photo, span: sign.span.clone() })
        };
        let mut seen: Vec<(Sign, Origin)> = sheet.arrival.signs.iter().map(arrived).collect();
        let strip = sheet.strip_down.as_ref();
        for (at, finding) in strip.iter().flat_map(|strip| &strip.findings).enumerate() {
            let origin = |span: &Range<usize>| Origin::Finding {
                finding: at,
                part: finding.part.value,
                has_photo: !finding.photos.is_empty(),
                span: span.clone(),
            };
            seen.extend(finding.signs.iter().map(|sign| (sign.value, origin(&sign.span))));
        }
        seen.extend(derived(sheet));
        seen.extend(extra);
        let not_seen = strip.iter().flat_map(|strip| &strip.looked_for_absent);
        Self {
            seen,
            not_seen: not_seen
                .map(|sign| (sign.value, Origin::NotSeenList(sign.span.clone())))
                .collect(),
            noticed: sheet.arrival.first_noticed.as_ref().and_then(day),
            noticing: noticing(sheet),
            has_readings: sheet.bench.iter().any(|check| !check.before.is_empty()),
        }
    }
}

fn day(noticed: &Noticed) -> Option<NaiveDate> {
    noticed.date.as_ref().filter(|date| date.is_known()).map(|date| date.0)
}

/// The signs that typed fields carry.
fn derived(sheet: &FindingsSheet) -> Vec<(Sign, Origin)> {
    let mut found = Vec::new();
    let mut add = |field: SheetField, how: Derivation| {
        let row = SIGNS.iter().find(|row| row.field == Some(field));
        found.extend(row.map(|row| (Sign(row), Origin::Derived(how))));
    };
    if sheet.arrival.water.as_ref().is_some_and(|water| water.0.number > Decimal::ZERO) {
        add(SheetField::ArrivalWater, Derivation::WaterPoured);
    }
    if sheet.unit.washed_with == Some(Washing::PressureWasher) {
        add(SheetField::WashedWithJet, Derivation::WashedWithJet);
    }
    if let Noticing::LongBefore(since) = noticing(sheet) {
        add(SheetField::NoticedLongBefore, Derivation::NoticedLongBefore(since));
    }
    found
}

/// How long before arrival the rider noticed a first sign.
fn noticing(sheet: &FindingsSheet) -> Noticing {
    let arrival = &sheet.arrival;
    let Some(noticed) = arrival.first_noticed.as_ref().filter(|_| arrival.date.is_known()) else {
        return Noticing::Unknown;
    };
    let Some(since) = day(noticed) else { return Noticing::Unknown };
    let gone = metres_since(noticed, &sheet.unit);
    let can_be_felt =
        matches!(noticed.sign, NoticedSign::Noise | NoticedSign::Feel | NoticedSign::Play);
    let is_far = gone.is_some_and(|gone| gone > Decimal::from(300_000));
    let is_near = gone.is_none_or(|gone| gone < Decimal::from(100_000));
    if can_be_felt && (is_long(since, arrival.date.0) || is_far) {
        Noticing::LongBefore(since)
    } else if is_near && is_recent(since, arrival.date.0) {
        Noticing::Promptly(since)
    } else {
        Noticing::Later(since)
    }
}

/// More than two calendar months: the first bound of a long history, workshop judgement.
///
/// The other is 300 km. A distance alone gives no day, so it needs one beside it.
fn is_long(since: NaiveDate, until: NaiveDate) -> bool {
    since.checked_add_months(Months::new(2)).is_some_and(|end| end < until)
}

/// At most 14 days: common practice, no source.
fn is_recent(since: NaiveDate, until: NaiveDate) -> bool {
    since.checked_add_days(Days::new(14)).is_some_and(|end| until <= end)
}

/// Metres ridden since a first sign was noticed, if both distances are known.
fn metres_since(noticed: &Noticed, unit: &Unit) -> Option<Decimal> {
    let metres = |way: &Distance| way.0.number.checked_mul(way.0.unit.factor());
    let then = noticed.at.as_ref().and_then(metres)?;
    unit.mileage.as_ref().and_then(metres)?.checked_sub(then)
}
