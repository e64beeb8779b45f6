//! Adds up what the signs support: one observation for each link of the chain, plus and minus apart.
//!
//! In: [`Evidence`] and a [`Scale`]; out: every sign with what it gave, and totals that are the sums
//! of what is listed. Which cause follows from the totals is decided in [`super::verdict`].
//!
//! Of a link and a cause the largest plus and the largest minus count, once each, so that the same
//! water is not counted five times, a further sign for a cause never lowers it, and one against it
//! is never hidden by one for it. What was found in order counts against a cause only as far as the
//! signs of its own place support it, and once: the one that clears most.

use super::continued_use::{self, ContinuedUse};
use super::evidence::Evidence;
use super::scored_sign::{ScoredSign, SetAside, is_clear, is_in_order, is_strong_damage};
use super::scores::{PerCause, RootCause, Scale, row_of, weight};
use super::site;
use super::water::{self, is_trace};
use crate::sheet::catalogue::sign::{Link, Role};

/// The signs of a sheet before they are counted, in the order of the table, those not seen last.
pub fn gather(evidence: &Evidence, scale: Scale<'_>) -> Vec<ScoredSign> {
    let mut signs = merged(evidence, scale);
    let in_transport = signs.iter().any(|one| one.seen && one.sign.0.has(Role::Transport));
    let may_be_older = |one: &ScoredSign| !in_transport || !one.sign.0.has(Role::FreshWater);
    let is_wet = signs.iter().any(|one| water::is_trace(one) && may_be_older(one));
    if is_wet {
        let seen = signs.iter_mut().filter(|one| one.seen);
        seen.for_each(|one| one.points = scale.seen_wet(one.sign));
    }
    let hints = |one: &ScoredSign| {
        let is_way_in = one.link == Link::Path && !one.sign.0.has(Role::WaterTrace);
        one.speaks_for(RootCause::Ingress) && may_be_older(one) && !is_way_in
    };
    if !signs.iter().any(hints) {
        // A way in only hints at water if nothing else supports any.
        let ways = signs.iter_mut().filter(|one| one.seen && one.sign.0.has(Role::WayIn));
        ways.for_each(|one| {
            let hint = one.points.of(RootCause::Ingress).min(weight(one.sign));
            one.points.set(RootCause::Ingress, hint);
        });
    }
    signs
}

/// Counts the signs; riding on only if it is dated.
pub fn count(signs: &mut [ScoredSign], continued_use: ContinuedUse) {
    set_aside(signs, continued_use);
    for at in 0..signs.len() {
        for fault in RootCause::ALL {
            let amount = signs[at].usable(fault);
            let waits = is_in_order(&signs[at]) && amount < 0;
            if amount != 0 && !waits && is_largest(signs, at, fault) {
                signs[at].used_points.set(fault, amount);
            }
        }
    }
    for fault in RootCause::ALL {
        clear(signs, fault);
    }
    for at in 0..signs.len() {
        signs[at].counted = signs[at].used_points.iter().any(|(_, points)| points != 0);
        let has_a_say = signs[at].points.iter().any(|(_, points)| points != 0);
        if signs[at].counted || !has_a_say || signs[at].set_aside.is_some() {
            continue;
        }
        if RootCause::ALL.into_iter().any(|fault| link_was_seen(signs, at, fault)) {
            signs[at].set_aside = Some(SetAside::LinkWasSeen);
        } else if signs[at].seen && is_in_order(&signs[at]) {
            signs[at].set_aside = Some(SetAside::ClearsAnotherPlace);
        }
    }
}

/// The sum of what the signs gave.
pub fn totals(signs: &[ScoredSign]) -> PerCause<i32> {
    PerCause::from_fn(|fault| signs.iter().map(|one| one.used_points.of(fault)).sum())
}

/// Every sign once, with all its origins; a sign that was seen is not also missing.
fn merged(evidence: &Evidence, scale: Scale<'_>) -> Vec<ScoredSign> {
    let mut signs: Vec<ScoredSign> = Vec::new();
    let seen = evidence.seen.iter().map(|one| (one, true));
    for ((sign, origin), seen) in seen.chain(evidence.not_seen.iter().map(|one| (one, false))) {
        match signs.iter_mut().find(|one| one.sign == *sign) {
            Some(one) if one.seen == seen => one.origins.push(origin.clone()),
            Some(_) => {}
            None => signs.push(ScoredSign {
                sign: *sign,
                seen,
                origins: vec![origin.clone()],
                link: sign.0.link,
                points: if seen { scale.seen(*sign) } else { scale.not_seen(*sign) },
                used_points: PerCause::default(),
                counted: false,
                set_aside: None,
            }),
        }
    }
    signs.sort_by_key(|one| (!one.seen, row_of(one.sign)));
    signs
}

