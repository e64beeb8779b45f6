//! What every section of a paper is written from: the material, the words of a language, the facts.
//!
//! In: [`Material`] and [`Wording`]; out: texts of one place. What a section holds is `sections`.

use super::clauses::{self, Facts, Slot};
use super::edition::Edition;
use super::facts::{self, JobFacts};
use super::material::Material;
use super::text;
use super::units;
use super::wording::Wording;
use crate::diagnostic::Diagnostic;
use crate::sheet::findings::{FindingsSheet, InShort};
use crate::sheet::profile::Units;
use crate::sheet::text::Text;

/// What every section of a paper is written from.
pub struct Writer<'a> {
    pub(super) material: &'a Material<'a>,
    pub(super) wording: &'a Wording,
    pub(super) facts: JobFacts,
    pub(super) edition: Edition,
}

impl<'a> Writer<'a> {
    /// A writer of one job's papers in one language.
    pub fn new(material: &'a Material<'a>, wording: &'a Wording) -> Self {
        let (sheet, workshop) = (&material.sheet.fields, &material.workshop.fields);
        let facts = facts::of(sheet, workshop, material.assessment, wording);
        Self { material, wording, facts, edition: Edition::Paper }
    }

    /// The same writer for another edition.
    #[must_use]
    pub fn for_edition(self, edition: Edition) -> Self {
        Self { edition, ..self }
    }

    /// The units of distance and speed that the paper's reader uses.
    pub(super) fn units(&self) -> Units {
        units::of(&self.material.workshop.fields, self.wording)
    }

    pub(super) fn fields(&self) -> &'a FindingsSheet {
        &self.material.sheet.fields
    }

    /// What a place says of the job, as one text.
    pub(super) fn said(&self, slot: Slot) -> Result<String, Diagnostic> {
        self.said_of(slot, &self.facts.known, &self.facts)
    }

    /// What a place says, by facts and values that may be of one part.
    pub(super) fn said_of(
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
    pub(super) fn own_words(&self, slot: Slot, own: &str) -> Result<String, Diagnostic> {
        let mut text = text::ended(own);
        for clause in clauses::said(slot, &self.facts.known) {
            if clause.always {
                text = joined(&text, &self.wording.sentence(&clause.say, &self.facts)?);
            }
        }
        Ok(text)
    }

    /// A note that page 1 has no room for, since the technician wrote that place in other words.
    pub(super) fn note_beside(
        &self,
        own: fn(&InShort) -> &Option<Text>,
        note: Option<&Text>,
    ) -> Option<String> {
        let short = self.fields().in_short.as_ref()?;
        own(short).as_ref()?;
        Some(text::ended(&note?.0))
    }

    /// Until when parts and work are guaranteed, in words.
    pub(super) fn guarantee(&self) -> Option<String> {
        let to = self.facts.guaranteed_to()?;
        Some(text::fill(self.wording.label("guaranteed-to"), &[("day", to)]))
    }
}

/// Two texts with a space between them, if both say something.
pub(super) fn joined(first: &str, second: &str) -> String {
    format!("{first} {second}").trim().to_owned()
}
