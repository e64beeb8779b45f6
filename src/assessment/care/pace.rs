//! How many kilometres a day a rider covers, and on which day a distance will be reached.
//!
//! In: the dated distances of a sheet; out: [`Pace`], exact, or [`NoPace`] with its reason. A pace
//! is never guessed, not even if the sheet contradicts itself.

use chrono::{Days, NaiveDate};
use rust_decimal::Decimal;

use crate::sheet::date::Date;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::quantity::Distance;

/// Kilometres a day above which a date or a distance must be mistaken (judgement, no source).
const MOST_A_DAY: Decimal = Decimal::from_parts(150, 0, 0, false, 0);

/// Days below which a few rides more or less would decide the pace (judgement, no source).
const LEAST_DAYS: i64 = 14;

/// Kilometres over days.
#[derive(Clone, Debug, PartialEq)]
pub struct Pace {
    /// Kilometres that were ridden.
    pub km: Decimal,
    /// Days in which they were: at least 14.
    pub days: i64,
}

/// Why there is no pace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoPace {
    /// The sheet does not have two dated distances.
    TooFewPoints,
    /// The second day is not after the first.
    DaysOutOfOrder,
    /// Too few days are between.
    TooShort,
    /// No kilometre was ridden in between, or fewer than none.
    NotRidden,
    /// More kilometres a day than anybody rides.
    Absurd,
}

/// A day and the kilometres that the unit had then.
pub type Point = (NaiveDate, Decimal);

impl Pace {
    /// The pace between the first and the last of a sheet's dated distances: nothing on the first
    /// day of use, what stood on the bike at the first sign, what stood there on arrival.
    ///
    /// # Errors
    /// Why it is not known.
    pub fn of(fields: &FindingsSheet) -> Result<Self, NoPace> {
        let (unit, arrival) = (&fields.unit, &fields.arrival);
        let noticed = arrival.first_noticed.as_ref();
        let point = |date: Option<Date>, km: Option<Decimal>| {
            date.filter(|date| date.is_known()).map(|date| date.0).zip(km)
        };
        let km = |distance: Option<&Distance>| distance.and_then(kilometres);
        let noticed_on = noticed.and_then(|noticed| noticed.date.as_ref());
        let points = [
            point(unit.in_use_since.as_ref().map(|date| date.value), Some(Decimal::ZERO)),
            point(
                noticed_on.map(|date| date.value),
                km(noticed.and_then(|noticed| noticed.at.as_ref())),
            ),
            point(Some(arrival.date.value), km(unit.mileage.as_ref())),
        ];
        let points: Vec<Point> = points.into_iter().flatten().collect();
        match points.as_slice() {
            [first, .., last] => Self::between(*first, *last),
            _ => Err(NoPace::TooFewPoints),
        }
    }

    /// The pace between two dated distances.
    ///
    /// # Errors
    /// Why there is none.
    pub fn between(first: Point, last: Point) -> Result<Self, NoPace> {
        let days = (last.0 - first.0).num_days();
        let km = last.1.checked_sub(first.1).ok_or(NoPace::Absurd)?;
        if days <= 0 {
            return Err(NoPace::DaysOutOfOrder);
        }
        if km <= Decimal::ZERO {
            return Err(NoPace::NotRidden);
        }
        if MOST_A_DAY * Decimal::from(days) < km {
            return Err(NoPace::Absurd);
        }
        if days < LEAST_DAYS {
            return Err(NoPace::TooShort);
        }
        Ok(Self { km, days })
    }

    /// Kilometres a day, to one decimal place, for print.
    pub fn km_a_day(&self) -> Decimal {
        self.km.checked_div(Decimal::from(self.days)).unwrap_or_default().round_dp(1)
    }

    /// Whole days in which a distance is surely not yet exceeded; `None` beyond all calendars.
    pub fn days_for(&self, km: Decimal) -> Option<u64> {
        let days = km.checked_mul(Decimal::from(self.days))?.checked_div(self.km)?;
        u64::try_from(days.floor()).ok()
    }

    /// The day on which a distance is reached, rounded down to whole weeks, so that a check comes
    /// early rather than late; under a week to whole days, and at least one.
    pub fn day_of(&self, from: NaiveDate, km: Decimal) -> Option<NaiveDate> {
        let days = self.days_for(km)?;
        let days = if days < 7 { days.max(1) } else { days - days % 7 };
        from.checked_add_days(Days::new(days))
    }
}

/// A distance in kilometres.
pub fn kilometres(distance: &Distance) -> Option<Decimal> {
    distance.0.in_base().checked_div(Decimal::ONE_THOUSAND)
}
