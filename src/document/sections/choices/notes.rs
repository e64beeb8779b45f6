//! What is under the choices: taxes, how long the prices hold, the fee for looking into it, the
//! guarantee, what an early repair costs, cautions, terms.

use crate::assessment::cost::options::OptionCost;
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::sections::costs::settled;
use crate::document::sections::priced::{amount, taxes_in};
use crate::document::text;
use crate::document::writer::Writer;
use crate::sheet::vocabulary::{OptionKind, YesNo};

/// The notes.
pub fn notes(writer: &Writer<'_>, options: &[&OptionCost]) -> Result<Vec<String>, Diagnostic> {
    let mut notes: Vec<String> = taxes_in(writer, options.iter().copied()).into_iter().collect();
    notes.extend(settled::scheme_note(writer));
    notes.extend(hold_until(writer, options));
    notes.extend(examination(writer));
    notes.extend(unpriced_return(writer, options));
    notes.extend(guarantee(writer, options));
    notes.extend(early(writer));
    notes.extend(Some(writer.said(Slot::AsItIs)?).filter(|text| !text.is_empty()));
    let terms = writer.material.workshop.fields.terms.as_ref();
    notes.extend(terms.into_iter().flat_map(|terms| &terms.options).map(|text| text.0.clone()));
    Ok(notes)
}

/// True if the prices do not all hold until the same day. One that nobody offered has none.
pub fn holds_differ(options: &[&OptionCost]) -> bool {
    let mut offered = options.iter().filter(|option| is_offered(option)).map(|one| one.valid_to);
    let first = offered.next();
    offered.any(|day| Some(day) != first)
}

fn is_offered(option: &OptionCost) -> bool {
    option.kind != OptionKind::ReturnAsItIs || option.valid_to.is_some()
}

fn hold_until(writer: &Writer<'_>, options: &[&OptionCost]) -> Option<String> {
    if holds_differ(options) {
        return None;
    }
    let day = options.iter().find_map(|option| option.valid_to)?;
    let words = writer.wording.label("prices-hold");
    Some(text::fill(words, &[("day", &format::day(day, writer.wording))]))
}

/// What looking into it costs, beside a repair or credited against it.
fn examination(writer: &Writer<'_>) -> Option<String> {
    let fee = writer.material.assessment.costs.examination?;
    let billing = writer.fields().billing.as_ref()?;
    let key = match billing.inspection_credited {
        Some(YesNo::Yes) => "inspection-fee-credited",
        Some(YesNo::No) | None => "inspection-fee-on-top",
    };
    Some(text::fill(writer.wording.label(key), &[("amount", &amount(writer, fee))]))
}

fn unpriced_return(writer: &Writer<'_>, options: &[&OptionCost]) -> Option<String> {
    let is_open =
        |option: &&&OptionCost| option.kind == OptionKind::ReturnAsItIs && option.price.is_none();
    options.iter().find(is_open)?;
    Some(writer.wording.label("return-not-priced").to_owned())
}

/// From when a guarantee runs, and the workshop's terms of it.
fn guarantee(writer: &Writer<'_>, options: &[&OptionCost]) -> Vec<String> {
    let own = writer.material.workshop.fields.guarantee.as_ref();
    let is_guaranteed = |option: &&OptionCost| {
        option.guarantee_months.is_some()
            || (own.is_some()
                && !matches!(option.kind, OptionKind::ReturnAsItIs | OptionKind::NewUnit))
    };
    if !options.iter().any(is_guaranteed) {
        return Vec::new();
    }
    let terms = own.and_then(|own| own.terms.as_ref()).map(|terms| terms.0.clone());
    [writer.wording.label("guarantee-from").to_owned()].into_iter().chain(terms).collect()
}

/// What a single bearing costs if the owner heard it on a known day.
fn early(writer: &Writer<'_>) -> Option<String> {
    let told = writer.material.assessment.costs.early_offered?;
    let day = format::day(told.heard, writer.wording);
    let price = amount(writer, told.price);
    let values = [("day", day.as_str()), ("price", price.as_str())];
    Some(text::fill(writer.wording.label("early-price"), &values))
}
