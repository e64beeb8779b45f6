//! In which state the unit goes back: dangers that are open, whether it may be ridden, water in it.
//!
//! In: a findings sheet and the signs that can hurt somebody; out: [`State`]. A part that was
//! renewed, or that stays here with an exchanged unit, is not part of it. Words are not here.

use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::group::{PartGroup, PartRole};
use crate::sheet::catalogue::sign::Link;
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::vocabulary::{Action, BatteryState, Condition, Outcome};

/// What an open danger forbids.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hazard {
    /// The battery must not be charged.
    Battery,
    /// The bike must not be ridden.
    Ride,
}

impl Hazard {
    /// Its word in the table of care rules and in the wordings.
    pub fn word(self) -> &'static str {
        match self {
            Self::Battery => "battery",
            Self::Ride => "ride",
        }
    }
}

/// A sign that can hurt somebody, on a part that goes back as it was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Danger {
    /// The sign.
    pub sign: Sign,
    /// What it forbids.
    pub hazard: Hazard,
}

/// Whether the unit may be ridden as it goes back, by the parts that are left as they were found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fitness {
    /// No part was judged, so nothing can be said.
    NotOpened,
    /// No harmed part is left in it.
    Fit,
    /// A worn or damaged part is left in it, which still does its work.
    Worn,
    /// An electrical part no longer does its work; no part that carries load does.
    Dead,
    /// A part that carries load no longer does its work, or a danger forbids to ride.
    NotFit,
}

impl Fitness {
    /// Its word in the table of care rules.
    pub fn word(self) -> &'static str {
        match self {
            Self::NotOpened => "not-opened",
            Self::Fit => "fit",
            Self::Worn => "worn",
            Self::Dead => "dead",
            Self::NotFit => "not-fit",
        }
    }
}

/// The state of the unit and of the battery that came with it.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// Open dangers, in the order of the signs given.
    pub dangers: Vec<Danger>,
    /// Whether it may be ridden.
    pub fitness: Fitness,
    /// True if water was found in or on it.
    pub water: bool,
    /// True if rust on steel was found in it.
    pub rust: bool,
    /// True if the battery is wet.
    pub battery_is_wet: bool,
}

impl Default for State {
    /// A unit with nothing known that needs care.
    fn default() -> Self {
        Self {
            dangers: Vec::new(),
            fitness: Fitness::Fit,
            water: false,
            rust: false,
            battery_is_wet: false,
        }
    }
}

impl State {
    /// Gathers it. `safety` are the signs that can hurt somebody, as the weighing of causes has them.
    pub fn of(fields: &FindingsSheet, safety: &[Sign]) -> Self {
        let outcome = fields.outcome.as_ref().map(|outcome| outcome.value);
        let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
        let left: Vec<&Finding> =
            findings.iter().filter(|finding| is_left(finding, outcome)).collect();
        let dangers = dangers(findings, outcome, safety);
        let arrival = &fields.arrival;
        let is_of = |link: Link| {
            let seen = findings.iter().flat_map(|finding| &finding.signs).chain(&arrival.signs);
            seen.map(|sign| sign.value.0).any(|row| row.link == link)
        };
        let poured = arrival.water.as_ref().is_some_and(|water| !water.0.number.is_zero());
        let battery = arrival.bike_check.as_ref().and_then(|check| check.battery);
        let is_soaked = findings.iter().any(|finding| {
            is_battery(finding) && finding.signs.iter().any(|sign| is_wet(sign.value))
        });
        Self {
            fitness: fitness(findings, &left, &dangers),
            dangers,
            water: poured || is_of(Link::Water),
            rust: is_of(Link::SteelRust),
            battery_is_wet: battery == Some(BatteryState::Wet) || is_soaked,
        }
    }

    /// True if a danger forbids to ride.
    pub fn forbids_riding(&self) -> bool {
        self.dangers.iter().any(|danger| danger.hazard == Hazard::Ride)
    }
}

/// True if a part goes back to the owner. Parts of the unit stay here with it when it is exchanged.
fn goes_back(finding: &Finding, outcome: Option<Outcome>) -> bool {
    let is_of_bike =
        matches!(finding.part.group(), PartGroup::OutsideTheUnit | PartGroup::Fasteners);
    outcome != Some(Outcome::Exchanged) || is_of_bike
}

/// True if a part goes back as it was found.
fn is_left(finding: &Finding, outcome: Option<Outcome>) -> bool {
    let is_mended =
        matches!(finding.action, Some(Action::Replaced | Action::Repaired | Action::Added));
    goes_back(finding, outcome) && !is_mended
}

/// A danger is closed only if each part that shows it was renewed or stays here: a mended axle
/// is still one that a qualified person has to look at.
fn dangers(findings: &[Finding], outcome: Option<Outcome>, safety: &[Sign]) -> Vec<Danger> {
    let mut dangers: Vec<Danger> = Vec::new();
    for sign in safety.iter().copied() {
        let shows = |one: &&Finding| one.signs.iter().any(|own| own.value == sign);
        let is_open =
            |one: &&Finding| goes_back(one, outcome) && one.action != Some(Action::Replaced);
        let mut bearers = findings.iter().filter(shows).peekable();
        let is_battery = sign.0.link == Link::Battery;
        // A sign on the whole unit stays here with it; the battery is the owner's.
        let is_left = match bearers.peek() {
            None => is_battery || outcome != Some(Outcome::Exchanged),
            Some(_) => bearers.any(|one| is_open(&one)),
        };
        if is_left {
            let hazard = if is_battery { Hazard::Battery } else { Hazard::Ride };
            dangers.push(Danger { sign, hazard });
        }
    }
    dangers
}

fn fitness(findings: &[Finding], left: &[&Finding], dangers: &[Danger]) -> Fitness {
    let is_out =
        |finding: &Finding| matches!(finding.condition, Condition::Failed | Condition::Missing);
    let is_electrical = |finding: &Finding| {
        PartGroup::ELECTRICAL.contains(&finding.part.group())
            || [PartRole::Winding, PartRole::Battery, PartRole::Display]
                .iter()
                .any(|role| finding.part.has(*role))
    };
    let carries_load =
        |finding: &Finding| !is_electrical(finding) && finding.part.group() != PartGroup::Seals;
    let is_worn = |finding: &Finding| {
        is_out(finding) || matches!(finding.condition, Condition::Worn | Condition::Damaged)
    };
    let has = |is_one: &dyn Fn(&Finding) -> bool| left.iter().any(|finding| is_one(finding));
    let rides_not = dangers.iter().any(|danger| danger.hazard == Hazard::Ride);
    if rides_not || has(&|one| is_out(one) && carries_load(one)) {
        Fitness::NotFit
    } else if has(&|one| is_out(one) && is_electrical(one)) {
        Fitness::Dead
    } else if has(&is_worn) {
        Fitness::Worn
    } else if findings.iter().all(|one| one.condition == Condition::NotExamined) {
        Fitness::NotOpened
    } else {
        Fitness::Fit
    }
}

fn is_battery(finding: &Finding) -> bool {
    finding.part.has(PartRole::Battery)
}

/// True if a sign is about water.
fn is_wet(sign: Sign) -> bool {
    matches!(sign.0.link, Link::Water | Link::BoardCorrosion | Link::SteelRust)
}
