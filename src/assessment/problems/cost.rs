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

/// An amount that is too large for exact arithmetic.
pub fn too_large(place: Place) -> Diagnostic {
    let message = "this comes to more than can be billed";
    Diagnostic::error("cost/too-large", place, message)
        .hint("amounts stay below a thousand million; look for digits too many")
}

/// A discount that is given as an amount and as a share.
pub fn discount_twice(place: Place, amount: Place) -> Diagnostic {
    Diagnostic::error("cost/discount-form", place, "this discount is given twice")
        .also(amount, "the amount is here")
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

/// The option chosen is not what the listed work comes to.
pub fn other_tier(place: Place, chose: OptionKind, tier: Tier, renewed: &[&str]) -> Diagnostic {
    let (chose, tier_word) = (chose.word(), tier.word());
    let message = format!("the owner chose `{chose}`, what is listed comes to `{tier_word}`");
    let parts: Vec<String> = renewed.iter().map(|part| format!("`{part}`")).collect();
    let listed = format!("renewed or repaired by the findings: {}", parts.join(", "));
    Diagnostic::warning("cost/other-tier", place, message)
        .maybe_hint((!parts.is_empty()).then_some(listed))
        .hint("give every part that was renewed its finding with `action:`, or correct `option:`")
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
        .hint("inform the owner, and do as they decide")
        .hint("`rates: {uneconomic-from: 80 %}` in `workshop.yaml` sets from where this is said")
}

/// Work is billed for an exchange, and the exchange itself is not.
pub fn exchange_not_billed(place: Place) -> Diagnostic {
    let message = "only the work that is listed is billed, not the unit in exchange";
    Diagnostic::warning("cost/exchange-not-billed", place, message)
        .hint("list the unit among `work: parts:`, or leave parts and labour out")
}

/// A credit for the old unit if no other unit went back.
pub fn credit_without_exchange(place: Place, outcome: &str) -> Diagnostic {
    let message = format!("a credit is given for the old unit, and the outcome is `{outcome}`");
    Diagnostic::warning("cost/credit-without-exchange", place, message)
        .hint("leave `credit:` out, or correct the outcome")
}

/// A tax that the workshop file does not have.
pub fn unknown_tax(place: Place, name: &str, own: &[&str]) -> Diagnostic {
    let message = format!("`workshop.yaml` has no tax called `{name}`");
    let names: Vec<String> = own.iter().map(|own| format!("`{own}`")).collect();
    let known =
        format!("it has {}; `none`, `all` and a rate such as `5 %` work too", names.join(", "));
    Diagnostic::error("cost/unknown-tax", place, message).hint(if own.is_empty() {
        "add `tax:` to `workshop.yaml`, or write `none`".to_owned()
    } else {
        known
    })
}

/// A bare rate if there is not exactly one tax.
pub fn rate_of_which_tax(place: Place, own: &[&str]) -> Diagnostic {
    if own.is_empty() {
        let message = "a rate of tax, and `workshop.yaml` has no tax";
        return Diagnostic::error("cost/unknown-tax", place, message)
            .hint("add `tax:` to `workshop.yaml`, or write `none`");
    }
    let message = format!("a rate of which tax? `workshop.yaml` has {}", own.join(", "));
    Diagnostic::error("cost/rate-of-which-tax", place, message)
        .hint("write the name of one of them; give another rate a name of its own under `further:`")
}

/// A single price for parts and work if a tax falls on one of them alone.
pub fn price_not_split(place: Place, tax: &str) -> Diagnostic {
    let message = format!("{tax} does not fall on parts and work alike, and this price holds both");
    Diagnostic::error("cost/price-not-split", place, message).hint(
        "list `parts:` and `labour:`, or say `tax: all`, `tax: none` or a tax's name beside it",
    )
}

/// An hourly rate that the workshop file does not have.
pub fn unknown_rate(place: Place, name: &str, own: &[&str]) -> Diagnostic {
    let message = format!("`workshop.yaml` has no hourly rate called `{name}`");
    let known = if own.is_empty() {
        format!("add `hours: [{{name: {name}, price: £60.00}}]` to its `rates:`")
    } else {
        format!("it has {}; leave `rate:` out for the usual one", own.join(", "))
    };
    Diagnostic::error("cost/unknown-rate", place, message).hint(known)
}

/// A price from-to or at most that nobody settled.
pub fn price_left_open(place: Place) -> Diagnostic {
    let message = "the job has ended, and the price of what was chosen is still open";
    Diagnostic::warning("cost/price-left-open", place, message)
        .hint("add what was charged: `work: {price: £210.00}`, or its parts and labour")
}

/// A decision after the last day of the price.
pub fn decided_late(place: Place, valid_to: Place) -> Diagnostic {
    let message = "the owner decided after the last day on which this price held";
    Diagnostic::warning("cost/decided-late", place, message)
        .also(valid_to, "it held until here")
        .hint("confirm the price, then correct the day until which it holds")
}

/// No price for the way that is always open, while the owner is asked.
pub fn return_not_priced(place: Place) -> Diagnostic {
    let message = "the options letter has no price for having the unit back as it is";
    Diagnostic::warning("cost/return-not-priced", place, message).hint(
        "add `{kind: return-as-it-is, price: £35.00, days: 2}`; `£0.00` if nothing is charged",
    )
}

/// A bill above its offer without a word of consent.
pub fn overrun_not_agreed(place: Place, symbol: &str, by: Decimal, agreed: Decimal) -> Diagnostic {
    let message =
        format!("the bill is {symbol}{by} above the {symbol}{agreed} that the owner agreed to");
    Diagnostic::warning("cost/overrun-not-agreed", place, message)
        .hint("ask before the work is done, then add `overrun: {up-to: £25.00, agreed: 2026-03-08, via: phone}` to `decision:`")
}

/// A bill above its offer by more than was agreed.
pub fn overrun_too_large(place: Place, symbol: &str, by: Decimal, most: Decimal) -> Diagnostic {
    let message =
        format!("the bill is {symbol}{by} above the offer, the owner agreed to {symbol}{most}");
    Diagnostic::warning("cost/overrun-too-large", place, message)
        .hint("ask again, or take the difference off with `work: {discount: ...}`")
}

/// A bill far below its offer.
pub fn far_below_offer(place: Place, symbol: &str, by: Decimal, agreed: Decimal) -> Diagnostic {
    let message =
        format!("the bill is {symbol}{by} below the {symbol}{agreed} of the option chosen");
    Diagnostic::warning("cost/far-below-offer", place, message)
        .hint("is every part and hour listed under `work:`? The report prints the difference")
}

/// A field on money that no sentence of the papers uses.
pub fn said_nowhere(place: Place, needs: &str) -> Diagnostic {
    let message = format!("this is printed only with {needs}");
    Diagnostic::warning("cost/said-nowhere", place, message)
        .hint("add what it needs, or leave it out")
}
