//! What came of the weighing of one job.

use std::cmp::Reverse;

use super::continued_use::ContinuedUse;
use super::evidence::Noticing;
use super::proof::Unproven;
use super::scored_sign::{ScoredSign, is_clear, is_in_order};
use super::scores::{PerCause, RootCause};
use super::stated::{Agreement, Stated};
use super::verdict::{self, Verdict};
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::Role;
use crate::sheet::vocabulary::OriginKind;

/// The weighing of causes of one job.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// Points of each cause: the sums of what the signs gave.
    pub totals: PerCause<i32>,
    /// Totals from the highest; of equals the earlier one in the chain comes first.
    pub ranking: Vec<(RootCause, i32)>,
    /// What follows from them.
    pub verdict: Verdict,
    /// Every sign, seen ones first, in the order of the table.
    pub signs: Vec<ScoredSign>,
    /// True if a workshop's own score of one of these signs was used.
    pub house_values: bool,
    /// What the technician states; `None` if the sheet states no cause.
    pub stated: Option<Stated>,
    /// What can be said about running on.
    pub continued_use: ContinuedUse,
    /// How long before arrival the rider noticed a first sign.
    pub noticing: Noticing,
    /// Where a mechanical or electrical fault comes from by the signs, in the order of [`super::origins`].
    pub origins: Vec<(OriginKind, Vec<Sign>)>,
    /// Signs on parts that can hurt somebody, to warn of whatever the cause.
    pub safety: Vec<Sign>,
    /// Clear signs of damage, none of them strong, beside a unit that ran faultless.
    pub beside_no_fault: Vec<Sign>,
    /// Signs that count and rest on words alone.
    pub unproven: Vec<Unproven>,
}

impl Weighing {
    /// The signs that support a cause, and those against it: what counted first, then by points.
    ///
    /// Signs that support it but did not count, since their link already did, come last in each list.
    pub fn for_and_against(&self, fault: RootCause) -> (Vec<&ScoredSign>, Vec<&ScoredSign>) {
        let side = |sign: i32| {
            let speak = self.signs.iter().filter(|one| one.points.of(fault).signum() == sign);
            let mut speak: Vec<&ScoredSign> = speak.collect();
            speak.sort_by_key(|one| {
                Reverse((one.used_points.of(fault).abs(), one.points.of(fault).abs()))
            });
            speak
        };
        (side(1), side(-1))
    }

    /// True if a paper must say *in our judgement* in place of *the evidence shows*.
    pub fn is_judgement(&self) -> bool {
        self.stated.as_ref().is_some_and(|stated| stated.agreement != Agreement::Supported)
    }

    /// True if the rider came within days of the first sign.
    pub fn is_prompt(&self) -> bool {
        matches!(self.noticing, Noticing::Promptly(_))
    }

    /// True if a day is known from which the rider could notice; without it running on is worded
    /// as time run.
    pub fn is_dated(&self) -> bool {
        matches!(self.continued_use, ContinuedUse::Dated(_))
    }

    pub(super) fn beside_no_fault(&self) -> Vec<Sign> {
        if self.verdict.support != verdict::Support::NoFaultFound {
            return Vec::new();
        }
        let is_damage = |one: &&ScoredSign| {
            let clear = RootCause::ALL.into_iter().any(|fault| is_clear(one, fault));
            clear && one.is_shown() && !is_in_order(one) && !one.sign.0.has(Role::NotTheUnit)
        };
        self.signs.iter().filter(is_damage).map(|one| one.sign).collect()
    }
}
