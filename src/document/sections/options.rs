//! The options side by side: what each costs, how long it takes, what it leaves.

use crate::assessment::cost::options::OptionCost;
use crate::document::format;
use crate::document::sections::costs;
use crate::document::sections::costs::settled;
use crate::document::sections::priced;
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
    let mut notes: Vec<String> = priced::taxes_in(writer, options.iter())
        .into_iter()
        .chain(settled::scheme_note(writer))
        .collect();
    notes.extend(validity(writer, options));
    notes.extend(inspection(writer));
    let economy = writer.material.assessment.costs.economy;
    notes.extend(economy.and_then(|economy| economy.dear(options)).map(|dear| {
        let repair = text::capitalised(wording.choice("option-kinds", dear.kind.word()));
        text::fill(
            wording.label("dear-repair"),
            &[
                ("repair", &repair),
                ("price", &priced::amount(writer, dear.repair)),
                ("share", &dear.share.normalize().to_string()),
                ("exchange", &priced::amount(writer, dear.exchange)),
            ],
        )
    }));
    notes.extend(costs::early_sentence(writer));
    let terms = writer.material.workshop.fields.terms.as_ref();
    notes.extend(terms.into_iter().flat_map(|terms| &terms.options).map(|text| text.0.clone()));
    notes
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
    let fee = priced::amount(writer, billing.inspection.as_ref()?.price.amount);
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
    let days = priced::days(writer, option).unwrap_or_default();
    let leaves = option.leaves.as_deref().map_or_else(String::new, text::capitalised);
    let (price, made_of) = (priced::price_of(writer, option), priced::made_of(writer, option));
    OptionRow {
        cells: vec![what, price, made_of, days, leaves],
        chosen: option.chosen.then(|| wording.label("option-chosen").to_owned()),
    }
}
