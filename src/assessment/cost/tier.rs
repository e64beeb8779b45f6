//! How large a job was: the tier that follows from the listed work and is never typed.
//!
//! In: what was done to which part, and how the job ended; out: [`Tier`]. The five steps are common
//! practice, no source (T14, T15). Parts lists are typed text and not read for this.

use crate::sheet::catalogue::Part;
use crate::sheet::catalogue::group::{PartGroup, PartRole};
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::vocabulary::{Action, OptionKind, Outcome};

/// How large a job was, from small to large.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tier {
    /// At most one bearing and one seal.
    SingleBearing,
    /// More bearings or seals.
    Overhaul,
    /// Gears, shafts, sensors, boards and the like beside or without them.
    OverhaulPlusParts,
    /// Another unit went back.
    Exchange,
    /// Not repaired: every repair that was priced comes too near to the price of another unit.
    BeyondRepair,
}

impl Tier {
    /// The word for it: of the option that it answers to, or its own.
    pub fn word(self) -> &'static str {
        match self {
            Self::SingleBearing => OptionKind::SingleBearing.word(),
            Self::Overhaul => OptionKind::Overhaul.word(),
            Self::OverhaulPlusParts => OptionKind::OverhaulPlusParts.word(),
            Self::Exchange => OptionKind::Exchange.word(),
            Self::BeyondRepair => "beyond-economic-repair",
        }
    }

    /// The tier of a repair that was chosen; `None` for options that repair nothing.
    pub(super) fn of_repair(chose: OptionKind) -> Option<Self> {
        match chose {
            OptionKind::SingleBearing => Some(Self::SingleBearing),
            OptionKind::Overhaul => Some(Self::Overhaul),
            OptionKind::OverhaulPlusParts => Some(Self::OverhaulPlusParts),
            OptionKind::Exchange | OptionKind::NewUnit | OptionKind::ReturnAsItIs => None,
        }
    }
}

/// What a part is to the size of a job (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// A bearing.
    Bearing,
    /// A seal.
    Seal,
    /// Renewed whenever a case is opened: its gasket, its screws, the grease.
    Routine,
    /// What is not renewed in an overhaul unless it failed.
    Further,
    /// No part of the unit, or one that the catalogue lacks.
    Outside,
}

impl Role {
    pub(super) fn of(part: Part) -> Self {
        if part.has(PartRole::Routine) {
            return Self::Routine;
        }
        match part.group() {
            PartGroup::Bearings => Self::Bearing,
            PartGroup::Seals => Self::Seal,
            PartGroup::Fasteners => Self::Routine,
            PartGroup::OutsideTheUnit | PartGroup::Other => Self::Outside,
            PartGroup::Case
            | PartGroup::Gears
            | PartGroup::Clutch
            | PartGroup::Shaft
            | PartGroup::Sensors
            | PartGroup::Motor
            | PartGroup::Electronics
            | PartGroup::Wiring => Self::Further,
        }
    }
}

/// The parts that were replaced, repaired or added, each once, in the order of the findings.
pub(super) fn renewed(findings: &[Finding]) -> Vec<Part> {
    let is_renewed = |finding: &&Finding| {
        matches!(finding.action, Some(Action::Replaced | Action::Repaired | Action::Added))
    };
    let mut parts: Vec<Part> = Vec::new();
    for part in findings.iter().filter(is_renewed).map(|finding| finding.part.value) {
        if !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}

/// The tier of a repair by the parts that it renewed; `None` if nothing that counts was.
///
/// One further part makes it an overhaul with parts. Without one, a bearing with the seal before it
/// is still the small job, and two bearings or two seals are an overhaul (common practice, no
/// source).
pub fn of_findings(findings: &[Finding]) -> Option<Tier> {
    let parts = renewed(findings);
    let count = |role: Role| parts.iter().filter(|part| Role::of(**part) == role).count();
    match (count(Role::Bearing), count(Role::Seal), count(Role::Further)) {
        (_, _, 1..) => Some(Tier::OverhaulPlusParts),
        (0, 0, 0) => None,
        (0 | 1, 0 | 1, 0) => Some(Tier::SingleBearing),
        _ => Some(Tier::Overhaul),
    }
}

/// The tier of a job, or `None` if sheet and outcome do not say.
///
/// A unit that was exchanged is that; one that was repaired is what the findings list; one that is
/// not repaired is beyond economic repair if `is_beyond` holds, and nothing otherwise. While the
/// job is open the findings come first.
pub fn tier(fields: &FindingsSheet, is_beyond: bool) -> Option<Tier> {
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let beyond = is_beyond.then_some(Tier::BeyondRepair);
    match fields.outcome.as_ref().map(|outcome| outcome.value) {
        Some(Outcome::Exchanged) => Some(Tier::Exchange),
        Some(Outcome::Repaired | Outcome::Serviced) => of_findings(findings),
        Some(Outcome::ReturnedUnrepaired) => beyond,
        Some(Outcome::NoFaultFound) => None,
        None if fields.exchange.is_some() => Some(Tier::Exchange),
        None => of_findings(findings).or(beyond),
    }
}

/// True if the option chosen is not what the listed work comes to.
///
/// More than was chosen is reported at once, less only when the job has ended: until then findings are
/// still being written.
pub(super) fn disagrees(chose: OptionKind, tier: Tier, has_ended: bool) -> bool {
    match (Tier::of_repair(chose), tier) {
        // Before the work, a repair that is too expensive is reported separately.
        (Some(_), Tier::BeyondRepair) => has_ended,
        (Some(chosen), listed) => chosen < listed || (listed < chosen && has_ended),
        (None, Tier::BeyondRepair) => false,
        (None, Tier::Exchange) => chose == OptionKind::ReturnAsItIs,
        (None, _) => true,
    }
}
