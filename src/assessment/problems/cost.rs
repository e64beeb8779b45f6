//! Messages on money.

use rust_decimal::Decimal;

use crate::assessment::cost::tier::Tier;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::vocabulary::OptionKind;

/// A price in a currency that is not the workshop's.
pub fn other_currency(place: Place, found: &str, workshop: &str) -> Diagnostic {
    let message = format!("this price is in {found}, the workshop charges in {workshop}");
    Diagnostic::error("cost/other-currency", place, message)
        .hint("give it in the workshop's currency; nothing is converted")
}

/// Working time without a rate to charge it at.
pub fn no_rate(place: Place) -> Diagnostic {
    Diagnostic::error("cost/no-rate", place, "there is no hourly rate to charge this time at")
        .hint("add `rates: {hour: £48.00}` to `workshop.yaml`, or an agreed `price:` here")
}

/// An amount that cannot be reckoned with to the last digit.
pub fn too_large(place: Place) -> Diagnostic {
    let message = "this comes to more than can be billed";
    Diagnostic::error("cost/too-large", place, message)
        .hint("amounts stay below a thousand million; look for digits too many")
}

/// A discount that is given as an amount and as a share.
pub fn discount_twice(place: Place, amount: Place) -> Diagnostic {
    Diagnostic::error("cost/discount-form", place, "this discount is given twice")
        .also(amount, "the amount stands here")
        .hint("keep `amount:` or `share:`")
}

/// A discount without a value.
pub fn discount_without_value(place: Place) -> Diagnostic {
    Diagnostic::error("cost/discount-form", place, "this discount has no value")
        .hint("add `amount: £20.00` or `share: 10 %`")
}

/// A discount that is more than what it is taken from.
pub fn discount_too_large(place: Place, symbol: &str, off: Decimal, sum: Decimal) -> Diagnostic {
    let message = format!("a discount of {symbol}{off} is more than the {symbol}{sum} of the work");
    Diagnostic::error("cost/discount-too-large", place, message)
        .hint("what is given back beyond the price is no discount; leave it out here")
}

/// The way chosen is not what the listed work comes to.
pub fn other_tier(place: Place, chose: OptionKind, tier: Tier, renewed: &[&str]) -> Diagnostic {
    let (chose, tier_word) = (chose.word(), tier.word());
    let message = format!("the owner chose `{chose}`, what is listed comes to `{tier_word}`");
    let parts: Vec<String> = renewed.iter().map(|part| format!("`{part}`")).collect();
    let listed = format!("renewed or repaired by the findings: {}", parts.join(", "));
    Diagnostic::warning("cost/other-tier", place, message)
        .maybe_hint((!parts.is_empty()).then_some(listed))
        .hint("give every part that was renewed its finding with `action:`, or correct `chose:`")
}

/// A repair was chosen that costs nearly as much as a unit in exchange, or more.
pub fn uneconomic(
    place: Place,
    symbol: &str,
    (repair, exchange): (Decimal, Decimal),
    per_cent: Option<Decimal>,
) -> Diagnostic {
    let share = per_cent.map_or_else(String::new, |share| format!(", {share} % of it"));
    let message = format!(
        "a unit in exchange costs {symbol}{exchange}, the chosen repair {symbol}{repair}{share}"
    );
    Diagnostic::warning("cost/uneconomic", place, message)
        .hint("tell the owner, and do as they decide")
        .hint("`rates: {uneconomic-from: 80 %}` in `workshop.yaml` sets from where this is said")
}

/// Work is billed for an exchange, and the exchange itself is not.
pub fn exchange_not_billed(place: Place) -> Diagnostic {
    let message = "only the work that is listed is billed, not the unit in exchange";
    Diagnostic::warning("cost/exchange-not-billed", place, message)
        .hint("list the unit among `work: parts:`, or leave parts and labour out")
}

/// A credit for the old unit where no other unit went back.
pub fn credit_without_exchange(place: Place, outcome: &str) -> Diagnostic {
    let message = format!("a credit is given for the old unit, and the outcome is `{outcome}`");
    Diagnostic::warning("cost/credit-without-exchange", place, message)
        .hint("leave `credit:` out, or correct the outcome")
}
