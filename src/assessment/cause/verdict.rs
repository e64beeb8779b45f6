//! From totals to a verdict: how well a cause is supported, which came first, what had a part in it.
//!
//! In: weighed signs, totals and what is known of running on; out: [`Verdict`]. The bounds (lead of
//! 6 and 3, two strong signs of two groups) are workshop judgement, tried on the cases beside the
//! tests and on no real repairs.
//!
//! First the three causes that can be a first fault are weighed against each other. Riding on comes
//! after: only if it is dated, and it takes the first place only if no first fault shows.

use super::continued_use::ContinuedUse;
use super::order::{self, Step};
use super::scored_sign::{ScoredSign, is_clear, is_strong_damage};
use super::scores::{PerCause, RootCause, weight};
use super::water::{WaterProof, is_trace};
use crate::sheet::catalogue::sign::{Damage, Link, Role, SignKind};
use crate::sheet::vocabulary::CauseKind;

/// How well the main cause is supported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Support {
    /// Lead of six, two strong signs of two groups, and no limit.
    WellSupported,
    /// Lead of three.
    PointsTo,
    /// Several causes are close, or one was the consequence of another; the order is the chain's.
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
    /// What could have been read is lost: a bearing seized for good, traces cleaned away.
    Unreadable,
    /// No trace of water inside, or no way in (rule 1).
    WaterHalfShown,
    /// Nothing but burns is clear, and mechanics may have been blocked (rule 4).
    MechanicsBlocked,
    /// Damage that needs running time, no dated sign that the rider could notice, and no first fault
    /// beside it (rule 2).
    NoDate,
    /// Riding on, and no first fault that it followed (rule 2).
    NoFirstFault,
    /// Water, and a crack or an earlier repair that may have let it in (rule 5).
    AnotherFirst,
    /// Another cause than water, and a strong trace of water inside (rule 4).
    WaterInside,
}

/// What follows from the totals.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// How well the main cause is supported.
    pub support: Support,
    /// The main cause, or `undetermined` or `no-fault-found`.
    pub main: CauseKind,
    /// Causes that had a part in it, the one with most points first.
    pub contributing: Vec<RootCause>,
    /// From the leading cause back to the main one, if another came before it.
    pub order: Vec<Step>,
    /// What keeps the leading cause from being well supported.
    pub limits: Vec<Limit>,
}

impl Verdict {
    fn open(support: Support, main: CauseKind, limits: Vec<Limit>) -> Self {
        Self { support, main, contributing: Vec::new(), order: Vec::new(), limits }
    }
}

/// Totals from the highest; of equals the earlier one in the chain comes first.
pub fn ranking(totals: PerCause<i32>) -> Vec<(RootCause, i32)> {
    let mut ranked: Vec<(RootCause, i32)> = totals.iter().collect();
    ranked.sort_by_key(|(fault, total)| (-total, *fault));
    ranked
}

/// The verdict.
pub fn verdict(
    signs: &[ScoredSign],
    totals: PerCause<i32>,
    continued_use: ContinuedUse,
) -> Verdict {
    let is_swap = signs.iter().any(|one| one.seen && one.sign.0.has(Role::Swap));
    if is_swap && !signs.iter().any(is_strong_damage) {
        return Verdict::open(Support::NoFaultFound, CauseKind::NoFaultFound, Vec::new());
    }
    let signs = Signs { signs, totals, continued_use };
    let first = signs.first_fault();
    match continued_use {
        ContinuedUse::Dated(_) if signs.is_carried(RootCause::Neglect) => {
            signs.then_ridden_on(first)
        }
        _ => first,
    }
}

/// True if a cause has more for it than against it, or a clear sign of its own that was shown.
pub fn is_supported(fault: RootCause, signs: &[ScoredSign], totals: PerCause<i32>) -> bool {
    let speaks = signs.iter().any(|one| one.speaks_for(fault) && !one.sign.0.has(Role::InOrder));
    let own = |one: &ScoredSign| one.is_shown() && is_clear(one, fault);
    speaks && (0 < totals.of(fault) || signs.iter().any(own))
}

