//! What it would have cost, had it been caught at the first sign.
//!
//! In: the sheet, the tier, what was billed, the price of a single-bearing job; out: [`Caught`] or
//! the reason why it cannot be said. It is said only if the owner heard it first, on a day that the
//! sheet names, and a bearing is the worst of what was found: that a bearing is heard before it has
//! play, and that parts then suffer with it, is common practice, no source. Play is a late sign.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::bill::Bill;
use super::billing::Billing;
use super::options::OptionCost;
use super::tier::{Role, Tier};
use crate::sheet::catalogue::group::{PartGroup, PartRole};
use crate::sheet::charges::BillKind;
use crate::sheet::findings::{Finding, FindingsSheet};
use crate::sheet::vocabulary::{CauseKind, Condition, NoticedSign, OptionKind};

/// An early repair beside the one that was paid; prices with their tax, before credit and deposit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Caught {
    /// What a single-bearing job costs.
    pub price: Decimal,
    /// What this job costs.
    pub paid: Decimal,
    /// What would not have been spent: `paid - price`.
    pub difference: Decimal,
    /// The day on which the owner first heard it.
    pub heard: NaiveDate,
}

/// An early repair beside those that are offered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offered {
    /// What a single-bearing job costs, tax in it.
    pub price: Decimal,
    /// The day on which the owner first heard it.
    pub heard: NaiveDate,
}

/// Why it cannot be said what catching it early would have cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotTold {
    /// No sound that the owner noticed first, or no day of it.
    NoFirstSign,
    /// The cause or another part's state is against a bearing that came first.
    NotFromABearing,
    /// The sheet does not say how large the job was.
    NoTier,
    /// It was caught early.
    AlreadySmall,
    /// Nothing is billed yet, or nothing at all.
    NothingBilled,
    /// Neither the sheet nor the rate card has a price of a single-bearing job.
    NoPrice,
    /// The early job costs as much or more.
    NotCheaper,
}

impl Billing<'_> {
    /// Compares.
    pub(super) fn early(
        &mut self,
        tier: Option<Tier>,
        bill: Option<&Bill>,
        options: &[OptionCost],
    ) -> Result<Caught, NotTold> {
        let fields = &self.sheet.fields;
        let heard = first_heard(fields).ok_or(NotTold::NoFirstSign)?;
        if !began_at_a_bearing(fields) {
            return Err(NotTold::NotFromABearing);
        }
        match tier {
            None => return Err(NotTold::NoTier),
            Some(Tier::SingleBearing) => return Err(NotTold::AlreadySmall),
            Some(_) => {}
        }
        let is_paid = |bill: &&Bill| !bill.lines.is_empty() && bill.kind == BillKind::Charged;
        let paid = bill.filter(is_paid).map(|bill| bill.total);
        let paid = paid.ok_or(NotTold::NothingBilled)?;
        let price = self.known_price(options, OptionKind::SingleBearing);
        let price = price.ok_or(NotTold::NoPrice)?;
        if paid <= price {
            return Err(NotTold::NotCheaper);
        }
        Ok(Caught { price, paid, difference: paid - price, heard })
    }

    /// The same before anything is billed: a single-bearing job beside the repairs that are offered.
    /// `None` if it is offered itself, or if no repair that is offered costs more.
    pub(super) fn early_offered(&mut self, options: &[OptionCost]) -> Option<Offered> {
        let fields = &self.sheet.fields;
        let heard = first_heard(fields).filter(|_| began_at_a_bearing(fields))?;
        if options.iter().any(|option| option.kind == OptionKind::SingleBearing) {
            return None;
        }
        let repairs = options.iter().filter(|option| Tier::of_repair(option.kind).is_some());
        let cheapest = repairs.filter_map(|option| Some(option.price.as_ref()?.total)).min()?;
        let price = self.known_price(options, OptionKind::SingleBearing)?;
        (price < cheapest).then_some(Offered { price, heard })
    }
}

/// The day on which the owner first heard it, if the sheet names one.
fn first_heard(fields: &FindingsSheet) -> Option<NaiveDate> {
    let noticed = fields.arrival.first_noticed.as_ref();
    let noticed = noticed.filter(|noticed| noticed.sign == NoticedSign::Noise)?;
    noticed.date.as_ref().map(|date| date.value.0)
}

/// True if a bearing is harmed and nothing that it could not have harmed is worse or broken.
fn began_at_a_bearing(fields: &FindingsSheet) -> bool {
    let cause = fields.cause.as_ref().map(|cause| cause.main.value);
    let can_be = [CauseKind::Ingress, CauseKind::Neglect, CauseKind::Mechanical];
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let worst = |role: Role| {
        let those = findings.iter().filter(|finding| Role::of(finding.part.value) == role);
        those.map(harm).max().unwrap_or_default()
    };
    let (bearing, further) = (worst(Role::Bearing), worst(Role::Further));
    // A cracked case comes from outside; a seat in it is worn by its bearing.
    let is_broken_case = |finding: &Finding| {
        let part = finding.part.value;
        part.group() == PartGroup::Case && !part.has(PartRole::BearingSeat) && harm(finding) != 0
    };
    cause.is_some_and(|cause| can_be.contains(&cause))
        && 0 < bearing
        && further <= bearing
        && !findings.iter().any(is_broken_case)
}

/// How badly a part was harmed, from 0.
fn harm(finding: &Finding) -> u8 {
    match finding.condition {
        Condition::Sound | Condition::NotExamined => 0,
        Condition::Worn => 1,
        Condition::Damaged => 2,
        Condition::Failed | Condition::Missing => 3,
    }
}
