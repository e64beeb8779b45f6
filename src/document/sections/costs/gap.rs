//! How far the bill is from the agreed price, in one sentence: by what, and who agreed when.

use crate::assessment::cost::Bill;
use crate::assessment::cost::gap::{Consent, Gap};
use crate::document::format;
use crate::document::sections::costs::line_name;
use crate::document::text;
use crate::document::writer::Writer;

/// The sentence; `None` if bill and price agree.
pub fn gap_sentence(writer: &Writer<'_>, bill: &Bill) -> Option<String> {
    let gap = writer.material.assessment.costs.gap.as_ref()?;
    let wording = writer.wording;
    let money = |amount| format::money(amount, bill.currency, wording);
    let key = if gap.is_above { "above-agreed" } else { "below-agreed" };
    let words = text::fill(
        wording.label(key),
        &[("difference", &money(gap.by)), ("agreed", &money(gap.agreed))],
    );
    let words = with_items(writer, words, gap, bill);
    let words = match &gap.consent {
        Some(consent) => with_consent(writer, &words, consent),
        None => words,
    };
    Some(format!("{}.", words.trim_end_matches('.')))
}

fn with_items(writer: &Writer<'_>, words: String, gap: &Gap, bill: &Bill) -> String {
    if gap.items.is_empty() {
        return words;
    }
    let items = gap.items.iter().map(|(kind, sum)| {
        let what = line_name::of(writer, kind);
        let amount = format::money(*sum, bill.currency, writer.wording);
        text::fill(writer.wording.label("gap-item"), &[("what", &what), ("amount", &amount)])
    });
    let items: Vec<String> = items.collect();
    let key = if gap.before_tax { "gap-items-before-tax" } else { "gap-items" };
    text::fill(writer.wording.label(key), &[("gap", &words), ("items", &items.join(", "))])
}

fn with_consent(writer: &Writer<'_>, words: &str, consent: &Consent) -> String {
    let wording = writer.wording;
    let key = if consent.by.is_some() { "gap-consent-by" } else { "gap-consent" };
    let by = consent.by.map_or("", |by| wording.choice("answered-by", by.word()));
    let said = text::fill(
        wording.label(key),
        &[("gap", words), ("by", by), ("day", &format::day(consent.on, wording))],
    );
    match &consent.note {
        Some(note) => text::fill(wording.label("gap-note"), &[("gap", &said), ("note", note)]),
        None => said,
    }
}
