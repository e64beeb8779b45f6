//! What is asked for a choice: the price, how firm it is, and what it is made of.

use rust_decimal::Decimal;

use crate::assessment::cost::LineKind;
use crate::assessment::cost::options::{Firm, OptionCost, Quote};
use crate::document::format;
use crate::document::text;
use crate::document::view::letter::ChoiceCell;
use crate::document::writer::Writer;

/// The price with what it is made of.
pub fn cell(writer: &Writer<'_>, option: &OptionCost) -> ChoiceCell {
    let under = option.price.as_ref().map_or_else(String::new, |price| made_of(writer, price));
    ChoiceCell { text: price_of(writer, option), under }
}

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

/// What the price is the sum of: examination, parts, work, postage, and tax that comes on top.
fn made_of(writer: &Writer<'_>, price: &Quote) -> String {
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

/// An amount in the workshop's currency.
pub fn amount(writer: &Writer<'_>, amount: Decimal) -> String {
    format::money(amount, writer.material.workshop.fields.currency, writer.wording)
}
