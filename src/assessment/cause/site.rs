//! Where a sign is, and what a sign of good order clears: its own place, nothing else.
//!
//! In: weighed signs; out: whether one clears another, and whether a crack is where the water was.

use super::evidence::Origin;
use super::scored_sign::ScoredSign;
use crate::sheet::catalogue::Part;
use crate::sheet::catalogue::group::{PartGroup, SignPlace};
use crate::sheet::catalogue::sign::{Link, Role};

/// Part groups whose parts are separate, so that one says nothing of the next.
const EACH_BY_ITSELF: [PartGroup; 5] = [
    PartGroup::Bearings,
    PartGroup::Seals,
    PartGroup::Sensors,
    PartGroup::Wiring,
    PartGroup::Shaft,
];

/// Part groups that grease and bearings in good order show to be dry behind a seal.
const BEHIND_A_SEAL: [PartGroup; 3] = [PartGroup::Bearings, PartGroup::Gears, PartGroup::Clutch];

/// Side of the chain or the other one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Where the chain runs.
    Drive,
    /// The other one.
    NonDrive,
}

/// The side of a part, by its name.
pub fn side(part: Part) -> Option<Side> {
    let name = part.name();
    if name.ends_with("non-drive-side") {
        Some(Side::NonDrive)
    } else if name.ends_with("drive-side") {
        Some(Side::Drive)
    } else {
        None
    }
}

/// The parts that a sign was found on; none if it is of the whole unit or of a bench.
pub fn parts(one: &ScoredSign) -> impl Iterator<Item = Part> {
    one.origins.iter().filter_map(|origin| match origin {
        Origin::Finding { part, .. } => Some(*part),
        _ => None,
    })
}

fn are_opposite(one: Part, other: Part) -> bool {
    side(one).zip(side(other)).is_some_and(|(one, other)| one != other)
}

/// True if a sign of good order clears the place, or every place, of another sign.
///
/// History of wet rides is of no place and is cleared by whatever is in order.
pub fn clears(clear: &ScoredSign, other: &ScoredSign) -> bool {
    if other.link == Link::WetHistory {
        return true;
    }
    let mut places = parts(other).peekable();
    if places.peek().is_none() {
        let on = &other.sign.0.on;
        let is_placed = !on.contains(&SignPlace::Unit);
        return is_placed && on.iter().any(|place| clear.sign.0.on.contains(place));
    }
    places.all(|place| clears_part(clear, other, place))
}

fn clears_part(clear: &ScoredSign, other: &ScoredSign, place: Part) -> bool {
    let group = place.group();
    let is_dry_behind = |part: Part| {
        let is_seal = other.link == Link::Path && group == PartGroup::Seals;
        is_seal
            && !other.sign.0.on.contains(&SignPlace::On(PartGroup::Wiring))
            && BEHIND_A_SEAL.contains(&part.group())
            && !are_opposite(part, place)
    };
    let mut cleared = parts(clear).peekable();
    if cleared.peek().is_none() {
        return clear.sign.0.on.contains(&SignPlace::On(group));
    }
    cleared.any(|part| {
        let is_same_group = part.group() == group && !EACH_BY_ITSELF.contains(&group);
        part == place || is_same_group || is_dry_behind(part)
    })
}

/// True if a crack is on the casing half where water or its trace was found, as far as both say
/// on which side they are.
pub fn is_on_the_half_of_the_water(crack: &ScoredSign, signs: &[ScoredSign]) -> bool {
    let traces = signs.iter().filter(|one| one.seen && one.sign.0.has(Role::WaterTrace));
    let sided: Vec<Part> = traces.flat_map(parts).filter(|part| side(*part).is_some()).collect();
    let is_opposite =
        |part: Part| !sided.is_empty() && sided.iter().all(|trace| are_opposite(*trace, part));
    let mut places = parts(crack).peekable();
    places.peek().is_none() || places.any(|part| !is_opposite(part))
}

/// True if two signs were found on one and the same part.
pub fn share_a_part(one: &ScoredSign, other: &ScoredSign) -> bool {
    parts(one).any(|part| parts(other).any(|own| own == part))
}
