//! Gathers what is known about a job: signs seen, signs looked for and not found, days.
//!
//! In: a sheet's typed fields and signs that other stages found (bench); out: [`Evidence`]. Silence
//! is *not examined* and gives nothing. Free text is never read for signs.

use std::ops::Range;

use chrono::{Months, NaiveDate};
use rust_decimal::Decimal;

use super::scores::by_ref;
use crate::sheet::catalogue::{Part, Sign};
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
        /// The part it stands on.
        part: Part,
        /// True where the finding has a photo as found.
        has_photo: bool,
        /// Bytes of the sheet's text.
        span: Range<usize>,
    },
    /// The list of signs that were looked for and not found.
    NotSeenList(Range<usize>),
    /// Signs on the whole unit at arrival.
    Arrival {
        /// True where the arrival has a photo.
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
    /// `arrival: water:` above zero (SA01).
    WaterPoured,
    /// `unit: washed-with: pressure-washer` (SA14).
    WashedWithJet,
    /// `arrival: noticed:` noise, feel or play, more than two months or 300 km before arrival (SA15).
    NoticedLongBefore(NaiveDate),
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
    /// True where a bench check has a reading as found.
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
        let not_seen = strip.iter().flat_map(|strip| &strip.not_seen);
        Self {
            seen,
            not_seen: not_seen
                .map(|sign| (sign.value, Origin::NotSeenList(sign.span.clone())))
                .collect(),
            noticed: sheet.arrival.noticed.as_ref().and_then(day),
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
    let mut add = |short: &str, how: Derivation| {
        found.extend(by_ref(short).map(|sign| (sign, Origin::Derived(how))));
    };
    let arrival = &sheet.arrival;
    if arrival.water.as_ref().is_some_and(|water| water.0.number > Decimal::ZERO) {
        add("SA01", Derivation::WaterPoured);
    }
    if sheet.unit.washed_with == Some(Washing::PressureWasher) {
        add("SA14", Derivation::WashedWithJet);
    }
    if let Some(noticed) = &arrival.noticed
        && matches!(noticed.sign, NoticedSign::Noise | NoticedSign::Feel | NoticedSign::Play)
        && arrival.date.is_known()
        && let Some(since) = day(noticed)
        && (is_long(since, arrival.date.0) || is_far(noticed, &sheet.unit))
    {
        add("SA15", Derivation::NoticedLongBefore(since));
    }
    found
}

/// More than two calendar months: the first bound of SA15, workshop judgement.
fn is_long(since: NaiveDate, until: NaiveDate) -> bool {
    since.checked_add_months(Months::new(2)).is_some_and(|end| end < until)
}

/// More than 300 km: the other bound of SA15. A distance alone gives no day, so it needs one beside it.
fn is_far(noticed: &Noticed, unit: &Unit) -> bool {
    let metres = |way: &Distance| way.0.number.checked_mul(way.0.unit.factor());
    let then = noticed.at.as_ref().and_then(metres);
    let now = unit.ridden.as_ref().and_then(metres);
    now.zip(then)
        .and_then(|(now, then)| now.checked_sub(then))
        .is_some_and(|since| since > Decimal::from(300_000))
}
