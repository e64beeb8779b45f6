//! The slip that an owner answers with: a box for every choice, in the same order and the same words.

use super::{choices, letterhead, priced};
use crate::document::format;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::letter::Slip;
use crate::document::writer::Writer;

/// The slip.
pub fn slip(writer: &Writer<'_>) -> Slip {
    let (fields, wording) = (writer.fields(), writer.wording);
    let workshop = &writer.material.workshop.fields;
    let label = |key| wording.label(key).to_owned();
    let options = choices::open_to_owner(writer);
    let choice = |option: &&_| {
        let name = choices::name_of(writer, option);
        let price = priced::price_of(writer, option);
        text::fill(wording.label("slip-choice"), &[("choice", &name), ("price", &price)])
    };
    let limit = workshop.rates.as_ref().and_then(|rates| rates.overrun.as_ref());
    let limit = limit.map(|price| format::money(price.amount, workshop.currency, wording));
    let limit =
        limit.map(|amount| text::fill(wording.label("slip-beyond-limit"), &[("amount", &amount)]));
    let to = [&workshop.name].into_iter().chain(&workshop.address);
    Slip {
        heading: label("slip-heading"),
        how: how(writer),
        facts: vec![
            Fact::strong(wording.label("job"), &fields.job.0),
            Fact::plain(wording.label("from"), &fields.customer.name.0),
            Fact::plain(wording.label("drive-unit"), letterhead::unit_name(writer)),
        ],
        ask: label("slip-ask"),
        choices: options.iter().map(choice).collect(),
        beyond: limit.into_iter().chain([label("slip-beyond")]).collect(),
        lines: vec![label("slip-date"), label("slip-signature")],
        to: to.map(|line| line.0.clone()).collect(),
        to_label: label("slip-to"),
    }
}

/// How to answer: by the slip, or by what the workshop can be reached at.
fn how(writer: &Writer<'_>) -> Vec<String> {
    let wording = writer.wording;
    let contact = &writer.material.workshop.fields.contact;
    let contact: Vec<String> = contact.iter().map(|line| line.0.clone()).collect();
    let job = &writer.fields().job.0;
    let answer = match contact.is_empty() {
        true => wording.label("answer-by-slip").to_owned(),
        false => text::fill(
            wording.label("answer-by-slip-or"),
            &[("contact", &contact.join(" · ")), ("job", job)],
        ),
    };
    vec![answer, wording.label("answer-beyond").to_owned()]
}
