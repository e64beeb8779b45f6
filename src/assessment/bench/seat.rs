//! Seats of bearings: a shaft's or housing's size against its tolerance zone, and the fit it makes.
//!
//! Zones of ISO 286-2; which zone is usual if none is typed follows bearing makers' tables. Shape and roughness of the seat are not judged.

use rust_decimal::Decimal;

use super::bearing::Bearing;
use super::check_result::{CheckResult, Figure};
use super::fit::{Deviations, Fit, bearing_bore, bearing_outside, is_zone, zone};
use super::input::Input;
use super::measure::Measure;
use super::reading::worst;
use super::remark::Remark;
use super::shop_limits::ShopLimits;
use super::verdict::{Bounds, Limit, Reason};
use crate::assessment::sources::SourceId;
use crate::sheet::vocabulary::TurningRing;

/// The two kinds of seat.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Seat {
    Shaft,
    Housing,
}

/// A seat with all that follows from bearing and zone.
struct Known {
    nominal: u32,
    limit: Limit,
    /// Of the bearing's ring; `None` for a finer bearing.
    ring: Option<Deviations>,
    remarks: Vec<Remark>,
}

/// The seat of an inner ring.
pub fn shaft(input: &Input, _: &ShopLimits) -> Vec<CheckResult> {
    vec![run(input, Seat::Shaft)]
}

/// The seat of an outer ring.
pub fn housing(input: &Input, _: &ShopLimits) -> Vec<CheckResult> {
    vec![run(input, Seat::Housing)]
}

fn run(input: &Input, seat: Seat) -> CheckResult {
    let known = known(input, seat);
    let mut line = CheckResult::new(Measure::Of(input.check), "mm");
    if let Ok(known) = &known {
        line = line.limited(Some(known.limit.clone()));
        line.remarks.clone_from(&known.remarks);
    }
    line.judged(input, |readings| {
        let known = known.as_ref().map_err(Clone::clone)?;
        let size = worst(readings, Decimal::ONE, known.limit.bounds)?;
        let off = (size.value - Decimal::from(known.nominal)) * Decimal::ONE_THOUSAND;
        let spread = size.uncertainty.unwrap_or_default() * Decimal::ONE_THOUSAND;
        let own = Deviations { lower: off - spread, upper: off + spread };
        let fit = known
            .ring
            .filter(|_| size.side.is_none())
            .map(|ring| Remark::FitAsMeasured(seat.fit(own, ring)));
        Ok((Figure::read(size), fit.into_iter().collect()))
    })
}

impl Seat {
    fn fit(self, own: Deviations, ring: Deviations) -> Fit {
        match self {
            Self::Shaft => Fit::of(own, ring),
            Self::Housing => Fit::of(ring, own),
        }
    }

    /// js5 up to 18 mm and k5 above for a turning inner ring, N7 for a turning outer ring, all
    /// under normal load; for the ring that stands still h6 and H7.
    fn usual_zone(self, turning: TurningRing, nominal: u32) -> &'static str {
        match (self, turning) {
            (Self::Shaft, TurningRing::Inner) if nominal <= 18 => "js5",
            (Self::Shaft, TurningRing::Inner) => "k5",
            (Self::Shaft, TurningRing::Outer) => "h6",
            (Self::Housing, TurningRing::Inner) => "H7",
            (Self::Housing, TurningRing::Outer) => "N7",
        }
    }

    /// Small letters are zones of shafts, capitals of holes.
    fn takes(self, zone: &str) -> bool {
        zone.starts_with(|c: char| c.is_ascii_uppercase()) == (self == Self::Housing)
    }
}

fn known(input: &Input, seat: Seat) -> Result<Known, Reason> {
    let designation = input.bearing.as_ref().ok_or(Reason::MissingBearing)?;
    let bearing = Bearing::by_number(designation).ok_or(Reason::UnknownBearing)?;
    let nominal = match seat {
        Seat::Shaft => bearing.bore,
        Seat::Housing => bearing.size.ok_or(Reason::NotInTable)?.outside,
    };
    let mut remarks = Vec::new();
    let name = match (&input.zone, input.turning) {
        (Some(typed), _) if is_zone(typed) && seat.takes(typed) => typed.as_str(),
        (Some(_), _) => return Err(Reason::UnknownZone),
        (None, Some(turning)) => {
            let usual = seat.usual_zone(turning, nominal);
            remarks.push(Remark::UsualZone(usual));
            usual
        }
        (None, None) => return Err(Reason::MissingZone),
    };
    let own = zone(name, nominal).ok_or(Reason::NotInTable)?;
    let ring = match seat {
        Seat::Shaft => bearing_bore(nominal),
        Seat::Housing => bearing_outside(nominal),
    };
    let ring = ring.filter(|_| !bearing.is_finer);
    remarks.push(ring.map_or(Remark::FinerBearing, |ring| Remark::FitOfZone(seat.fit(own, ring))));
    let size = |off: Decimal| Decimal::from(nominal) + off / Decimal::ONE_THOUSAND;
    let bounds = Bounds::Between(size(own.lower), size(own.upper));
    let limit = Limit::published(bounds, SourceId::Zones);
    Ok(Known { nominal, limit, ring, remarks })
}
