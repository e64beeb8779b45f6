//! What is taken off: an amount or a share of the lines, before tax is reckoned.
//!
//! In: the typed discount and the sum of the lines; out: [`TakenOff`], never more than that sum.

use rust_decimal::Decimal;

use super::amount;
use super::problems;
use super::till::Till;
use crate::sheet::findings::Discount;

/// What is taken off a bill.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenOff {
    /// The amount, in the prices of the lines: with the tax in it or without, as they are.
    pub amount: Decimal,
    /// The share in per cent, where it was typed as one.
    pub share: Option<Decimal>,
    /// Why, in the words of the sheet.
    pub reason: Option<String>,
}

impl Till<'_> {
    /// The discount on lines of this sum; `None` where it comes to nothing or cannot be taken.
    pub(super) fn discount(&mut self, discount: &Discount, sum: Decimal) -> Option<TakenOff> {
        let sheet = self.sheet;
        let (typed, place) = match (&discount.amount, &discount.share) {
            (Some(price), None) => (Some(self.price(price)), sheet.place(&price.span)),
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
            if !sum.is_zero() {
                let symbol = self.currency.symbol;
                self.report(problems::discount_too_large(place, symbol, amount, sum));
            }
            return None;
        }
        let share = discount.share.as_ref().map(|share| share.0.number);
        let reason = discount.reason.as_ref().map(|reason| reason.0.clone());
        (!amount.is_zero()).then_some(TakenOff { amount, share, reason })
    }
}
