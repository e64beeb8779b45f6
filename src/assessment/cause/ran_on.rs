//! Whether the unit was ridden on after the first damage, and whether the rider could notice it.
//!
//! In: weighed signs and the day of the first sign; out: [`RanOn`]. It is a claim about time, never
//! about a person: without a day it may only be worded as time run (rule 2 of the table of signs).

use chrono::NaiveDate;

use super::evidence::{Derivation, Evidence, Origin};
use super::scores::is_one_of;
use super::weighing::Weighed;

/// What can be said about running on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RanOn {
    /// Damage that needs running time, and a sign that the rider could notice from this day.
    Dated(NaiveDate),
    /// Damage that needs running time; whether it could be noticed cannot be told.
    Undated,
    /// No damage that needs running time was seen.
    No,
}

/// True where a sign is damage that comes only with running time after a first fault.
///
/// The list is rule 2's (SB15, SB16, SC13, SC14, SD08, SD11, SE23: `damage: secondary` in the
/// table), and SC04, rust pits rolled flat, whose caution says: water first, then ridden on.
pub fn needs_running_time(one: &Weighed) -> bool {
    let secondary = one.sign.0.damage.as_deref() == Some("secondary");
    one.seen && (secondary || is_one_of(one.sign, &["SC04"]))
}

/// What can be said about running on; a day needs a long history (SA15) and its date.
pub fn ran_on(signs: &[Weighed], evidence: &Evidence) -> RanOn {
    if !signs.iter().any(needs_running_time) {
        return RanOn::No;
    }
    let history = signs.iter().find(|one| one.seen && is_one_of(one.sign, &["SA15"]));
    let Some(history) = history else { return RanOn::Undated };
    let derived = history.origins.iter().find_map(|origin| match origin {
        Origin::Derived(Derivation::NoticedLongBefore(day)) => Some(*day),
        _ => None,
    });
    derived.or(evidence.noticed).map_or(RanOn::Undated, RanOn::Dated)
}
