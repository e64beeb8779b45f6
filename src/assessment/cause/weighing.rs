//! Adds up what the signs speak for: one observation for each link of the chain, plus and minus apart.
//!
//! In: [`Evidence`] and a [`Scale`]; out: every sign with what it gave, and totals that are the sums
//! of what is listed. Which cause follows from the totals is decided in [`super::verdict`].
//!
//! Of a link and a cause the largest plus and the largest minus count, once each, so that the same
//! water is not counted five times, a further sign for a cause never lowers it, and one against it
//! is never hidden by one for it.

use super::evidence::{Evidence, Origin};
use super::ran_on;
use super::scores::{Fault, PerCause, Scale, is_one_of, row_of, weight};
use crate::sheet::catalogue::Sign;

/// A sign in the weighing.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The sign.
    pub sign: Sign,
    /// False where it was looked for and not found.
    pub seen: bool,
    /// Everywhere it comes from, in the order of the sheet.
    pub origins: Vec<Origin>,
    /// The link of the chain that it is an observation of.
    pub link: &'static str,
    /// What it speaks for (plus) and against (minus) by itself, in points.
    pub amounts: PerCause<i32>,
    /// What it gave to the totals.
    pub taken: PerCause<i32>,
    /// True where it gave something.
    pub counted: bool,
    /// Why it gave less than it speaks for, where a rule and not its link says so.
    pub set_aside: Option<SetAside>,
}

/// Why a sign, or a part of it, is not weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetAside {
    /// Fresh water beside wet packaging: it may have come in on the way (rule 7).
    TransportWater,
    /// A history alone, without damage that needs running time, is no claim (rule 2).
    HistoryAlone,
    /// A sound winding clears the winding, not the electrical fault that stands elsewhere.
    ClearsAnotherPlace,
    /// Not found, but another observation of the same link was.
    LinkWasSeen,
}

/// Fresh water: may have come in on the way.
const FRESH_WATER: &[&str] = &["SA01", "SA02", "SB01", "SB02"];

/// Links of electrical faults that a sound winding says nothing about.
const BESIDE_THE_WINDING: &[&str] = &["sensor", "hall", "connection", "electrical-burn", "battery"];

/// Weighs the signs; the list is in the order of the table, those not seen after those seen.
pub fn weigh(evidence: &Evidence, scale: Scale<'_>) -> Vec<Weighed> {
    let mut signs = merged(evidence, scale);
    set_aside(&mut signs);
    for at in 0..signs.len() {
        for fault in Fault::ALL {
            let amount = signs[at].usable(fault);
            if amount != 0 && is_largest(&signs, at, fault) {
                signs[at].taken.set(fault, amount);
                signs[at].counted = true;
            }
        }
        if !signs[at].counted
            && Fault::ALL.into_iter().any(|fault| link_was_seen(&signs, at, fault))
        {
            signs[at].set_aside = Some(SetAside::LinkWasSeen);
        }
    }
    signs
}

/// The sum of what the signs gave.
pub fn totals(signs: &[Weighed]) -> PerCause<i32> {
    PerCause::from_fn(|fault| signs.iter().map(|one| one.taken.of(fault)).sum())
}

impl Weighed {
    /// What it may give to a cause before its link is looked at.
    fn usable(&self, fault: Fault) -> i32 {
        let amount = self.amounts.of(fault);
        let spent = match self.set_aside {
            None | Some(SetAside::LinkWasSeen) => false,
            Some(SetAside::TransportWater) => true,
            Some(SetAside::HistoryAlone) => fault == Fault::Neglect,
            Some(SetAside::ClearsAnotherPlace) => fault == Fault::Electrical,
        };
        if spent { 0 } else { amount }
    }

    /// True where it was seen and may speak for a cause.
    pub fn speaks_for(&self, fault: Fault) -> bool {
        self.seen && self.usable(fault) > 0
    }
}

/// Every sign once, with all its origins; a sign that was seen is not also missing.
fn merged(evidence: &Evidence, scale: Scale<'_>) -> Vec<Weighed> {
    let mut signs: Vec<Weighed> = Vec::new();
    let seen = evidence.seen.iter().map(|one| (one, true));
    for ((sign, origin), seen) in seen.chain(evidence.not_seen.iter().map(|one| (one, false))) {
        match signs.iter_mut().find(|one| one.sign == *sign) {
            Some(one) if one.seen == seen => one.origins.push(origin.clone()),
            Some(_) => {}
            None => signs.push(Weighed {
                sign: *sign,
                seen,
                origins: vec![origin.clone()],
                link: &sign.0.link,
                amounts: if seen { scale.seen(*sign) } else { scale.not_seen(*sign) },
                taken: PerCause::default(),
                counted: false,
                set_aside: None,
            }),
        }
    }
    signs.sort_by_key(|one| (!one.seen, row_of(one.sign)));
    signs
}

fn set_aside(signs: &mut [Weighed]) {
    let sees = |refs: &[&str]| signs.iter().any(|one| one.seen && is_one_of(one.sign, refs));
    let in_transport = sees(&["SA05"]);
    let ran_on = signs.iter().any(ran_on::needs_running_time);
    let elsewhere = signs
        .iter()
        .any(|one| is_clear(one, Fault::Electrical) && BESIDE_THE_WINDING.contains(&one.link));
    for one in signs.iter_mut() {
        one.set_aside = match one.seen {
            true if in_transport && is_one_of(one.sign, FRESH_WATER) => {
                Some(SetAside::TransportWater)
            }
            true if !ran_on && is_one_of(one.sign, &["SA15"]) => Some(SetAside::HistoryAlone),
            true if elsewhere && one.link == "winding-sound" => Some(SetAside::ClearsAnotherPlace),
            _ => None,
        };
    }
}

/// True where a sign speaks clearly (2) for a cause.
pub fn is_clear(one: &Weighed, fault: Fault) -> bool {
    one.speaks_for(fault) && one.amounts.of(fault) >= 2 * weight(one.sign)
}

/// True where no other observation of the link gives more in the same direction.
///
/// Of equals the first of the list counts. A sign not found gives nothing where its link was seen
/// and speaks for the cause: that link is one observation, and it was made.
fn is_largest(signs: &[Weighed], at: usize, fault: Fault) -> bool {
    let amount = signs[at].usable(fault);
    let outweighed = signs.iter().enumerate().any(|(place, other)| {
        let theirs = other.usable(fault);
        other.link == signs[at].link
            && theirs.signum() == amount.signum()
            && (theirs.abs() > amount.abs() || (theirs.abs() == amount.abs() && place < at))
    });
    !outweighed && !link_was_seen(signs, at, fault)
}

/// True where a sign was not found, but another of its link was and speaks for the cause.
fn link_was_seen(signs: &[Weighed], at: usize, fault: Fault) -> bool {
    let own = &signs[at];
    let speaks = |other: &Weighed| other.link == own.link && other.speaks_for(fault);
    !own.seen && own.amounts.of(fault) < 0 && signs.iter().any(speaks)
}
