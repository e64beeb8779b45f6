//! What is at the head of a letter about a job: its title, whose unit it is, when it came in.

use crate::document::format;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::writer::Writer;

/// Title of a paper: its name, the job, the model or the kind of unit.
pub fn title(writer: &Writer<'_>, paper: &str) -> String {
    let (fields, wording) = (writer.fields(), writer.wording);
    let unit = fields.unit.model.as_ref().map_or_else(
        || wording.choice("unit-kinds", fields.unit.kind.word()).to_owned(),
        |model| model.0.clone(),
    );
    format!("{} {}, {unit}", wording.label(paper), fields.job.0)
}

/// Whose unit it is, and which.
pub fn who_and_what(writer: &Writer<'_>, paper: &str) -> Vec<Fact> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let label = |key| wording.label(key);
    let unit = &fields.unit;
    let mut facts = vec![Fact::strong(wording.label(paper), &fields.job.0)];
    let others: Vec<String> = fields.with_job.iter().map(|job| job.value.0.clone()).collect();
    if !others.is_empty() {
        facts.push(Fact::plain(label("with-job"), format::listed(&others, wording)));
    }
    facts.push(Fact::plain(label("for"), &fields.customer.name.0));
    facts.push(Fact::plain(label("drive-unit"), unit_name(writer)));
    facts.extend(unit.serial.as_ref().map(|serial| Fact::mono(label("serial"), &serial.0)));
    let units = writer.units();
    let ridden = unit.mileage.as_ref().map(|way| format::distance(&way.0, units, wording));
    facts.extend(ridden.map(|way| Fact::plain(label("ridden"), way)));
    facts
}

/// Model and kind of the unit.
pub fn unit_name(writer: &Writer<'_>) -> String {
    let unit = &writer.fields().unit;
    let kind = writer.wording.choice("unit-kinds-short", unit.kind.word());
    unit.model
        .as_ref()
        .map_or_else(|| text::capitalised(kind), |model| format!("{}, {kind}", model.0))
}

/// The days up to the choice: when it came in, when it was opened and by whom, how long prices hold.
pub fn until_now(writer: &Writer<'_>) -> Vec<Fact> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let arrived = fields.arrival.date.0;
    let mut facts = vec![Fact::plain(wording.label("came-in"), format::day(arrived, wording))];
    if let Some(strip) = &fields.strip_down {
        let day = format::day_near(strip.date.0, arrived, wording);
        let by = strip.by.as_ref().map(|by| by.0.clone());
        let words: Vec<String> = [day].into_iter().chain(by).collect();
        facts.push(Fact::plain(wording.label("opened"), words.join(", ")));
    }
    let until = fields.options_valid_to.as_ref();
    let until = until.map(|day| format::day_near(day.0, arrived, wording));
    facts.extend(until.map(|day| Fact::strong(wording.label("answer-until"), day)));
    facts
}

/// The day on which it came in, and by when the owner hears of it.
pub fn came_in(writer: &Writer<'_>) -> Vec<Fact> {
    let (arrival, wording) = (&writer.fields().arrival, writer.wording);
    let arrived = arrival.date.0;
    let mut facts = vec![Fact::plain(wording.label("came-in"), format::day(arrived, wording))];
    let reply = arrival.reply_by.as_ref().map(|date| format::day_near(date.0, arrived, wording));
    facts.extend(reply.map(|day| Fact::plain(wording.label("reply-by"), day)));
    facts
}
