//! Builds the view of the return report: page 1, findings, cause, work, care, evidence.
//!
//! In: [`Material`] and [`Wording`]; out: [`ReturnReport`]. Layout is Typst's, sentences are minijinja's.

mod bench;
mod bench_remarks;
mod bench_scale;
mod care;
mod cause;
mod costs;
mod evidence;
mod findings;
mod opening;
mod options;
mod photos;
mod ride;
mod unit_map;

use super::facts::{self, JobFacts};
use super::frame;
use super::material::Material;
use super::view::ReturnReport;
use super::wording::Wording;
use crate::diagnostic::Diagnostic;
use crate::sheet::findings::FindingsSheet;

/// What every part of the report is written from.
struct Writer<'a> {
    material: &'a Material<'a>,
    wording: &'a Wording,
    facts: JobFacts,
}

/// Builds the view.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn view(material: &Material<'_>, wording: &Wording) -> Result<ReturnReport, Diagnostic> {
    let fields = &material.sheet.fields;
    let facts = facts::of(fields, &material.workshop.fields, material.assessment, wording);
    let writer = Writer { material, wording, facts };
    let pair = writer.pair();
    Ok(ReturnReport {
        frame: frame::frame(&material.cover(), wording, writer.title()),
        spine: writer.spine(),
        paid: writer.paid(),
        lead: writer.lead()?,
        answers: writer.answers()?,
        todo: writer.todo(),
        findings: writer.findings(pair.as_ref())?,
        map: writer.unit_map(),
        pair,
        cause: writer.cause()?,
        bench: writer.bench(),
        ride: writer.ride()?,
        options: writer.options(),
        work: writer.work()?,
        care: writer.care()?,
        evidence: writer.evidence(),
    })
}

impl Writer<'_> {
    fn fields(&self) -> &FindingsSheet {
        &self.material.sheet.fields
    }

    fn sentence(&self, name: &str) -> Result<String, Diagnostic> {
        self.wording.sentence(name, &self.facts)
    }

    fn title(&self) -> String {
        let fields = self.fields();
        let unit = fields.unit.model.as_ref().map_or_else(
            || self.wording.choice("unit-kinds", fields.unit.kind.word()).to_owned(),
            |model| model.0.clone(),
        );
        format!("{} {}, {unit}", self.wording.label("return-report"), fields.job.0)
    }
}