struct Signs<'a> {
    signs: &'a [ScoredSign],
    totals: PerCause<i32>,
    continued_use: ContinuedUse,
}

impl Signs<'_> {
    /// The verdict on the three causes that can be a first fault.
    fn first_fault(&self) -> Verdict {
        let mut ranked = ranking(self.totals);
        ranked.retain(|(fault, _)| RootCause::FIRST.contains(fault));
        let (leader, most) = ranked[0];
        // A cause with nothing for it counts as zero: being spoken against less is no support.
        let lead = most - ranked[1].1.max(0);
        let limits = self.limits(leader, lead);
        // With a lead of three or more the leader is alone, and undetermined if nothing carries it.
        let close = ranked.iter().filter(|(_, total)| *total > 0 && most - total < 3);
        let close: Vec<RootCause> = close.map(|(fault, _)| *fault).collect();
        if lead >= 3 && self.is_carried(leader) {
            let support =
                if limits.is_empty() { Support::WellSupported } else { Support::PointsTo };
            self.ordered(leader, &[leader], support, limits)
        } else if !limits.contains(&Limit::MechanicsBlocked)
            && let Some(top) = self.first_of_mixed(&close)
        {
            self.ordered(top, &close, Support::Mixed, limits)
        } else {
            Verdict::open(Support::NotDeterminable, CauseKind::Undetermined, limits)
        }
    }

    /// Follows the order back to the first cause and gathers what had a part in it.
    fn ordered(
        &self,
        top: RootCause,
        close: &[RootCause],
        support: Support,
        limits: Vec<Limit>,
    ) -> Verdict {
        let order = order::way_back(top, self.signs, self.totals);
        let main = order.last().map_or(top, |step| step.first);
        let in_order = |fault: RootCause| {
            let known = order::steps(self.signs, self.totals);
            known.iter().any(|step| step.first == main && step.then == fault)
                || order.iter().any(|step| step.then == fault)
        };
        let is_close = |fault: RootCause| close.contains(&fault) && self.is_carried(fault);
        let had_a_part = |fault: &RootCause| {
            *fault != main
                && is_supported(*fault, self.signs, self.totals)
                && (is_close(*fault) || in_order(*fault) || self.is_independent(*fault))
        };
        let ranked = ranking(self.totals).into_iter().map(|(fault, _)| fault);
        let first = ranked.filter(|fault| RootCause::FIRST.contains(fault));
        let contributing = first.filter(had_a_part).collect();
        let support = if main == top { support } else { Support::Mixed };
        Verdict { support, main: main.kind(), contributing, order, limits }
    }

    /// Adds dated riding on to a first fault; it leads only if no first fault shows.
    fn then_ridden_on(&self, first: Verdict) -> Verdict {
        let points = self.totals.of(RootCause::Neglect);
        if let Some(fault) = self.shown_first(&first) {
            if !is_supported(RootCause::Neglect, self.signs, self.totals) {
                return first;
            }
            let mut verdict = match RootCause::of(first.main) {
                Some(main) if main == fault => first,
                _ => self.ordered(fault, &[fault], Support::Mixed, first.limits),
            };
            let at = verdict.contributing.iter().position(|other| self.totals.of(*other) < points);
            let at = at.unwrap_or(verdict.contributing.len());
            verdict.contributing.insert(at, RootCause::Neglect);
            verdict.order.insert(0, Step { first: fault, then: RootCause::Neglect, by: None });
            if self.totals.of(fault) < points + 3 {
                verdict.support = Support::Mixed;
            }
            return verdict;
        }
        let others =
            [RootCause::Ingress, RootCause::Electrical].map(|fault| self.totals.of(fault).max(0));
        let lead = points - others[0].max(others[1]);
        if points < 6 || lead < 3 {
            return first;
        }
        let limits = self.limits(RootCause::Neglect, lead);
        let support = if limits.is_empty() { Support::WellSupported } else { Support::PointsTo };
        let contributing = RootCause::of(first.main).filter(|fault| self.totals.of(*fault) > 0);
        let contributing = contributing.into_iter().collect();
        let main = CauseKind::Neglect;
        Verdict { support, main, contributing, order: Vec::new(), limits }
    }

    /// A first fault that shows by itself, and not only as wear that riding on explains.
    fn shown_first(&self, first: &Verdict) -> Option<RootCause> {
        let shows = |fault: &RootCause| {
            let of_its_own = |one: &ScoredSign| match fault {
                RootCause::Mechanical => {
                    one.sign.0.damage == Some(Damage::Primary) && is_clear(one, *fault)
                }
                RootCause::Ingress => is_trace(one) && weight(one.sign) == 3,
                _ => one.is_shown() && is_clear(one, *fault),
            };
            let is_enough = match fault {
                RootCause::Mechanical => 3 <= self.totals.of(*fault),
                _ => 6 <= self.totals.of(*fault),
            };
            let proved = *fault == RootCause::Ingress && WaterProof::of(self.signs).holds();
            is_enough && (proved || self.signs.iter().any(of_its_own))
        };
        let leading = RootCause::of(first.main).filter(shows);
        let ranked = ranking(self.totals).into_iter().map(|(fault, _)| fault);
        leading.or_else(|| ranked.filter(|fault| RootCause::FIRST.contains(fault)).find(shows))
    }

    fn limits(&self, leader: RootCause, lead: i32) -> Vec<Limit> {
        let mut limits = Vec::new();
        let mut add = |is_so: bool, limit: Limit| limits.extend(is_so.then_some(limit));
        add(lead < 6, Limit::SmallLead);
        add(!self.has_two_voices(leader), Limit::OneGroup);
        add(self.sees(Role::Unreadable), Limit::Unreadable);
        let water = WaterProof::of(self.signs);
        add(leader == RootCause::Ingress && !water.holds(), Limit::WaterHalfShown);
        let is_burn = |one: &ScoredSign| matches!(one.link, Link::ElectricalBurn | Link::Winding);
        let mut clear = self.signs.iter().filter(|one| is_clear(one, leader));
        let is_burnt = leader == RootCause::Electrical && clear.all(is_burn);
        add(is_burnt && self.sees(Role::Blocked), Limit::MechanicsBlocked);
        let has_first = self.signs.iter().any(|one| {
            one.sign.0.damage == Some(Damage::Primary) && is_clear(one, RootCause::Mechanical)
        });
        let is_undated =
            leader == RootCause::Mechanical && self.continued_use == ContinuedUse::Undated;
        add(is_undated && !has_first, Limit::NoDate);
        add(leader == RootCause::Neglect, Limit::NoFirstFault);
        let may_be_first = |one: &ScoredSign| {
            let is_repair = one.link == Link::Tamper && 0 < one.points.of(RootCause::Mechanical);
            one.seen && (is_repair || one.sign.0.has(Role::Crack))
        };
        let is_water = leader == RootCause::Ingress;
        add(is_water && self.signs.iter().any(may_be_first), Limit::AnotherFirst);
        let strong_trace = |one: &ScoredSign| is_trace(one) && weight(one.sign) == 3;
        add(!is_water && self.signs.iter().any(strong_trace), Limit::WaterInside);
        limits
    }

    fn sees(&self, role: Role) -> bool {
        self.signs.iter().any(|one| one.seen && one.sign.0.has(role))
    }

    /// Two strong signs that clearly support a cause, of two groups and two links of the chain; for
    /// an electrical fault also three clear ones of three links, since most are in one group.
    fn has_two_voices(&self, fault: RootCause) -> bool {
        let may_be_told = fault == RootCause::Neglect;
        let clear: Vec<&ScoredSign> = self
            .signs
            .iter()
            .filter(|one| is_clear(one, fault) && weight(one.sign) >= 2)
            .filter(|one| may_be_told || one.sign.0.kind != SignKind::Told)
            .collect();
        let strong = |one: &&&ScoredSign| weight(one.sign) == 3;
        let differ = |one: &ScoredSign, other: &ScoredSign| {
            one.link != other.link && one.sign.0.group != other.sign.0.group
        };
        let pairs = clear.iter().filter(strong);
        let has_pair = pairs.clone().any(|one| pairs.clone().any(|other| differ(one, other)));
        let mut links: Vec<Link> = Vec::new();
        for one in &clear {
            if !links.contains(&one.link) {
                links.push(one.link);
            }
        }
        has_pair || (fault == RootCause::Electrical && 3 <= links.len())
    }

    /// True if something that was shown, and is more than good order, carries a cause: a clear sign,
    /// or two observations that support it. For riding on also the date.
    fn is_carried(&self, fault: RootCause) -> bool {
        let shown =
            |one: &&ScoredSign| one.is_shown() && one.speaks_for(fault) && weight(one.sign) >= 2;
        let shown: Vec<&ScoredSign> = self.signs.iter().filter(shown).collect();
        let names_another = |one: &ScoredSign| one.sign.0.has(Role::Consequence);
        let has_clear = shown.iter().any(|one| is_clear(one, fault) && !names_another(one));
        // Hints do not add up to a cause if what could have been read is lost.
        let has_two = !self.sees(Role::Unreadable)
            && shown.iter().any(|one| self.has_second_voice(one, fault));
        let is_way_in = |one: &&ScoredSign| one.sign.0.has(Role::WayIn) && weight(one.sign) == 3;
        // What names its own first fault needs that fault, or a part that is blocked for good.
        let is_blocked = shown.iter().any(|one| names_another(one)) && self.sees(Role::Blocked);
        match fault {
            // That it is dated includes damage that needs running time.
            RootCause::Neglect => matches!(self.continued_use, ContinuedUse::Dated(_)),
            RootCause::Mechanical => has_clear || has_two || is_blocked,
            RootCause::Ingress => has_clear || has_two || shown.iter().any(is_way_in),
            RootCause::Electrical => has_clear || has_two,
        }
    }

    /// True if a sign is not alone: another observation supports the same cause, or somebody reports
    /// what clearly does.
    fn has_second_voice(&self, one: &ScoredSign, fault: RootCause) -> bool {
        self.signs.iter().any(|other| {
            let is_told = other.sign.0.kind == SignKind::Told;
            let differs = match is_told {
                true => is_clear(other, fault),
                false => other.link != one.link && other.is_shown(),
            };
            other.sign != one.sign && other.speaks_for(fault) && differs
        })
    }

    /// True if a cause is supported by itself: carried, six points, a strong and clear sign.
    fn is_independent(&self, fault: RootCause) -> bool {
        let strong =
            |one: &ScoredSign| is_clear(one, fault) && weight(one.sign) == 3 && one.is_shown();
        self.totals.of(fault) >= 6 && self.is_carried(fault) && self.signs.iter().any(strong)
    }

    /// The first cause in the chain of several that are close together.
    ///
    /// Only one that is supported by itself may be first, or one that a sign puts before another of
    /// them; and the leader must be, or be in that order, for the job to be more than undetermined.
    fn first_of_mixed(&self, close: &[RootCause]) -> Option<RootCause> {
        let leader = *close.first()?;
        let has_step = order::steps(self.signs, self.totals).iter().any(|step| {
            let both = [step.first, step.then];
            both.contains(&leader) && both.iter().all(|fault| close.contains(fault))
        });
        if has_step {
            return Some(leader);
        }
        let standing = close.iter().copied().filter(|fault| self.is_independent(*fault));
        standing.min().filter(|_| self.is_independent(leader))
    }
}
