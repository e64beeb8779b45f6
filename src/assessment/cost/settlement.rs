//! What is left to pay: the total less what is given for the old unit and less what was paid
//! before; nothing of it if the workshop bears the price.
//!
//! Credit and deposit are taken as payments: they come off the total with its tax and leave price
//! and tax as they are, so the bill shows the full price and the full tax (L06-L08 are about
//! rounding alone). Whether a part exchange or a deposit lowers the taxable amount, or makes tax
//! due earlier, is a question of law that is not settled here: check local rules.

use rust_decimal::Decimal;

use super::billing::Billing;

/// What is left after credit and deposit; amounts are positive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Balance {
    /// The owner pays this.
    ToPay(Decimal),
    /// All is paid.
    Settled,
    /// The workshop gives this back.
    GiveBack(Decimal),
}

/// From the total to what is left: `balance = total - credit - deposit`, the total being nothing
/// under a guarantee or as goodwill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settlement {
    /// Given for the unit that stays at the workshop.
    pub credit: Option<Decimal>,
    /// Paid before.
    pub deposit: Option<Decimal>,
    /// What is left.
    pub balance: Balance,
}

impl Billing<'_> {
    /// Credit and deposit as typed.
    pub(super) fn payments(&mut self) -> (Option<Decimal>, Option<Decimal>) {
        let fields = &self.sheet.fields;
        let credit = fields.exchange.as_ref().and_then(|exchange| exchange.credit.as_ref());
        let deposit = fields.decision.as_ref().and_then(|decision| decision.deposit.as_ref());
        let mut paid = |price| super::amount::rounded(self.price(price), self.currency);
        (credit.map(&mut paid), deposit.map(paid))
    }
}

/// What is left of the amount that is due; `None` if nothing was given or paid before.
pub(super) fn settle(
    due: Decimal,
    (credit, deposit): (Option<Decimal>, Option<Decimal>),
) -> Option<Settlement> {
    credit.or(deposit)?;
    // Each is below the bound, so that their difference is too.
    let left = due - credit.unwrap_or_default() - deposit.unwrap_or_default();
    let balance = match left {
        _ if left.is_zero() => Balance::Settled,
        _ if left.is_sign_negative() => Balance::GiveBack(-left),
        _ => Balance::ToPay(left),
    };
    Some(Settlement { credit, deposit, balance })
}
