//! One sign in the weighing: what it supports, and what it gave.

use super::evidence::Origin;
use super::scores::{PerCause, RootCause, weight};
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::{Link, Role, SignKind, Strength};

/// A sign in the weighing.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoredSign {
    /// The sign; its row has its roles.
    pub sign: Sign,
    /// False if it was looked for and not found.
    pub seen: bool,
    /// Everywhere it comes from, in the order of the sheet.
    pub origins: Vec<Origin>,
    /// The link of the chain that it is an observation of.
    pub link: Link,
    /// What it supports (plus) and is against (minus) by itself, in points.
    pub points: PerCause<i32>,
    /// What it gave to the totals.
    pub used_points: PerCause<i32>,
    /// True if it gave something.
    pub counted: bool,
    /// Why it gave less than it supports, if a rule and not its link says so.
    pub set_aside: Option<SetAside>,
}

/// Why a sign, or a part of it, is not weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetAside {
    /// Fresh water beside wet packaging: it may have come in on the way (rule 7).
    TransportWater,
    /// A history alone, without damage that needs running time, is no claim (rule 2).
    HistoryAlone,
    /// Without a dated sign that the rider could notice nothing supports riding on (rule 2).
    Undated,
    /// Good order clears its own place only, and nothing there supports the cause.
    ClearsAnotherPlace,
    /// Not found, but another observation of the same link was.
    LinkWasSeen,
    /// It ran faultless, but strong damage was seen: the damage is weighed.
    BesideDamage,
    /// It concerns another part of the bike.
    NotTheUnit,
    /// Rust or another trace that was not found says nothing against fresh water that was, for it
    /// may not have had the time; unless something else is clearly damaged, which water then has
    /// not reached.
    WaterIsFresh,
    /// Heat that was noticed, and heat damage to mechanics that explains it: a dragging brake or a
    /// seized bearing heats as a winding does (the caution of its row).
    HeatExplained,
}

impl ScoredSign {
    /// What it may give to a cause before its link is looked at.
    pub(super) fn usable(&self, fault: RootCause) -> i32 {
        let amount = self.points.of(fault);
        let is_spent = match self.set_aside {
            Some(
                SetAside::TransportWater
                | SetAside::BesideDamage
                | SetAside::NotTheUnit
                | SetAside::HistoryAlone,
            ) => true,
            Some(SetAside::Undated) => fault == RootCause::Neglect && 0 < amount,
            Some(SetAside::WaterIsFresh) => fault == RootCause::Ingress && amount < 0,
            Some(SetAside::HeatExplained) => fault == RootCause::Electrical && 0 < amount,
            _ => false,
        };
        if is_spent { 0 } else { amount }
    }

    /// True if it was seen and may support a cause.
    pub fn speaks_for(&self, fault: RootCause) -> bool {
        self.seen && self.usable(fault) > 0
    }

    /// True if it was seen on the unit by somebody of the workshop, and is not only good order.
    pub fn is_shown(&self) -> bool {
        self.seen && self.sign.0.kind != SignKind::Told && !is_in_order(self)
    }
}

/// True for a strong and clear sign of damage to the unit that somebody of the workshop saw.
pub fn is_strong_damage(one: &ScoredSign) -> bool {
    let is_clear = RootCause::ALL.into_iter().any(|fault| is_clear(one, fault));
    one.is_shown()
        && is_clear
        && one.sign.0.strength == Strength::Strong
        && !one.sign.0.has(Role::NotTheUnit)
}

/// True for signs of what was found in order: they clear a place and show no fault.
pub fn is_in_order(one: &ScoredSign) -> bool {
    one.sign.0.has(Role::InOrder)
}

/// True if a sign clearly (2) supports a cause.
pub fn is_clear(one: &ScoredSign, fault: RootCause) -> bool {
    one.speaks_for(fault) && one.points.of(fault) >= 2 * weight(one.sign)
}
