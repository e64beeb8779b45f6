//! Builds the view of the return report: page 1, findings, cause, work, care, evidence.
//!
//! In: [`Material`] and [`Wording`]; out: [`ReturnReport`]. Layout is Typst's, sentences are minijinja's.

mod bench;
mod bench_remarks;
mod bench_scale;
mod bench_typed;
mod care;
mod cause;
mod costs;
mod evidence;
mod findings;
mod gap;
mod opening;
mod options;
mod photos;
mod ride;
mod settled;
pub mod unit_map;

use super::clauses::{self, Facts, Slot};
use super::facts::{self, JobFacts};
use super::format;
use super::frame;
use super::material::Material;
use super::noted;
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
        care: writer.care(),
        noted: noted::noted(&material.sheet.tree, wording),
        evidence: writer.evidence(),
    })
}

impl Writer<'_> {
    fn fields(&self) -> &FindingsSheet {
        &self.material.sheet.fields
    }

    /// What a place says of the job, as one text.
    fn said(&self, slot: Slot) -> Result<String, Diagnostic> {
        self.said_of(slot, &self.facts.known, &self.facts)
    }

    /// What a place says, by facts and values that may be of one part.
    fn said_of(
        &self,
        slot: Slot,
        facts: &Facts,
        values: &impl serde::Serialize,
    ) -> Result<String, Diagnostic> {
        let clauses = clauses::said(slot, facts);
        let texts = clauses.iter().map(|clause| self.wording.sentence(&clause.say, values));
        Ok(texts.collect::<Result<Vec<_>, _>>()?.join(" "))
    }

    /// The technician's own words for a place, and after them what no prose may replace.
    fn own_words(&self, slot: Slot, own: &str) -> Result<String, Diagnostic> {
        let mut text = format::ended(own);
        for clause in clauses::said(slot, &self.facts.known) {
            if clause.always {
                text = joined(&text, &self.wording.sentence(&clause.say, &self.facts)?);
            }
        }
        Ok(text)
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

/// Two texts with a space between them, if both say something.
fn joined(first: &str, second: &str) -> String {
    format!("{first} {second}").trim().to_owned()
}
