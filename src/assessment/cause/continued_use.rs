//! Whether the unit was ridden on after the first damage, and whether the rider could notice it.
//!
//! In: weighed signs and the day of the first sign; out: [`ContinuedUse`]. It is a claim about time, never
//! about a person: without a day it may only be worded as time run (rule 2 of the table of signs).

use chrono::NaiveDate;

use super::evidence::{Derivation, Evidence, Noticing, Origin};
use super::scored_sign::ScoredSign;
use crate::sheet::catalogue::sign::Role;

/// What can be said about running on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ContinuedUse {
    /// Damage that needs running time, and a sign that the rider could notice from this day.
    Dated(NaiveDate),
    /// Damage that needs running time; that the rider could notice it long before is not shown.
    Undated,
    /// No damage that needs running time was seen.
    No,
}

/// True if a sign is damage that comes only with running time after a first fault (rule 2).
pub fn needs_running_time(one: &ScoredSign) -> bool {
    one.seen && one.sign.0.has(Role::NeedsTime)
}

/// What can be said about running on; a day needs a long history and its date.
///
/// A history that is only claimed does not outweigh a day by which the rider came sooner.
pub fn continued_use(signs: &[ScoredSign], evidence: &Evidence) -> ContinuedUse {
    if !signs.iter().any(needs_running_time) {
        return ContinuedUse::No;
    }
    let history = signs.iter().find(|one| one.seen && one.sign.0.has(Role::History));
    let Some(history) = history else { return ContinuedUse::Undated };
    let derived = history.origins.iter().find_map(|origin| match origin {
        Origin::Derived(Derivation::NoticedLongBefore(day)) => Some(*day),
        _ => None,
    });
    let claimed = match evidence.noticing {
        Noticing::Promptly(_) | Noticing::Later(_) => None,
        Noticing::Unknown | Noticing::LongBefore(_) => evidence.noticed,
    };
    derived.or(claimed).map_or(ContinuedUse::Undated, ContinuedUse::Dated)
}
