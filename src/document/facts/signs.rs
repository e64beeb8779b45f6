//! What seen signs say of water, rust, blows and electrics: the groups of signs that license words.
//!
//! In: findings and the weighing; out: yes or no, and where. A sign counts only if it was seen.

use crate::assessment::cause::Weighing;
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::{Link, Role};
use crate::sheet::findings::Finding;
use crate::sheet::vocabulary::{Condition, OriginKind};

/// Rust on steel inside the unit.
pub(super) fn is_rust(sign: Sign) -> bool {
    sign.0.link == Link::SteelRust
}

/// Water, or what it left, inside the unit.
pub(super) fn is_water(sign: Sign) -> bool {
    sign.0.link == Link::Water && !sign.0.has(Role::WaterInferred)
}

/// Mud or sand inside the unit.
pub(super) fn is_mud(sign: Sign) -> bool {
    sign.0.has(Role::Mud)
}

/// The way that water took.
pub(super) fn is_way_in(sign: Sign) -> bool {
    sign.0.link == Link::Path
}

/// Water on contacts and boards.
pub(super) fn is_wet_contact(sign: Sign) -> bool {
    sign.0.link == Link::BoardCorrosion || is_water(sign)
}

/// Water seen without rust.
pub(super) fn is_without_rust(sign: Sign) -> bool {
    sign.0.has(Role::NoRustYet)
}

/// A blow from outside.
pub(super) fn is_blow(sign: Sign) -> bool {
    sign.0.origin == [OriginKind::Impact]
}

/// A burnt electronic switch.
pub(super) fn is_burnt_switch(sign: Sign) -> bool {
    sign.0.has(Role::BurntSwitch)
}

/// A fault of the winding, measured or seen.
pub(super) fn is_winding_fault(sign: Sign) -> bool {
    sign.0.link == Link::Winding
}

/// True if a sign of a kind was seen anywhere: at arrival, on a part, on the bench.
pub(super) fn seen(weighing: &Weighing, is_one: fn(Sign) -> bool) -> bool {
    weighing.signs.iter().any(|one| one.seen && is_one(one.sign))
}

/// True if a sign of a kind is on this part.
pub(super) fn shows(finding: &Finding, is_one: fn(Sign) -> bool) -> bool {
    finding.signs.iter().any(|sign| is_one(sign.value))
}

/// True if the part is worn, damaged, failed or missing.
pub fn is_harmed(finding: &Finding) -> bool {
    !matches!(finding.condition, Condition::Sound | Condition::NotExamined)
}

/// The finding that shows the way that water took, if one does.
pub fn way_in(findings: &[Finding]) -> Option<&Finding> {
    findings.iter().find(|finding| shows(finding, is_way_in))
}