fn set_aside(signs: &mut [ScoredSign], continued_use: ContinuedUse) {
    let sees = |role: Role| signs.iter().any(|one| one.seen && one.sign.0.has(role));
    let in_transport = sees(Role::Transport);
    let needs_time = signs.iter().any(continued_use::needs_running_time);
    let has_damage = signs.iter().any(is_strong_damage);
    // What supports a cause itself, if a little, is no reason to take anything off it.
    let is_hot_mechanics = |one: &ScoredSign| {
        let is_clear =
            is_clear(one, RootCause::Mechanical) && !one.speaks_for(RootCause::Electrical);
        one.link == Link::Heat && is_clear
    };
    let shows_electrical = |one: &ScoredSign| {
        one.is_shown() && is_clear(one, RootCause::Electrical) && !one.sign.0.has(Role::HeatNoticed)
    };
    let heat_is_explained =
        signs.iter().any(is_hot_mechanics) && !signs.iter().any(shows_electrical);
    let is_fresh = |one: &ScoredSign| one.seen && one.sign.0.has(Role::FreshWater) && is_trace(one);
    let is_other = |one: &ScoredSign| {
        let others = [RootCause::Mechanical, RootCause::Electrical];
        let is_clear = others.into_iter().any(|fault| is_clear(one, fault));
        one.is_shown() && is_clear && !one.speaks_for(RootCause::Ingress)
    };
    if !in_transport && signs.iter().any(is_fresh) && !signs.iter().any(is_other) {
        let gone = signs.iter_mut().filter(|one| !one.seen && one.sign.0.has(Role::WaterTrace));
        gone.for_each(|one| one.set_aside = Some(SetAside::WaterIsFresh));
    }
    for one in signs.iter_mut().filter(|one| one.seen) {
        let has = |role: Role| one.sign.0.has(role);
        one.set_aside = if in_transport && has(Role::FreshWater) {
            Some(SetAside::TransportWater)
        } else if has(Role::NotTheUnit) {
            Some(SetAside::NotTheUnit)
        } else if has_damage && has(Role::Swap) {
            Some(SetAside::BesideDamage)
        } else if heat_is_explained && has(Role::HeatNoticed) {
            Some(SetAside::HeatExplained)
        } else if !needs_time && has(Role::History) {
            Some(SetAside::HistoryAlone)
        } else if !matches!(continued_use, ContinuedUse::Dated(_))
            && 0 < one.points.of(RootCause::Neglect)
        {
            Some(SetAside::Undated)
        } else {
            None
        };
    }
}

/// Lets the sign of good order that clears most take its points off a cause.
fn clear(signs: &mut [ScoredSign], fault: RootCause) {
    let signs_now: &[ScoredSign] = signs;
    let is_swap = |at: &usize| signs_now[*at].sign.0.has(Role::Swap);
    let is_against = |at: &usize| {
        let one = &signs_now[*at];
        one.seen && is_in_order(one) && one.usable(fault) < 0
    };
    let capped = |at: usize| {
        let most = -signs_now[at].usable(fault);
        (most.min(clearable(signs_now, at, fault)), at)
    };
    let against: Vec<usize> = (0..signs_now.len()).filter(is_against).collect();
    // A faultless run is of the whole unit.
    let (runs, places): (Vec<usize>, Vec<usize>) = against.into_iter().partition(is_swap);
    let places = places.into_iter().map(capped);
    let most = places.max_by_key(|(points, at)| (*points, usize::MAX - at));
    let whole = runs.into_iter().map(|at| (-signs_now[at].usable(fault), at));
    let taken: Vec<(i32, usize)> = whole.chain(most).collect();
    for (points, at) in taken {
        signs[at].used_points.set(fault, -points);
    }
}

/// Points of a cause that remain where a sign of good order clears: of each link what is left above
/// its largest sign elsewhere.
fn clearable(signs: &[ScoredSign], clear: usize, fault: RootCause) -> i32 {
    let of_place = |one: &ScoredSign| site::clears(&signs[clear], one);
    let counts = signs.iter().filter(|one| 0 < one.used_points.of(fault) && !is_in_order(one));
    let left = counts.map(|one| {
        let same = signs.iter().filter(|other| other.link == one.link && !of_place(other));
        let floor = same.map(|other| if other.seen { other.usable(fault) } else { 0 }).max();
        one.used_points.of(fault) - floor.unwrap_or(0).max(0)
    });
    left.sum()
}

/// True if no other observation of the link gives more in the same direction.
///
/// Of equals the first of the list counts. A sign not found gives nothing if its link was seen
/// and supports the cause: that link is one observation, and it was made.
fn is_largest(signs: &[ScoredSign], at: usize, fault: RootCause) -> bool {
    let amount = signs[at].usable(fault);
    let outweighed = signs.iter().enumerate().any(|(place, other)| {
        let theirs = other.usable(fault);
        other.link == signs[at].link
            && theirs.signum() == amount.signum()
            && (theirs.abs() > amount.abs() || (theirs.abs() == amount.abs() && place < at))
    });
    !outweighed && !link_was_seen(signs, at, fault)
}

/// True if a sign was not found, but another of its link was and supports the cause.
fn link_was_seen(signs: &[ScoredSign], at: usize, fault: RootCause) -> bool {
    let own = &signs[at];
    let speaks = |other: &ScoredSign| other.link == own.link && other.speaks_for(fault);
    !own.seen && own.points.of(fault) < 0 && signs.iter().any(speaks)
}
