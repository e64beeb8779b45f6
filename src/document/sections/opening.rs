//! Page 1: the one sentence, the spine of facts, the four short answers.

use chrono::NaiveDate;

use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::{Answer, LifeDay};
use crate::document::writer::{Writer, joined};
use crate::sheet::findings::InShort;
use crate::sheet::text::Text;
use crate::sheet::vocabulary::Outcome;

/// The one sentence.
pub fn lead(writer: &Writer<'_>) -> Result<String, Diagnostic> {
    place(writer, Slot::Lead, |short| &short.lead, None)
}

/// What the owner said, then the four questions.
pub fn answers(writer: &Writer<'_>) -> Result<Vec<Answer>, Diagnostic> {
    let fields = writer.fields();
    let cause = fields.cause.as_ref().and_then(|cause| cause.note.as_ref());
    let work = fields.work.as_ref().and_then(|work| work.note.as_ref());
    let ride = fields.ride.as_ref().and_then(|ride| ride.note.as_ref());
    let sent = fields.exchange.as_ref().and_then(|unit| unit.note.as_ref());
    let did = place(writer, Slot::Did, |short| &short.did, work)?;
    let did = match sent {
        Some(note) => joined(&did, &text::ended(&note.0)),
        None => did,
    };
    let texts = [
        ("you-told-us", writer.said(Slot::Told)?),
        ("what-we-found", place(writer, Slot::Found, |short| &short.found, None)?),
        ("why-it-happened", place(writer, Slot::Why, |short| &short.why, cause)?),
        ("what-we-did", did),
        ("how-it-rides", place(writer, Slot::Rides, |short| &short.rides, ride)?),
    ];
    let said = texts.into_iter().filter(|(_, text)| !text.is_empty());
    Ok(said.map(|(key, text)| Answer { question: question(writer, key), text }).collect())
}

/// A place of page 1: its sentences and the note of the sheet, which adds and never replaces; or
/// the technician's own words for it, and the note is in its section.
fn place(
    writer: &Writer<'_>,
    slot: Slot,
    own: fn(&InShort) -> &Option<Text>,
    note: Option<&Text>,
) -> Result<String, Diagnostic> {
    let own = writer.fields().in_short.as_ref().and_then(|short| own(short).as_ref());
    match (own, note) {
        (Some(own), _) => writer.own_words(slot, &own.0),
        (None, Some(note)) => Ok(joined(&writer.said(slot)?, &text::ended(&note.0))),
        (None, None) => writer.said(slot),
    }
}

/// The last question is another one if the unit does not ride again.
fn question(writer: &Writer<'_>, key: &str) -> String {
    let outcome = writer.fields().outcome.as_ref().map(|outcome| outcome.value);
    let key = match (key, outcome) {
        ("how-it-rides", Some(Outcome::ReturnedUnrepaired) | None) => "what-comes-next",
        ("what-we-did", Some(Outcome::NoFaultFound)) => "what-we-tried",
        ("why-it-happened", Some(Outcome::NoFaultFound)) => "what-it-points-to",
        _ => key,
    };
    writer.wording.label(key).to_owned()
}

/// The facts beside page 1: who and what.
pub fn spine(writer: &Writer<'_>) -> Vec<Fact> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let label = |key| wording.label(key);
    let unit = &fields.unit;
    let kind = wording.choice("unit-kinds-short", unit.kind.word());
    let model = unit
        .model
        .as_ref()
        .map_or_else(|| text::capitalised(kind), |model| format!("{}, {kind}", model.0));
    let mut facts = vec![
        Fact::strong(label("return-report"), &fields.job.0),
        Fact::plain(label("for"), &fields.customer.name.0),
        Fact::plain(label("drive-unit"), model),
    ];
    let others: Vec<String> = fields.with_job.iter().map(|job| job.value.0.clone()).collect();
    if !others.is_empty() {
        facts.insert(1, Fact::plain(label("with-job"), format::listed(&others, wording)));
    }
    facts.extend(unit.serial.as_ref().map(|serial| Fact::mono(label("serial"), &serial.0)));
    let units = writer.units();
    let ridden = unit.mileage.as_ref().map(|way| format::distance(&way.0, units, wording));
    facts.extend(ridden.map(|way| Fact::plain(label("ridden"), way)));
    let sent = fields.exchange.as_ref().and_then(|unit| unit.serial.as_ref());
    facts.extend(sent.map(|serial| Fact::mono(label("unit-sent-back"), &serial.0)));
    facts
}

/// The unit's life as the sheet knows it, day by day; the year is at the first and where it changes.
pub fn life(writer: &Writer<'_>) -> Vec<LifeDay> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let arrived = fields.arrival.date.0;
    let mut last: Option<NaiveDate> = None;
    let mut day = |date: NaiveDate| {
        let before = last.replace(date);
        before.map_or_else(
            || format::day(date, wording),
            |before| format::day_near(date, before, wording),
        )
    };
    let mut days: Vec<LifeDay> = Vec::new();
    let mut tell = |label, date: Option<String>, more: Option<String>, between| {
        let parts: Vec<String> = date.into_iter().chain(more).collect();
        let here = !matches!(label, "in-use-since" | "first-noticed" | "sent-back");
        if !parts.is_empty() {
            days.push(LifeDay {
                fact: Fact::plain(wording.label(label), parts.join(between)),
                here,
            });
        }
    };
    tell("in-use-since", fields.unit.in_use_since.as_ref().map(|date| day(date.0)), None, "");
    if let Some(noticed) = fields.arrival.first_noticed.as_ref().filter(|one| one.date.is_some()) {
        let sign = Some(wording.choice("noticed-signs", noticed.sign.word()).to_owned());
        tell("first-noticed", noticed.date.as_ref().map(|date| day(date.0)), sign, ", ");
    }
    tell("came-in", Some(day(arrived)), None, "");
    if let Some(strip) = &fields.strip_down {
        tell("opened", Some(day(strip.date.0)), strip.by.as_ref().map(|by| by.0.clone()), ", ");
    }
    if let Some(decision) = &fields.decision {
        let chose = wording.choice("option-kinds-short", decision.option.word());
        tell(
            "you-decided",
            decision.date.as_ref().map(|date| day(date.0)),
            Some(chose.to_owned()),
            wording.grammar().colon(),
        );
    }
    if let Some(ride) = &fields.ride {
        let units = writer.units();
        let way = ride.distance.as_ref().map(|way| format::distance(&way.0, units, wording));
        tell("test-ride", ride.date.as_ref().map(|date| day(date.0)), way, ", ");
    }
    tell("sent-back", fields.returned.as_ref().map(|date| day(date.0)), None, "");
    days
}
