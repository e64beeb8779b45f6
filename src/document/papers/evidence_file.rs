//! The evidence file: the record of a job for the workshop and an assessor.
//!
//! In: a [`Writer`]; out: what `evidence-file.typ` sees. What is for the workshop alone stays out of it, as
//! it does of every paper: the file is given to assessors, and what one side has the other may ask for.

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::frame;
use crate::document::noted;
use crate::document::sections::bench::record::readings;
use crate::document::sections::record::words::word;
use crate::document::sections::record::{
    chronicle, decision, digests, parts, plates, signs, visits,
};
use crate::document::sections::{costs, evidence, opening, options, ride};
use crate::document::text;
use crate::document::view::assessed::RideView;
use crate::document::view::costs::OptionsView;
use crate::document::view::fact::Fact;
use crate::document::view::noted::{Noted, NotedGroup};
use crate::document::view::record::{Ledger, Plates, Readings, SignRecord};
use crate::document::view::{Frame, Qr, WorkView};
use crate::document::writer::Writer;

/// The evidence file.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct EvidenceFile {
    /// What every paper has.
    #[serde(flatten)]
    pub frame: Frame,
    /// What it is and for whom.
    pub purpose: String,
    /// Job, unit, outcome.
    pub facts: Vec<Fact>,
    /// What was reported and what the owner heard, each under its label.
    pub told: Vec<Fact>,
    /// What it was made from.
    pub digests: Ledger,
    /// The way from paper back to the archive.
    pub qr: Option<Qr>,
    /// The time line.
    pub chronicle: Ledger,
    /// Every part.
    pub parts: Option<Ledger>,
    /// The weighing of the cause.
    pub signs: SignRecord,
    /// Every value.
    pub readings: Option<Readings>,
    /// The test ride.
    pub ride: Option<RideView>,
    /// The ways out side by side.
    pub options: Option<OptionsView>,
    /// What the owner decided.
    pub decision: Option<NotedGroup>,
    /// Money, line by line.
    pub work: Option<WorkView>,
    /// What was noted beside all that.
    pub noted: Option<Noted>,
    /// Every photo, large.
    pub plates: Plates,
}

/// Builds the view.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn view(writer: &Writer<'_>) -> Result<EvidenceFile, Diagnostic> {
    let (material, wording) = (writer.material, writer.wording);
    // The speed readings are with the others; here is what the ride shows.
    let ride = ride::ride(writer)?.map(|ride| RideView { rows: Vec::new(), ..ride });
    Ok(EvidenceFile {
        frame: frame::frame(&material.cover(), wording, title(writer)),
        purpose: word(writer, "purpose").to_owned(),
        facts: facts(writer),
        told: told(writer)?,
        digests: digests::digests(writer),
        qr: evidence::evidence(writer).qr,
        chronicle: chronicle::chronicle(writer),
        parts: parts::parts(writer),
        signs: signs::signs(writer)?,
        readings: readings(writer),
        ride,
        options: options::options(writer),
        decision: decision::decision(writer),
        work: costs::work(writer)?,
        noted: noted::noted(&material.sheet.tree, wording),
        plates: plates::plates(writer),
    })
}

fn title(writer: &Writer<'_>) -> String {
    let (fields, wording) = (writer.fields(), writer.wording);
    let unit = fields.unit.model.as_ref().map_or_else(
        || wording.choice("unit-kinds", fields.unit.kind.word()).to_owned(),
        |model| model.0.clone(),
    );
    format!("{} {}, {unit}", word(writer, "title"), fields.job.0)
}

fn facts(writer: &Writer<'_>) -> Vec<Fact> {
    let (fields, wording) = (writer.fields(), writer.wording);
    let unit = &fields.unit;
    let units = writer.units();
    let kind = wording.choice("unit-kinds", unit.kind.word());
    let model = unit
        .model
        .as_ref()
        .map_or_else(|| text::capitalised(kind), |model| format!("{}, {kind}", model.0));
    let mut facts = vec![
        Fact::plain(word(writer, "job"), &fields.job.0),
        Fact::plain(word(writer, "owner"), &fields.customer.name.0),
        Fact::plain(word(writer, "unit"), model),
    ];
    let others: Vec<String> = fields.with_job.iter().map(|job| job.value.0.clone()).collect();
    if !others.is_empty() {
        let others = format::listed(&others, wording);
        facts.insert(1, Fact::plain(wording.label("with-job"), others));
    }
    facts.extend(unit.serial.as_ref().map(|serial| Fact::mono(word(writer, "serial"), &serial.0)));
    let ridden = unit.mileage.as_ref().map(|way| format::distance(&way.0, units, wording));
    facts.extend(ridden.map(|way| Fact::plain(word(writer, "ridden"), way)));
    let outcome = fields
        .outcome
        .as_ref()
        .map(|outcome| text::capitalised(wording.choice("outcomes", outcome.value.word())));
    facts.extend(outcome.map(|outcome| Fact::plain(word(writer, "outcome"), outcome)));
    if let Some(sent) = &fields.exchange {
        let parts = [&sent.model, &sent.serial].into_iter().flatten().map(|part| part.0.clone());
        let note = sent.note.as_ref().map(|note| text::ended(&note.0));
        let parts: Vec<String> = parts.chain(note).collect();
        facts.push(Fact::plain(wording.label("unit-in-exchange"), parts.join(", ")));
    }
    facts.extend(visits::visits(writer));
    let day = format::day(writer.material.cover().day, wording);
    facts.push(Fact::plain(word(writer, "paper-of"), day));
    facts
}

/// What the owner reported, the one sentence that the owner is told, and the technician's notes.
fn told(writer: &Writer<'_>) -> Result<Vec<Fact>, Diagnostic> {
    let is_stated = writer.fields().cause.is_some();
    let said = [
        ("reported", writer.said(Slot::Told)?),
        // Where a cause is stated, the weighing begins with it.
        ("triage", if is_stated { String::new() } else { writer.said(Slot::Triage)? }),
        ("told-owner", opening::lead(writer)?),
    ];
    let fields = writer.fields();
    let notes = [
        ("note-cause", fields.cause.as_ref().and_then(|cause| cause.note.as_ref())),
        ("note-work", fields.work.as_ref().and_then(|work| work.note.as_ref())),
        ("note-ride", fields.ride.as_ref().and_then(|ride| ride.note.as_ref())),
    ];
    let notes = notes.into_iter().filter_map(|(key, note)| Some((key, text::ended(&note?.0))));
    let said = said.into_iter().filter(|(_, text)| !text.is_empty()).chain(notes);
    Ok(said.map(|(key, text)| Fact::plain(word(writer, key), text)).collect())
}
