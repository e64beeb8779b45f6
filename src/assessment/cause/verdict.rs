//! From totals to a verdict: how well a cause is supported, which came first, what had a part in it.
//!
//! In: weighed signs, totals and what is known of running on; out: [`Verdict`]. The bounds (lead of
//! 6 and 3, two strong signs of two groups) are workshop judgement, tried on no real repair cases.

use super::order::{self, Step, WaterProof};
use super::ran_on::RanOn;
use super::scores::{Fault, PerCause, is_one_of, weight};
use super::weighing::{Weighed, is_clear};
use crate::sheet::vocabulary::CauseKind;

/// How well the main cause is supported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Support {
    /// Lead of six, two strong signs of two groups, and no limit.
    WellSupported,
    /// Lead of three.
    PointsTo,
    /// Several causes lie close, or one was the consequence of another; the order is the chain's.
    Mixed,
    /// The signs do not settle it.
    NotDeterminable,
    /// The unit ran faultless on a swap of battery and display.
    NoFaultFound,
}

/// What keeps the leading cause from being well supported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Less than six points before the next cause.
    SmallLead,
    /// Its strong signs are of one group or one observation.
    OneGroup,
    /// A seized bearing that cannot be read any more (hard stop).
    SeizedBearing,
    /// No trace of water inside, or no way in (rule 1).
    WaterHalfShown,
    /// No dated sign that the rider could notice (rule 2).
    NoDate,
}

/// What follows from the totals.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// How well the main cause is supported.
    pub support: Support,
    /// The main cause, or `undetermined` or `no-fault-found`.
    pub main: CauseKind,
    /// Causes that had a part in it, the one with most points first.
    pub contributing: Vec<Fault>,
    /// From the leading cause back to the main one, where another came before it.
    pub order: Vec<Step>,
    /// What keeps the leading cause from being well supported.
    pub limits: Vec<Limit>,
}

/// Totals from the highest; of equals the earlier one in the chain comes first.
pub fn ranking(totals: PerCause<i32>) -> Vec<(Fault, i32)> {
    let mut ranked: Vec<(Fault, i32)> = totals.iter().collect();
    ranked.sort_by_key(|(fault, total)| (-total, *fault));
    ranked
}

/// The verdict.
pub fn verdict(signs: &[Weighed], totals: PerCause<i32>, ran_on: RanOn) -> Verdict {
    Court { signs, totals, ran_on }.verdict()
}

struct Court<'a> {
    signs: &'a [Weighed],
    totals: PerCause<i32>,
    ran_on: RanOn,
}

