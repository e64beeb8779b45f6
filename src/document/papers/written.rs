//! The papers of a job that are wanted, written and not yet set: each with the data of its template.
//!
//! In: a writer and a choice; out: rows of the table of papers with JSON. Setting them is `print`.

use super::Paper;
use super::choice::Choice;
use crate::diagnostic::Place;
use crate::document::problems;
use crate::document::refusal::Refusal;
use crate::document::writer::Writer;

/// The wanted papers of a job with the data of their templates, in the order of the table.
///
/// # Errors
/// A paper that was asked for and lacks something, or problems in wordings.
pub fn written(
    writer: &Writer<'_>,
    choice: &Choice,
) -> Result<Vec<(&'static Paper, Vec<u8>)>, Refusal> {
    let wanted = choice.of(writer.fields()).map_err(|(paper, lacks)| {
        let place = Place::whole(&writer.material.sheet.source);
        Refusal::from(problems::paper_lacks(place, paper.name, &lacks))
    })?;
    let data = wanted.into_iter().filter_map(|paper| Some((paper, paper.data(writer)?)));
    data.map(|(paper, data)| Ok((paper, data?))).collect()
}
