//! Where a mechanical or electrical fault comes from: which of the signs support which origin.
//!
//! In: weighed signs; out: the origins with their signs. They say what kind of fault it is, not whose:
//! a stated origin that no sign shows is a warning. Engineering judgement, no source.
//!
//! What follows a first event wears, so first events come before the number of signs (rule 5): screws
//! found loose are where it began, however many teeth wore crooked after it.

use std::cmp::Reverse;

use super::scored_sign::ScoredSign;
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::Damage;
use crate::sheet::vocabulary::{CauseKind, OriginKind};

/// The origins that seen signs support, each with its signs; the one with most first events
/// comes first, of equals the one with most signs.
pub fn origins(signs: &[ScoredSign]) -> Vec<(OriginKind, Vec<Sign>)> {
    let speak = |kind: OriginKind| -> Vec<Sign> {
        let speaks = |one: &&ScoredSign| one.seen && one.sign.0.origin.contains(&kind);
        signs.iter().filter(speaks).map(|one| one.sign).collect()
    };
    let mut origins: Vec<(OriginKind, Vec<Sign>)> =
        OriginKind::ALL.iter().map(|kind| (*kind, speak(*kind))).collect();
    origins.retain(|(_, signs)| !signs.is_empty());
    let is_first = |sign: &&Sign| sign.0.damage == Some(Damage::Primary);
    let firsts = |signs: &[Sign]| signs.iter().filter(is_first).count();
    origins.sort_by_key(|(kind, signs)| (Reverse((firsts(signs), signs.len())), *kind));
    origins
}

/// True if an origin can be stated beside a main cause.
pub fn fits(origin: OriginKind, main: CauseKind) -> bool {
    match main {
        CauseKind::Mechanical => true,
        CauseKind::Electrical => !matches!(origin, OriginKind::Wear | OriginKind::Impact),
        _ => false,
    }
}
