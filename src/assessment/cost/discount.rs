//! What is taken off: an amount or a share of parts and work, before tax is computed.
//!
//! In: the typed discount and the lines; out: [`TakenOff`], never more than what it is taken from.
//! Postage, fees and surcharges are never cut.

use rust_decimal::Decimal;

use super::amount;
use super::billing::Billing;
use super::lines::{Line, LineKind};
use crate::assessment::problems::cost as problems;
use crate::sheet::charges::{Discount, TakenFrom};

/// What is taken off a bill.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenOff {
    /// The amount, in the prices of the lines: with the tax in it or without, as they are.
    pub amount: Decimal,
    /// The share in per cent, if it was typed as one.
    pub share: Option<Decimal>,
    /// What it is taken from.
    pub on: TakenFrom,
    /// The sum of the lines that it is taken from.
    pub from: Decimal,
    /// Why, in the words of the sheet.
    pub reason: Option<String>,
}

impl TakenOff {
    /// True for lines of which it takes its part.
    pub fn is_from(&self, line: &LineKind) -> bool {
        is_from(self.on, line)
    }
}

fn is_from(on: TakenFrom, line: &LineKind) -> bool {
    match line {
        LineKind::Part { .. } => on != TakenFrom::Labour,
        LineKind::Labour { .. } => on != TakenFrom::Parts,
        LineKind::Agreed => on == TakenFrom::All,
        LineKind::Examination
        | LineKind::ExaminationCredited
        | LineKind::Postage
        | LineKind::CoreCharge(_)
        | LineKind::CoreReturned(..) => false,
    }
}

impl Billing<'_> {
    /// The discount on these lines; `None` if it comes to nothing or cannot be taken.
    pub(super) fn discount(&mut self, discount: &Discount, lines: &[Line]) -> Option<TakenOff> {
        let sheet = self.sheet;
        let on = discount.on.unwrap_or_default();
        let those: Vec<Line> =
            lines.iter().filter(|line| is_from(on, &line.kind)).cloned().collect();
        let place = self.place(&["work"]);
        let sum = self.sum(&those, place);
        let (typed, place) = match (&discount.amount, &discount.share) {
            (Some(price), None) => {
                let typed = self.price(price);
                (Some(self.taken_off_without_tax(typed)), sheet.place(&price.span))
            }
            (None, Some(share)) => {
                let hundred = Decimal::ONE_HUNDRED;
                let part = amount::part_of(sum, share.0.number, hundred, self.currency);
                (part, sheet.place(&share.span))
            }
            (Some(price), Some(share)) => {
                let (place, other) = (sheet.place(&share.span), sheet.place(&price.span));
                self.report(problems::discount_twice(place, other));
                return None;
            }
            (None, None) => {
                let place = self.place(&["work", "discount"]);
                self.report(problems::discount_without_value(place));
                return None;
            }
        };
        let amount = amount::rounded(self.held(typed, || place.clone()), self.currency);
        if sum < amount {
            // While nothing is listed yet, there is nothing to compare it with.
            if !lines.is_empty() {
                let symbol = self.currency.symbol;
                self.report(problems::discount_too_large(place, symbol, amount, sum));
            }
            return None;
        }
        let share = discount.share.as_ref().map(|share| share.0.number);
        let reason = discount.reason.as_ref().map(|reason| reason.0.clone());
        (!amount.is_zero()).then_some(TakenOff { amount, share, on, from: sum, reason })
    }
}