impl Court<'_> {
    fn verdict(&self) -> Verdict {
        let open = |support, main, limits| Verdict {
            support,
            main,
            contributing: Vec::new(),
            order: Vec::new(),
            limits,
        };
        if self.sees(&["SE28"]) {
            return open(Support::NoFaultFound, CauseKind::NoFaultFound, Vec::new());
        }
        let ranked = ranking(self.totals);
        let (leader, most) = ranked[0];
        // A cause with nothing for it stands at zero: being spoken against less is no support.
        let lead = most - ranked[1].1.max(0);
        let limits = self.limits(leader, lead);
        let group: Vec<Fault> = ranked
            .iter()
            .filter(|(_, total)| *total > 0 && most - total < 3)
            .map(|(fault, _)| *fault)
            .collect();
        if lead >= 3 && self.is_carried(leader) {
            let support =
                if limits.is_empty() { Support::WellSupported } else { Support::PointsTo };
            self.ordered(leader, &[leader], support, limits)
        } else if lead < 3
            && let Some(top) = self.first_of_mixed(&group)
        {
            self.ordered(top, &group, Support::Mixed, limits)
        } else {
            open(Support::NotDeterminable, CauseKind::Undetermined, limits)
        }
    }

    /// Follows the order back to the first cause and gathers what had a part in it.
    fn ordered(
        &self,
        top: Fault,
        group: &[Fault],
        support: Support,
        limits: Vec<Limit>,
    ) -> Verdict {
        let order = order::way_back(top, self.signs, self.totals);
        let main = order.last().map_or(top, |step| step.first);
        let in_order = |fault: Fault| order.iter().any(|step| step.then == fault);
        let is_close = |fault: Fault| group.contains(&fault) && self.is_carried(fault);
        let had_a_part = |fault: &Fault| {
            *fault != main && (is_close(*fault) || in_order(*fault) || self.stands(*fault))
        };
        let contributing =
            ranking(self.totals).into_iter().map(|(fault, _)| fault).filter(had_a_part).collect();
        let support = if main == top { support } else { Support::Mixed };
        Verdict { support, main: main.kind(), contributing, order, limits }
    }

    fn limits(&self, leader: Fault, lead: i32) -> Vec<Limit> {
        let mut limits = Vec::new();
        let mut add = |is_so: bool, limit: Limit| limits.extend(is_so.then_some(limit));
        add(lead < 6, Limit::SmallLead);
        add(!self.two_strong_groups(leader), Limit::OneGroup);
        add(self.sees(&["SC23"]), Limit::SeizedBearing);
        let water = WaterProof::of(self.signs);
        add(leader == Fault::Ingress && !water.holds(), Limit::WaterHalfShown);
        let dated = matches!(self.ran_on, RanOn::Dated(_));
        add(leader == Fault::Neglect && !dated, Limit::NoDate);
        limits
    }

    fn sees(&self, refs: &[&str]) -> bool {
        self.signs.iter().any(|one| one.seen && is_one_of(one.sign, refs))
    }

    /// Two strong signs for a cause, of two groups and two links of the chain.
    fn two_strong_groups(&self, fault: Fault) -> bool {
        let strong: Vec<&Weighed> = self
            .signs
            .iter()
            .filter(|one| one.speaks_for(fault) && weight(one.sign) == 3)
            .collect();
        strong.iter().any(|one| {
            strong
                .iter()
                .any(|other| one.link != other.link && one.sign.0.group != other.sign.0.group)
        })
    }

    /// True where something that was shown, and not only told or in good order, speaks for it; for
    /// running on also damage that needs running time.
    fn is_carried(&self, fault: Fault) -> bool {
        let shown = |one: &Weighed| {
            one.speaks_for(fault)
                && weight(one.sign) >= 2
                && one.sign.0.kind != "told"
                && !is_in_order(one)
        };
        self.signs.iter().any(shown) && (fault != Fault::Neglect || self.ran_on != RanOn::No)
    }

    /// True where a cause had a part by itself: carried, six points, a strong and clear sign.
    fn stands(&self, fault: Fault) -> bool {
        let strong = |one: &Weighed| {
            is_clear(one, fault) && weight(one.sign) == 3 && one.sign.0.kind != "told"
        };
        self.totals.of(fault) >= 6 && self.is_carried(fault) && self.signs.iter().any(strong)
    }

    /// The first cause in the chain of several that lie close together.
    ///
    /// Only one that stands by itself may be first, or one that a sign puts before another of them;
    /// and the leader must stand, or be in that order, for the job to be more than undetermined.
    fn first_of_mixed(&self, group: &[Fault]) -> Option<Fault> {
        let leader = *group.first()?;
        let has_step = order::steps(self.signs, self.totals).iter().any(|step| {
            let both = [step.first, step.then];
            both.contains(&leader) && both.iter().all(|fault| group.contains(fault))
        });
        if has_step {
            return Some(leader);
        }
        let standing = group.iter().copied().filter(|fault| self.stands(*fault));
        standing.min().filter(|_| self.stands(leader))
    }
}

/// True for signs of what was found in order: they clear a place and show no fault.
pub fn is_in_order(one: &Weighed) -> bool {
    const IN_ORDER: &[&str] =
        &["grease-sound", "bearing-sound", "winding-sound", "board-sound", "none-found"];
    IN_ORDER.contains(&one.link)
}
