//! The return report: the customer's letter. Page 1, findings, cause, work, care, evidence.
//!
//! In: a [`Writer`]; out: what `return-report.typ` sees. Layout is Typst's, sentences are minijinja's.

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::document::calendar;
use crate::document::frame;
use crate::document::noted;
use crate::document::sections::costs::settled;
use crate::document::sections::{
    bench, care, cause, costs, evidence, findings, opening, options, photos, ride, unit_map,
};
use crate::document::view::assessed::{Bench, CauseView, RideView};
use crate::document::view::care::CareView;
use crate::document::view::costs::OptionsView;
use crate::document::view::fact::Fact;
use crate::document::view::noted::Noted;
use crate::document::view::{
    AdviceList, Answer, Attached, Evidence, FindingView, Frame, Paid, Pair, UnitMap, WorkView,
};
use crate::document::writer::Writer;

/// The return report.
#[derive(Debug, Serialize)]
pub struct ReturnReport {
    /// What every paper has.
    #[serde(flatten)]
    pub frame: Frame,
    /// Groups of facts on page 1.
    pub spine: Vec<Vec<Fact>>,
    /// The amount.
    pub paid: Option<Paid>,
    /// The one sentence.
    pub lead: String,
    /// The strongest pair of photos.
    pub pair: Option<Pair>,
    /// The four short answers.
    pub answers: Vec<Answer>,
    /// Three things to do.
    pub todo: Option<AdviceList>,
    /// Findings, part by part.
    pub findings: Vec<FindingView>,
    /// Where in the unit they were made.
    pub map: Option<UnitMap>,
    /// Why it failed.
    pub cause: Option<CauseView>,
    /// Bench readings.
    pub bench: Option<Bench>,
    /// The test ride.
    pub ride: Option<RideView>,
    /// The ways out side by side.
    pub options: Option<OptionsView>,
    /// Work, parts, costs.
    pub work: Option<WorkView>,
    /// Care advice.
    pub care: Option<CareView>,
    /// What was noted beside all that.
    pub noted: Option<Noted>,
    /// What proves it.
    pub evidence: Evidence,
}

/// Builds the view.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn view(writer: &Writer<'_>) -> Result<ReturnReport, Diagnostic> {
    let (material, wording) = (writer.material, writer.wording);
    let pair = photos::pair(writer);
    Ok(ReturnReport {
        frame: frame(writer),
        spine: opening::spine(writer),
        paid: settled::paid(writer),
        lead: opening::lead(writer)?,
        answers: opening::answers(writer)?,
        todo: care::todo(writer),
        findings: findings::findings(writer, pair.as_ref())?,
        map: unit_map::unit_map(writer),
        pair,
        cause: cause::cause(writer)?,
        bench: bench::bench(writer),
        ride: ride::ride(writer)?,
        options: options::options(writer),
        work: costs::work(writer)?,
        care: care::care(writer),
        noted: noted::noted(&material.sheet.tree, wording),
        evidence: evidence::evidence(writer),
    })
}

/// The frame of the edition, with the calendar of next checks where there are any.
fn frame(writer: &Writer<'_>) -> Frame {
    let mut frame = frame::frame(&writer.material.cover(), writer.wording, title(writer));
    frame.paper = writer.edition.size(frame.paper);
    if calendar::has_days(writer) {
        frame.attachments.push(Attached {
            file: calendar::ATTACHED.to_owned(),
            name: calendar::CALENDAR.to_owned(),
            mime: calendar::MIME,
            relationship: "supplement",
            description: writer.wording.choice("calendar", "attached").to_owned(),
        });
    }
    frame
}

fn title(writer: &Writer<'_>) -> String {
    let (fields, wording) = (writer.fields(), writer.wording);
    let unit = fields.unit.model.as_ref().map_or_else(
        || wording.choice("unit-kinds", fields.unit.kind.word()).to_owned(),
        |model| model.0.clone(),
    );
    format!("{} {}, {unit}", wording.label("return-report"), fields.job.0)
}
