//! What an option costs, in words: the price, how firm it is, what it is made of, its taxes and days.
//!
//! For every table of options; which options are in it is that table's own.

use rust_decimal::Decimal;

use crate::assessment::cost::LineKind;
use crate::assessment::cost::options::{Firm, OptionCost};
use crate::document::format;
use crate::document::text;
use crate::document::writer::Writer;

/// A price as it is asked: fixed, from-to, or at most; or that none is given.
pub fn price_of(writer: &Writer<'_>, option: &OptionCost) -> String {
    let Some(price) = &option.price else {
        return writer.wording.label("option-not-priced").to_owned();
    };
    let most = amount(writer, price.total);
    match price.firm {
        Firm::Fixed => most,
        Firm::AtMost => text::fill(writer.wording.label("price-at-most"), &[("amount", &most)]),
        Firm::From(least) => text::fill(
            writer.wording.label("price-from-to"),
            &[("from", &amount(writer, least)), ("to", &most)],
        ),
    }
}

/// What the price is the sum of: examination, parts, work, postage, and tax that comes on top; empty
/// if no price is given.
pub fn made_of(writer: &Writer<'_>, option: &OptionCost) -> String {
    let Some(price) = &option.price else { return String::new() };
    let wording = writer.wording;
    let named =
        |key, sum: Decimal| text::fill(wording.label(key), &[("amount", &amount(writer, sum))]);
    let fee = price.lines.iter().find(|line| line.kind == LineKind::Examination);
    let fee = fee.filter(|_| price.firm == Firm::Fixed);
    let sums = [
        ("option-examination", fee.map(|line| line.sum)),
        ("option-parts", price.parts),
        ("option-labour", price.labour),
        ("option-postage", price.postage),
    ];
    let sums = sums.into_iter().filter_map(|(key, sum)| Some((key, sum?)));
    let sums = sums.filter(|(_, sum)| !sum.is_zero()).map(|(key, sum)| named(key, sum));
    let is_split = price.parts.is_some() || fee.is_some();
    let on_top = price.taxes.iter().filter(|tax| is_split && !tax.included && !tax.rate.is_zero());
    let on_top =
        on_top.map(|tax| text::fill(&named("option-tax", tax.amount), &[("tax", &tax.name)]));
    sums.chain(on_top).collect::<Vec<_>>().join(", ")
}

/// The taxes in the prices of options, each once; `None` if there are none.
pub fn taxes_in<'a>(
    writer: &Writer<'_>,
    options: impl Iterator<Item = &'a OptionCost>,
) -> Option<String> {
    let wording = writer.wording;
    let quotes = options.filter_map(|option| option.price.as_ref());
    let mut taxes: Vec<String> = Vec::new();
    for tax in quotes.flat_map(|quote| &quote.taxes).filter(|tax| !tax.rate.is_zero()) {
        let rate = format::number(tax.rate, wording);
        let values = [("tax", tax.name.as_str()), ("rate", rate.as_str())];
        let words = text::fill(wording.label("tax-at-rate"), &values);
        if !taxes.contains(&words) {
            taxes.push(words);
        }
    }
    let list = format::listed(&taxes, wording);
    (!taxes.is_empty()).then(|| text::fill(wording.label("prices-with-tax"), &[("list", &list)]))
}

/// How many working days it takes, if that is known.
pub fn days(writer: &Writer<'_>, option: &OptionCost) -> Option<String> {
    let days = option.days?;
    let key = if days == 1 { "one-day" } else { "days" };
    Some(text::fill(writer.wording.label(key), &[("days", &days.to_string())]))
}

/// An amount in the workshop's currency.
pub fn amount(writer: &Writer<'_>, amount: Decimal) -> String {
    format::money(amount, writer.material.workshop.fields.currency, writer.wording)
}
