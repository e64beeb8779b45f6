//! The return report: the customer's letter. Page 1, findings, cause, proof, work, care. Options, full
//! readings and the list of photos are on other papers.
//!
//! In: a [`Writer`]; out: what `return-report.typ` sees. Layout is Typst's, sentences are minijinja's.

#![allow(clippy::similar_names, reason = "a pair and what was paid")]

mod first_page;

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::document::calendar;
use crate::document::frame;
use crate::document::sections::costs::settled;
use crate::document::sections::{
    bench, care, cause, costs, evidence, findings, opening, photos, ride, unit_map,
};
use crate::document::view::assessed::{Bench, CauseView, RideView};
use crate::document::view::care::CareView;
use crate::document::view::fact::Fact;
use crate::document::view::{
    AdviceList, Answer, Attached, FindingView, Frame, LifeDay, Natural, Paid, Pair, Proof, UnitMap,
    WorkView,
};
use crate::document::writer::Writer;
use first_page::{FirstPage, Opening};

/// The return report.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ReturnReport {
    /// What every paper has.
    #[serde(flatten)]
    pub frame: Frame,
    /// How page 1 is set.
    pub first_page: FirstPage,
    /// The bearing at natural size, if page 1 shows its photo and has room for it.
    pub natural: Option<Natural>,
    /// Facts on page 1.
    pub spine: Vec<Fact>,
    /// The unit's days, the earliest first.
    pub life: Vec<LifeDay>,
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
    /// Work, parts, costs.
    pub work: Option<WorkView>,
    /// Care advice.
    pub care: Option<CareView>,
    /// What it rests on.
    pub proof: Proof,
}

/// Builds the view.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn view(writer: &Writer<'_>) -> Result<ReturnReport, Diagnostic> {
    let frame = frame(writer);
    let (spine, life) = (opening::spine(writer), opening::life(writer));
    let paid = settled::paid(writer);
    let (lead, answers) = (opening::lead(writer)?, opening::answers(writer)?);
    let (pair, todo) = (photos::pair(writer), care::todo(writer));
    let mut findings = findings::findings(writer, pair.as_ref())?;
    let work = costs::work(writer)?;
    // One part needs no drawing to be found, unless it shows the way that water took.
    let map = unit_map::unit_map(writer)
        .filter(|map| map.water.is_some() || 1 < findings::n_harmed(writer));
    let mut drawn = findings.iter_mut().map(|finding| &mut finding.natural);
    let bearing = drawn.find(|natural| natural.is_some());
    let bearing = bearing.filter(|_| findings::is_bearing_of(writer, pair.as_ref()));
    let first_page = first_page::first_page(&Opening {
        frame: &frame,
        spine: &spine,
        life: &life,
        paid: paid.as_ref(),
        lead: &lead,
        pair: pair.as_ref(),
        answers: &answers,
        todo: todo.as_ref(),
        items: work.as_ref().map_or(&[], |work| &work.items),
        natural: bearing.as_deref().and_then(Option::as_ref),
    });
    let natural = bearing.filter(|_| first_page.natural).and_then(Option::take);
    Ok(ReturnReport {
        findings,
        map,
        cause: cause::cause(writer)?,
        bench: bench::told(writer),
        ride: ride::ride(writer)?,
        work,
        care: care::care(writer),
        proof: evidence::proof(writer),
        frame,
        first_page,
        natural,
        spine,
        life,
        paid,
        lead,
        pair,
        answers,
        todo,
    })
}

/// The frame of the edition, with the calendar of next checks if there are any.
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
