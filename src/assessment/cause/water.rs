//! What shows that water or dirt came in: a trace inside, a way in, insulation that recovers.
//!
//! In: weighed signs; out: [`WaterProof`]. After rule 1 of the table of signs: a trace and a way in
//! by two signs, or the recovery; one alone only points to water. Engineering judgement, no source.

use super::scored_sign::{ScoredSign, SetAside, is_clear};
use super::scores::RootCause;
use super::site;
use crate::sheet::catalogue::sign::{Role, SignKind};

/// What rule 1 asks for before water is more than pointed to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WaterProof {
    /// Water or dirt inside, or its trace.
    pub trace: bool,
    /// A way in.
    pub path: bool,
    /// Insulation that came back on drying.
    pub recovery: bool,
    /// The trace and the way in are shown by two signs.
    pub apart: bool,
}

impl WaterProof {
    /// Looks for them.
    pub fn of(signs: &[ScoredSign]) -> Self {
        let traces: Vec<&ScoredSign> = signs.iter().filter(|one| is_trace(one)).collect();
        let ways: Vec<&ScoredSign> = signs.iter().filter(|one| is_way_in(one, signs)).collect();
        let differ = |one: &&ScoredSign| ways.iter().any(|way| way.sign != one.sign);
        Self {
            trace: !traces.is_empty(),
            path: !ways.is_empty(),
            recovery: signs.iter().any(|one| one.seen && one.sign.0.has(Role::Recovery)),
            apart: traces.iter().any(differ),
        }
    }

    /// Trace and way in, or recovery.
    pub fn holds(self) -> bool {
        (self.trace && self.path && self.apart) || self.recovery
    }
}

/// True if a sign is water, dirt or its trace inside, and may not have come in on the way.
pub fn is_trace(one: &ScoredSign) -> bool {
    one.sign.0.has(Role::WaterTrace)
        && one.sign.0.kind != SignKind::Told
        && one.set_aside != Some(SetAside::TransportWater)
        && is_clear(one, RootCause::Ingress)
}

/// True if a sign is a way in; a crack only on the casing half where the water was.
fn is_way_in(one: &ScoredSign, signs: &[ScoredSign]) -> bool {
    let is_crack = || one.sign.0.has(Role::Crack) && site::is_on_the_half_of_the_water(one, signs);
    one.speaks_for(RootCause::Ingress) && (one.sign.0.has(Role::WayIn) || is_crack())
}
