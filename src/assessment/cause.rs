//! Why a unit failed: a transparent weighing of the signs, and how it agrees with the technician.
//!
//! In: a findings sheet, signs that other stages found, a workshop's own scores; out: [`Weighing`],
//! in which every point of every total can be traced to its sign. Nothing is worded here, and the
//! technician's stated cause is never changed.

pub mod doubts;
pub mod evidence;
pub mod order;
pub mod origins;
pub mod proof;
pub mod ran_on;
pub mod scores;
pub mod site;
pub mod stated;
pub mod triage;
pub mod verdict;
pub mod water;
pub mod weighing;

use std::cmp::Reverse;

use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::Role;
use crate::sheet::findings::{Cause, FindingsSheet};
use crate::sheet::vocabulary::OriginKind;
use evidence::{Evidence, Noticing, Origin};
use proof::Unproven;
use ran_on::RanOn;
use scores::{Fault, HouseScore, PerCause, Scale};
use stated::{Agreement, Stated};
use verdict::Verdict;
use weighing::{Weighed, is_in_order};

/// The weighing of causes of one job.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// Points of each cause: the sums of what the signs gave.
    pub totals: PerCause<i32>,
    /// Totals from the highest; of equals the earlier one in the chain comes first.
    pub ranking: Vec<(Fault, i32)>,
    /// What follows from them.
    pub verdict: Verdict,
    /// Every sign, seen ones first, in the order of the table.
    pub signs: Vec<Weighed>,
    /// True where a workshop's own score of one of these signs was used.
    pub house_values: bool,
    /// What the technician states; `None` where the sheet states no cause.
    pub stated: Option<Stated>,
    /// What can be said about running on.
    pub ran_on: RanOn,
    /// How long before arrival the rider noticed a first sign.
    pub noticing: Noticing,
    /// Where a mechanical or electrical fault comes from by the signs, in the order of [`origins`].
    pub origins: Vec<(OriginKind, Vec<Sign>)>,
    /// Signs on parts that can hurt somebody, to warn of whatever the cause.
    pub safety: Vec<Sign>,
    /// Clear signs of damage, none of them strong, beside a unit that ran faultless.
    pub beside_no_fault: Vec<Sign>,
    /// Signs that count and rest on words alone.
    pub unproven: Vec<Unproven>,
}

/// Weighs the causes of a job. `extra` are signs that other stages found, such as the bench.
pub fn weigh(sheet: &FindingsSheet, extra: Vec<(Sign, Origin)>, house: &[HouseScore]) -> Weighing {
    judge(&Evidence::gather(sheet, extra), sheet.cause.as_ref(), house)
}

/// Weighs evidence that is already gathered.
pub fn judge(evidence: &Evidence, cause: Option<&Cause>, house: &[HouseScore]) -> Weighing {
    let scale = Scale { house };
    let mut signs = weighing::gather(evidence, scale);
    let ran_on = ran_on::ran_on(&signs, evidence);
    weighing::count(&mut signs, ran_on);
    let totals = weighing::totals(&signs);
    let verdict = verdict::verdict(&signs, totals, ran_on);
    let safety = signs.iter().filter(|one| one.seen && one.sign.0.has(Role::Safety));
    let safety = safety.map(|one| one.sign).collect();
    let mut weighing = Weighing {
        totals,
        ranking: verdict::ranking(totals),
        verdict,
        origins: origins::origins(&signs),
        noticing: evidence.noticing,
        house_values: signs.iter().any(|one| scale.is_house_value(one.sign)),
        signs,
        stated: None,
        ran_on,
        safety,
        beside_no_fault: Vec::new(),
        unproven: Vec::new(),
    };
    weighing.beside_no_fault = weighing.beside_no_fault();
    weighing.unproven = proof::unproven(&weighing, evidence);
    weighing.stated = cause.map(|cause| stated::stated(cause, &weighing));
    weighing
}

impl Weighing {
    /// The signs that speak for a cause, and those against it: what counted first, then by points.
    ///
    /// Signs that speak but did not count, since their link already did, come last in each list.
    pub fn for_and_against(&self, fault: Fault) -> (Vec<&Weighed>, Vec<&Weighed>) {
        let side = |sign: i32| {
            let speak = self.signs.iter().filter(|one| one.amounts.of(fault).signum() == sign);
            let mut speak: Vec<&Weighed> = speak.collect();
            speak.sort_by_key(|one| {
                Reverse((one.taken.of(fault).abs(), one.amounts.of(fault).abs()))
            });
            speak
        };
        (side(1), side(-1))
    }

    /// True where a paper must say *in our judgement* in place of *the evidence shows*.
    pub fn is_judgement(&self) -> bool {
        self.stated.as_ref().is_some_and(|stated| stated.agreement != Agreement::Carried)
    }

    /// True if the rider came within days of the first sign.
    pub fn is_prompt(&self) -> bool {
        matches!(self.noticing, Noticing::Promptly(_))
    }

    /// True where a day is known from which the rider could notice; without it running on is worded
    /// as time run.
    pub fn is_dated(&self) -> bool {
        matches!(self.ran_on, RanOn::Dated(_))
    }

    fn beside_no_fault(&self) -> Vec<Sign> {
        if self.verdict.support != verdict::Support::NoFaultFound {
            return Vec::new();
        }
        let is_damage = |one: &&Weighed| {
            let clear = Fault::ALL.into_iter().any(|fault| weighing::is_clear(one, fault));
            clear && one.is_shown() && !is_in_order(one) && !one.sign.0.has(Role::NotTheUnit)
        };
        self.signs.iter().filter(is_damage).map(|one| one.sign).collect()
    }
}
