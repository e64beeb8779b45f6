//! The options side by side: what each costs, how long it takes, what it leaves.

use crate::assessment::cost::options::{Firm, OptionCost, Quote};
use crate::assessment::cost::{Line, LineKind};
use crate::document::format;
use crate::document::sections::costs;
use crate::document::sections::costs::settled;
use crate::document::text;
use crate::document::view::costs::{OptionRow, OptionsView};
use crate::document::writer::Writer;
use crate::sheet::charges::Offer;
use crate::sheet::vocabulary::{OptionKind, YesNo};

/// Heads of the columns, and what each holds: words that wrap, a figure, something brief.
const COLUMNS: [(&str, &str); 5] = [
    ("option-what", "words"),
    ("option-price", "figure"),
    ("option-made-of", "words"),
    ("option-days", "brief"),
    ("option-leaves", "words"),
];

/// The table; `None` if there was no choice to make.
pub fn options(writer: &Writer<'_>) -> Option<OptionsView> {
    let wording = writer.wording;
    let options = &writer.material.assessment.costs.options;
    if options.len() < 2 {
        return None;
    }
    let rows: Vec<OptionRow> = options.iter().map(|option| option_row(writer, option)).collect();
    // A column that no option fills is left out.
    let filled: Vec<usize> =
        (0..COLUMNS.len()).filter(|&at| rows.iter().any(|row| !row.cells[at].is_empty())).collect();
    let kept = |cells: &[String]| filled.iter().map(|&at| cells[at].clone()).collect();
    let heads = filled.iter().map(|&at| wording.label(COLUMNS[at].0).to_owned());
    Some(OptionsView {
        heading: wording.label("options-heading").to_owned(),
        columns: heads.collect(),
        holds: filled.iter().map(|&at| COLUMNS[at].1).collect(),
        rows: rows
            .iter()
            .map(|row| OptionRow { cells: kept(&row.cells), chosen: row.chosen.clone() })
            .collect(),
        notes: option_notes(writer, options),
    })
}

/// The tax in the prices, how long they hold, notes, terms.
fn option_notes(writer: &Writer<'_>, options: &[OptionCost]) -> Vec<String> {
    let wording = writer.wording;
    let mut notes: Vec<String> =
        taxes_in(writer, options).into_iter().chain(settled::scheme_note(writer)).collect();
    notes.extend(validity(writer, options));
    notes.extend(inspection(writer));
    let economy = writer.material.assessment.costs.economy;
    notes.extend(economy.and_then(|economy| economy.dear(options)).map(|dear| {
        let repair = text::capitalised(wording.choice("option-kinds", dear.kind.word()));
        text::fill(
            wording.label("dear-repair"),
            &[
                ("repair", &repair),
                ("price", &amount_text(writer, dear.repair)),
                ("share", &dear.share.normalize().to_string()),
                ("exchange", &amount_text(writer, dear.exchange)),
            ],
        )
    }));
    notes.extend(costs::early_sentence(writer));
    let terms = writer.material.workshop.fields.terms.as_ref();
    notes.extend(terms.into_iter().flat_map(|terms| &terms.options).map(|text| text.0.clone()));
    notes
}

fn taxes_in(writer: &Writer<'_>, options: &[OptionCost]) -> Option<String> {
    let wording = writer.wording;
    let quotes = options.iter().filter_map(|option| option.price.as_ref());
    let mut taxes: Vec<String> = Vec::new();
    for tax in quotes.flat_map(|quote| &quote.taxes).filter(|tax| !tax.rate.is_zero()) {
        let words = text::fill(
            wording.label("tax-at-rate"),
            &[("tax", &tax.name), ("rate", &format::number(tax.rate, wording))],
        );
        if !taxes.contains(&words) {
            taxes.push(words);
        }
    }
    let list = format::listed(&taxes, wording);
    (!taxes.is_empty()).then(|| text::fill(wording.label("prices-with-tax"), &[("list", &list)]))
}

