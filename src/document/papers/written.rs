//! The papers of a job that are wanted, written and not yet set: each with the data of its template.
//!
//! In: material, words and a choice; out: rows of the table of papers with JSON and their day. A paper
//! of an earlier stage is written from what the sheet had then. Setting them is `print`.

use chrono::NaiveDate;

use super::choice::Choice;
use super::{Paper, earlier};
use crate::assessment;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::material::{self, Material};
use crate::document::problems;
use crate::document::refusal::Refusal;
use crate::document::wording::Wording;
use crate::document::writer::Writer;
use crate::sheet::Sheet;

/// A paper with the data of its template.
pub struct Written {
    /// Its row.
    pub paper: &'static Paper,
    /// The data, as JSON.
    pub data: Vec<u8>,
    /// The day of the paper.
    pub day: NaiveDate,
}

/// The wanted papers of a job, in the order of the table.
///
/// # Errors
/// A paper that was asked for and lacks something, or problems in wordings.
pub fn written(
    material: &Material<'_>,
    wording: &Wording,
    choice: &Choice,
) -> Result<Vec<Written>, Refusal> {
    let wanted = choice.of(&material.sheet.fields);
    let wanted = wanted.map_err(|(paper, lacks)| lacking(material, paper, &lacks))?;
    wanted.into_iter().map(|paper| one(material, wording, paper)).collect()
}

fn lacking(material: &Material<'_>, paper: &Paper, lacks: &[&str]) -> Diagnostic {
    problems::paper_lacks(Place::whole(&material.sheet.source), paper.name, lacks)
}

fn one(
    material: &Material<'_>,
    wording: &Wording,
    paper: &'static Paper,
) -> Result<Written, Refusal> {
    let Some(stage) = paper.stage() else {
        let data = paper.data(&Writer::new(material, wording))?;
        return Ok(Written { paper, data, day: material::day(material.sheet) });
    };
    let Sheet { source, tree, fields, is_whole } = material.sheet;
    let sheet = Sheet {
        source: source.clone(),
        tree: tree.clone(),
        fields: earlier::at(stage, fields),
        is_whole: *is_whole,
    };
    // What is wrong with the sheet was reported from the whole of it.
    let mut reported = Problems::default();
    let assessment = assessment::assess(&sheet, material.workshop, None, &mut reported);
    let then = Material { sheet: &sheet, assessment: &assessment, ..*material };
    let data = paper.data(&Writer::new(&then, wording))?;
    Ok(Written { paper, data, day: material::day(&sheet) })
}
