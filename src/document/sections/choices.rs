//! The choices side by side: what each costs, how long it takes, what it renews and leaves, its
//! guarantee. None is marked, and all have the same properties in the same order.

mod notes;

use crate::assessment::cost::options::OptionCost;
use crate::diagnostic::Diagnostic;
use crate::document::format;
use crate::document::sections::priced;
use crate::document::text;
use crate::document::view::letter::{ChoiceCell, ChoiceRow, Choices};
use crate::document::writer::Writer;
use crate::sheet::vocabulary::OptionKind;

/// Every choice that an owner has: what is offered, and to have it back as it is.
pub fn open_to_owner<'a>(writer: &Writer<'a>) -> Vec<&'a OptionCost> {
    let costs = &writer.material.assessment.costs;
    costs.options.iter().chain(&costs.as_it_is).collect()
}

/// The name of a choice, brief enough to be over a column.
pub fn name_of(writer: &Writer<'_>, option: &OptionCost) -> String {
    text::capitalised(writer.wording.choice("option-kinds-short", option.kind.word()))
}

/// The choices.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn choices(writer: &Writer<'_>) -> Result<Choices, Diagnostic> {
    let wording = writer.wording;
    let options = open_to_owner(writer);
    let row = |label: &str, cell: &dyn Fn(&OptionCost) -> Option<ChoiceCell>| {
        let cells: Vec<Option<ChoiceCell>> = options.iter().map(|option| cell(option)).collect();
        // What nobody noted of any choice is no property of them.
        if cells.iter().all(Option::is_none) {
            return None;
        }
        let open = || plain(wording.label("not-stated"));
        let cells = cells.into_iter().map(|cell| cell.unwrap_or_else(open)).collect();
        Some(ChoiceRow { label: wording.label(label).to_owned(), cells })
    };
    let until = notes::holds_differ(&options);
    let rows = [
        row("option-price", &|option| Some(price(writer, option))),
        row("option-days", &|option| priced::days(writer, option).map(plain)),
        row("option-renews", &|option| Some(renews(writer, option))),
        row("option-leaves", &|option| leaves(writer, option)),
        row("option-guarantee", &|option| guarantee(writer, option)),
        row("option-until", &|option| until.then(|| holds_until(writer, option)).flatten()),
    ];
    Ok(Choices {
        heading: wording.label("choices-heading").to_owned(),
        text: wording.label("choices-text").to_owned(),
        corner: wording.label("option-what").to_owned(),
        names: options.iter().map(|option| name_of(writer, option)).collect(),
        rows: rows.into_iter().flatten().collect(),
        notes: notes::notes(writer, &options)?,
    })
}

fn plain(text: impl Into<String>) -> ChoiceCell {
    ChoiceCell { text: text.into(), under: String::new() }
}

fn price(writer: &Writer<'_>, option: &OptionCost) -> ChoiceCell {
    let under = priced::made_of(writer, option);
    ChoiceCell { text: priced::price_of(writer, option), under }
}

/// The parts as typed, else what such a choice renews by its nature.
fn renews(writer: &Writer<'_>, option: &OptionCost) -> ChoiceCell {
    if option.parts.is_empty() {
        return plain(writer.wording.choice("option-renews", option.kind.word()));
    }
    let part = |(count, what): &(u32, String)| match count {
        1 => what.clone(),
        count => format!("{count} × {what}"),
    };
    let parts: Vec<String> = option.parts.iter().map(part).collect();
    plain(parts.join(", "))
}

/// What it leaves as typed; who has it back as it is has it back with all that was found.
fn leaves(writer: &Writer<'_>, option: &OptionCost) -> Option<ChoiceCell> {
    let is_return = option.kind == OptionKind::ReturnAsItIs;
    let all = || is_return.then(|| writer.wording.label("leaves-all").to_owned());
    Some(plain(option.leaves.clone().or_else(all)?))
}

/// The sheet's own months, else the workshop's for what it repairs or sends in exchange.
fn guarantee(writer: &Writer<'_>, option: &OptionCost) -> Option<ChoiceCell> {
    let wording = writer.wording;
    let own = writer.material.workshop.fields.guarantee.as_ref();
    let months = option.guarantee_months.or_else(|| match option.kind {
        OptionKind::ReturnAsItIs | OptionKind::NewUnit => None,
        OptionKind::SingleBearing
        | OptionKind::Overhaul
        | OptionKind::OverhaulPlusParts
        | OptionKind::Exchange => own.map(|own| own.months.0),
    });
    match months {
        Some(1) => Some(plain(wording.label("one-month"))),
        Some(months) => {
            let months = months.to_string();
            Some(plain(text::fill(wording.label("months-long"), &[("months", &months)])))
        }
        None => {
            let is_return = option.kind == OptionKind::ReturnAsItIs;
            let is_any = own.is_some() || writer.fields().options.iter().any(has_own_guarantee);
            (is_return && is_any).then(|| plain(wording.label("no-guarantee")))
        }
    }
}

fn has_own_guarantee(offer: &crate::sheet::charges::Offer) -> bool {
    offer.guarantee_months.is_some()
}

fn holds_until(writer: &Writer<'_>, option: &OptionCost) -> Option<ChoiceCell> {
    option.valid_to.map(|day| plain(format::day(day, writer.wording)))
}