/// Until when the prices hold: once for all, or option by option.
fn validity(writer: &Writer<'_>, options: &[OptionCost]) -> Vec<String> {
    let wording = writer.wording;
    let first = options.first().and_then(|option| option.valid_to);
    if options.iter().all(|option| option.valid_to == first) {
        let words = wording.label("prices-hold");
        let day = first.map(|day| text::fill(words, &[("day", &format::day(day, wording))]));
        return day.into_iter().collect();
    }
    let each = options.iter().filter_map(|option| {
        let name = text::capitalised(wording.choice("option-kinds", option.kind.word()));
        Some(text::fill(
            wording.label("price-holds"),
            &[("option", &name), ("day", &format::day(option.valid_to?, wording))],
        ))
    });
    each.collect()
}

/// The fee for looking into it, if it is not the price of an option already.
fn inspection(writer: &Writer<'_>) -> Option<String> {
    let billing = writer.fields().billing.as_ref()?;
    let fee = amount_text(writer, billing.inspection.as_ref()?.price.amount);
    let is_credited = billing.inspection_credited == Some(YesNo::Yes);
    let is_offered =
        |offer: &Offer| offer.kind == OptionKind::ReturnAsItIs && offer.price.is_some();
    if !is_credited && writer.fields().options.iter().any(is_offered) {
        return None;
    }
    let key = if is_credited { "inspection-fee-credited" } else { "inspection-fee" };
    Some(text::fill(writer.wording.label(key), &[("amount", &fee)]))
}

fn option_row(writer: &Writer<'_>, option: &OptionCost) -> OptionRow {
    let wording = writer.wording;
    let what = text::capitalised(wording.choice("option-kinds", option.kind.word()));
    let price = option.price.as_ref().map_or_else(
        || wording.label("option-not-priced").to_owned(),
        |price| asked(writer, price),
    );
    let made_of = option.price.as_ref().map_or_else(String::new, |price| made_of(writer, price));
    let days = option.days.map_or_else(String::new, |days| {
        let key = if days == 1 { "one-day" } else { "days" };
        text::fill(wording.label(key), &[("days", &days.to_string())])
    });
    let leaves = option.leaves.as_deref().map_or_else(String::new, text::capitalised);
    OptionRow {
        cells: vec![what, price, made_of, days, leaves],
        chosen: option.chosen.then(|| wording.label("option-chosen").to_owned()),
    }
}

/// A price as it is asked: fixed, from-to, or at most.
fn asked(writer: &Writer<'_>, price: &Quote) -> String {
    let most = amount_text(writer, price.total);
    match price.firm {
        Firm::Fixed => most,
        Firm::AtMost => text::fill(writer.wording.label("price-at-most"), &[("amount", &most)]),
        Firm::From(least) => text::fill(
            writer.wording.label("price-from-to"),
            &[("from", &amount_text(writer, least)), ("to", &most)],
        ),
    }
}

/// What the price is the sum of: parts, work, postage, and tax that comes on top.
fn made_of(writer: &Writer<'_>, price: &Quote) -> String {
    let wording = writer.wording;
    let named =
        |key, amount| text::fill(wording.label(key), &[("amount", &amount_text(writer, amount))]);
    let is_fee = |line: &&Line| line.kind == LineKind::Examination;
    let fee = price.lines.iter().find(is_fee).filter(|_| price.firm == Firm::Fixed);
    let sums = [
        ("option-examination", fee.map(|line| line.sum)),
        ("option-parts", price.parts),
        ("option-labour", price.labour),
        ("option-postage", price.postage),
    ];
    let sums = sums.into_iter().filter_map(|(key, sum)| Some((key, sum?)));
    let sums = sums.filter(|(_, sum)| !sum.is_zero()).map(|(key, sum)| named(key, sum));
    let sums: Vec<String> = sums.collect();
    let is_split = price.parts.is_some() || fee.is_some();
    let on_top = price.taxes.iter().filter(|tax| is_split && !tax.included && !tax.rate.is_zero());
    let on_top =
        on_top.map(|tax| text::fill(&named("option-tax", tax.amount), &[("tax", &tax.name)]));
    sums.into_iter().chain(on_top).collect::<Vec<_>>().join(", ")
}

fn amount_text(writer: &Writer<'_>, amount: rust_decimal::Decimal) -> String {
    format::money(amount, writer.material.workshop.fields.currency, writer.wording)
}
