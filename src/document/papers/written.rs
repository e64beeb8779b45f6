//! The papers of a job that are wanted, written and not yet set: each with the data of its template.
//!
//! In: material, words and a choice; out: rows of the table of papers with JSON and their day. A paper
//! of an earlier stage is written from what the sheet had then. Setting them is `print`.

use chrono::NaiveDate;

use super::asked::Asked;
use super::{Paper, RETURN_REPORT, earlier};
use crate::assessment;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::calendar;
use crate::document::edition::Edition;
use crate::document::material::{self, Material};
use crate::document::message::letter::Letter;
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
    /// The data of its phone edition, if that is asked for.
    pub phone: Option<Vec<u8>>,
    /// The calendar of next checks, if the paper carries it.
    pub calendar: Option<String>,
    /// Its covering message, if that is asked for.
    pub letter: Option<Letter>,
}

/// The wanted papers of a job, in the order of the table.
///
/// # Errors
/// A paper that was asked for and lacks something, or problems in wordings.
pub fn written(
    material: &Material<'_>,
    wording: &Wording,
    asked: &Asked,
) -> Result<Vec<Written>, Refusal> {
    let wanted = asked.choice.of(&material.sheet.fields);
    let wanted = wanted.map_err(|(paper, lacks)| lacking(material, paper, &lacks))?;
    wanted.into_iter().map(|paper| one(material, wording, paper, asked)).collect()
}

fn lacking(material: &Material<'_>, paper: &Paper, lacks: &[&str]) -> Diagnostic {
    problems::paper_lacks(Place::whole(&material.sheet.source), paper.name, lacks)
}

fn one(
    material: &Material<'_>,
    wording: &Wording,
    paper: &'static Paper,
    asked: &Asked,
) -> Result<Written, Refusal> {
    let Some(stage) = paper.stage() else {
        return of(material, wording, paper, asked);
    };
    let Sheet { source, tree, fields, priced, is_whole, lacks_prices } = material.sheet;
    let sheet = Sheet {
        source: source.clone(),
        tree: tree.clone(),
        fields: earlier::at(stage, fields),
        priced: priced.clone(),
        is_whole: *is_whole,
        lacks_prices: *lacks_prices,
    };
    // What is wrong with the sheet was reported from the whole of it.
    let mut reported = Problems::default();
    let assessment = assessment::assess(&sheet, material.workshop, None, &mut reported);
    let then = Material { sheet: &sheet, assessment: &assessment, ..*material };
    of(&then, wording, paper, asked)
}

/// A paper of the material as it is, with what is asked for beside it.
fn of(
    material: &Material<'_>,
    wording: &Wording,
    paper: &'static Paper,
    asked: &Asked,
) -> Result<Written, Refusal> {
    let writer = Writer::new(material, wording);
    let data = paper.data(&writer)?;
    let is_report = paper.name == RETURN_REPORT;
    let calendar = if is_report { calendar::calendar(&writer)? } else { None };
    let has_phone = is_report && asked.phone;
    let letter = match asked.message {
        true => Some(Letter::of(&writer, paper, calendar.is_some(), has_phone)?),
        false => None,
    };
    let phone = match has_phone {
        true => Some(paper.data(&writer.for_edition(Edition::Phone))?),
        false => None,
    };
    Ok(Written { paper, data, day: material::day(material.sheet), phone, calendar, letter })
}
