//! The ride as typed in the sheet, alone and beside its track.
//!
//! In: the sheet's `ride` block, exact decimals; out: [`TypedRide`], and the [`Remark`]s that sheet and
//! track give rise to. Readings against the limits of a place are a bench matter; wording is elsewhere.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::proof::{Proof, Unproven};
use super::recorded::Ride;
use super::rule;
use crate::sheet::findings;

/// Typed values in base units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TypedRide {
    /// Day of the ride.
    pub day: Option<NaiveDate>,
    /// Length in m.
    pub distance_m: Option<Decimal>,
    /// Height climbed in m.
    pub climb_m: Option<Decimal>,
    /// Speed at which the help stopped, in km/h.
    pub cut_off_kmh: Option<Decimal>,
}

/// What is worth saying of a ride.
#[derive(Clone, Debug, PartialEq)]
pub enum Remark {
    /// The ride does not prove the repair.
    Proof(Proof),
    /// The track was recorded more than a day from the typed day.
    OtherDay {
        /// Day of the track in UTC.
        recorded: NaiveDate,
        /// Day of the sheet.
        typed: NaiveDate,
    },
    /// Typed and recorded length differ by more than [`rule::AGREE`].
    OtherLength {
        /// Metres of the track.
        recorded: f64,
        /// Metres of the sheet.
        typed: Decimal,
    },
}

impl TypedRide {
    /// Takes the values of a sheet.
    pub fn of(ride: &findings::Ride) -> Self {
        Self {
            day: ride.date.as_ref().map(|date| date.value).filter(|d| d.is_known()).map(|d| d.0),
            distance_m: ride.distance.as_ref().map(|way| way.0.in_base()),
            climb_m: ride.climb.as_ref().map(|way| way.0.in_base()),
            cut_off_kmh: ride.cut_off.as_ref().map(|speed| speed.0.value.in_base()),
        }
    }

    /// What the typed values prove by themselves. A typed cut-off was ridden, hence fast enough.
    pub fn proof(&self) -> Proof {
        let Some(distance) = self.distance_m else {
            return Proof::NotDetermined(Unproven::NoLength);
        };
        let is_short = distance.to_f64().is_some_and(|metres| metres < rule::LENGTH.value);
        let walking = self.cut_off_kmh.and_then(|speed| speed.to_f64());
        match walking {
            _ if is_short => Proof::TooShort,
            Some(speed) if speed > rule::WALKING.value => Proof::Enough,
            _ => Proof::NotDetermined(Unproven::NoSpeed),
        }
    }
}

/// Remarks on a ride, from its sheet and, if there is one, its track.
pub fn compare(typed: &TypedRide, track: Option<&Ride>) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let proof = track.map_or_else(|| typed.proof(), |track| track.proof);
    if proof != Proof::Enough {
        remarks.push(Remark::Proof(proof));
    }
    if let (Some(recorded), Some(day)) = (track.and_then(|track| track.day), typed.day)
        && (recorded - day).num_days().abs() > 1
    {
        remarks.push(Remark::OtherDay { recorded, typed: day });
    }
    if let (Some(track), Some(length)) = (track, typed.distance_m)
        && let Some(metres) = length.to_f64()
        && (metres - track.distance_m).abs() * 100.0 > track.distance_m * rule::AGREE.value
    {
        remarks.push(Remark::OtherLength { recorded: track.distance_m, typed: length });
    }
    remarks
}
