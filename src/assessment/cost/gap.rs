//! How far a bill is from the price of the option that was chosen, by which lines, and who agreed.
//!
//! In: the bill, the options, `decision.overrun`; out: [`Gap`] and warnings for the workshop. What the
//! owner has to be asked, and how far a bill may go without, is a question of law: check local rules.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::bill::Bill;
use super::billing::Billing;
use super::lines::{Line, LineKind};
use super::options::{Firm, OptionCost, Quote};
use super::tax::TaxShare;
use crate::assessment::problems::cost as problems;
use crate::sheet::vocabulary::AnsweredBy;

/// A bill this share below its offer, in per cent, is doubted (common practice, no source).
const FAR_BELOW: Decimal = Decimal::from_parts(10, 0, 0, false, 0);

/// A bill beside the price that was agreed.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The end of the agreed price that the bill went past, tax in it.
    pub agreed: Decimal,
    /// How far, above zero.
    pub by: Decimal,
    /// True if the bill is above, false if it is below.
    pub is_above: bool,
    /// The lines that make it up, if they do so to the penny and the bill is above.
    pub items: Vec<(LineKind, Decimal)>,
    /// True if these lines are without the tax that comes on top.
    pub before_tax: bool,
    /// What the owner agreed to beyond.
    pub consent: Option<Consent>,
}

/// That the owner agreed to more.
#[derive(Clone, Debug, PartialEq)]
pub struct Consent {
    /// When.
    pub on: NaiveDate,
    /// How.
    pub by: Option<AnsweredBy>,
    /// What for.
    pub note: Option<String>,
}

impl Billing<'_> {
    /// Compares; `None` if they agree, if the owner pays nothing, and if the option that was
    /// chosen was not done.
    ///
    /// While a job is open, its bill is still growing and only looked at for being too high.
    pub(super) fn gap(&mut self, options: &[OptionCost], bill: Option<&Bill>) -> Option<Gap> {
        let bill = bill.filter(|bill| bill.is_borne_by_owner() && !bill.lines.is_empty())?;
        if self.is_unwanted() {
            return None;
        }
        let quote = options.iter().find(|option| option.chosen)?.price.as_ref()?;
        let least = match quote.firm {
            Firm::Fixed => Some(quote.total),
            Firm::From(least) => Some(least),
            Firm::AtMost => None,
        };
        let has_ended = self.sheet.fields.outcome.is_some();
        let (agreed, is_above) = if quote.total < bill.total {
            (quote.total, true)
        } else {
            (least.filter(|least| has_ended && bill.total < *least)?, false)
        };
        let by = (bill.total - agreed).abs();
        let (items, before_tax) =
            if is_above { items(quote, bill, by) } else { (Vec::new(), false) };
        self.gap_doubts(agreed, by, is_above);
        let overrun = self.sheet.fields.decision.as_ref()?.overrun.as_ref();
        let consent = overrun.filter(|_| is_above).map(|overrun| Consent {
            on: overrun.agreed.value.0,
            by: overrun.via,
            note: overrun.note.as_ref().map(|note| note.0.clone()),
        });
        Some(Gap { agreed, by, is_above, items, before_tax, consent })
    }

    fn gap_doubts(&mut self, agreed: Decimal, by: Decimal, is_above: bool) {
        let Some(decision) = &self.sheet.fields.decision else { return };
        let place = self.sheet.place(&decision.option.span);
        let symbol = self.currency.symbol;
        if !is_above {
            let far = agreed.checked_mul(FAR_BELOW).map(|share| share / Decimal::ONE_HUNDRED);
            if far.is_some_and(|far| far <= by) {
                self.report(problems::far_below_offer(place, symbol, by, agreed));
            }
            return;
        }
        let Some(overrun) = &decision.overrun else {
            self.report(problems::overrun_not_agreed(place, symbol, by, agreed));
            return;
        };
        let Some(most) = &overrun.up_to else { return };
        let (place, most) = (self.sheet.place(&most.span), self.price(most));
        if most < by {
            self.report(problems::overrun_too_large(place, symbol, by, most));
        }
    }
}

/// The lines of the bill that the offer did not have, or had for less, if these alone make up the
/// difference: with their tax, or before tax that comes on top.
fn items(quote: &Quote, bill: &Bill, by: Decimal) -> (Vec<(LineKind, Decimal)>, bool) {
    let items = beyond(&quote.lines, &bill.lines);
    let sum: Decimal = items.iter().map(|(_, sum)| *sum).sum();
    let is_more = items.iter().all(|(_, sum)| Decimal::ZERO < *sum);
    let net = |taxes: &[TaxShare], total: Decimal| {
        total - taxes.iter().filter(|tax| !tax.included).map(|tax| tax.amount).sum::<Decimal>()
    };
    let before_tax = net(&bill.taxes, bill.total) - net(&quote.taxes, quote.total);
    match sum {
        _ if !is_more || bill.discount.is_some() => (Vec::new(), false),
        sum if sum == by => (items, false),
        sum if sum == before_tax => (items, true),
        _ => (Vec::new(), false),
    }
}

/// What the billed lines come to beyond the offered ones, line by line; below zero if they are less.
fn beyond(offered: &[Line], billed: &[Line]) -> Vec<(LineKind, Decimal)> {
    let mut offered: Vec<&Line> = offered.iter().collect();
    let mut items = Vec::new();
    let mut left: Vec<&Line> = Vec::new();
    for line in billed {
        match offered.iter().position(|other| is_same(&other.kind, &line.kind)) {
            Some(at) => items.push((line.kind.clone(), line.sum - offered.remove(at).sum)),
            None => left.push(line),
        }
    }
    for line in left {
        // A part that was named more closely once it was fitted.
        let is_it = |other: &&Line| is_closer(&other.kind, &line.kind) && other.sum == line.sum;
        match offered.iter().position(is_it) {
            Some(at) => {
                offered.remove(at);
            }
            None => items.push((line.kind.clone(), line.sum)),
        }
    }
    items.extend(offered.into_iter().map(|line| (line.kind.clone(), -line.sum)));
    items.retain(|(_, sum)| !sum.is_zero());
    items
}

/// True for lines of the same part, or of work at the same rate.
fn is_same(one: &LineKind, other: &LineKind) -> bool {
    match (one, other) {
        (LineKind::Part { what, .. }, LineKind::Part { what: other, .. }) => {
            what.to_lowercase() == other.to_lowercase()
        }
        (
            LineKind::Labour { rate, what, .. },
            LineKind::Labour { rate: other_rate, what: other_what, .. },
        ) => rate == other_rate && what == other_what,
        (one, other) => one == other,
    }
}

fn is_closer(offered: &LineKind, billed: &LineKind) -> bool {
    let (LineKind::Part { what: offered, .. }, LineKind::Part { what: billed, .. }) =
        (offered, billed)
    else {
        return false;
    };
    let (offered, billed) = (offered.to_lowercase(), billed.to_lowercase());
    billed.contains(&offered) || offered.contains(&billed)
}
