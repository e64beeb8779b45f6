//! The arrival note: one page for the owner on what came in, how, and what happens next.
//!
//! In: a [`Writer`]; out: what `arrival-note.typ` sees. It is written before the unit is opened, so it
//! says nothing of what is inside.

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::frame;
use crate::document::sections::{arrival, letterhead, photos};
use crate::document::view::fact::Fact;
use crate::document::view::noted::NotedGroup;
use crate::document::view::{Answer, Frame, PhotoView};
use crate::document::writer::Writer;

/// The arrival note.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ArrivalNote {
    /// What every paper has.
    #[serde(flatten)]
    pub frame: Frame,
    /// Groups of facts beside the text.
    pub spine: Vec<Vec<Fact>>,
    /// The one sentence.
    pub lead: String,
    /// The unit and its packing as they came.
    pub photos: Vec<PhotoView>,
    /// What was reported, what was seen, where it points, what happens next.
    pub answers: Vec<Answer>,
    /// What was noted, by block.
    pub noted: Vec<NotedGroup>,
    /// The heading over the cautions.
    pub cautions_heading: String,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// Builds the view.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn view(writer: &Writer<'_>) -> Result<ArrivalNote, Diagnostic> {
    let (material, wording) = (writer.material, writer.wording);
    let title = letterhead::title(writer, "arrival-note");
    let photos = &writer.fields().arrival.photos;
    let shown = photos::photo_views(writer, photos, photos::Shows::Arrival).into_iter();
    Ok(ArrivalNote {
        frame: frame::frame(&material.cover(), wording, title),
        spine: vec![letterhead::who_and_what(writer, "arrival-note"), letterhead::came_in(writer)],
        lead: writer.said(Slot::ArrivalLead)?,
        // The whole note is of how it came.
        photos: shown.map(|photo| PhotoView { lead: None, ..photo }).collect(),
        answers: arrival::answers(writer)?,
        noted: arrival::noted(writer),
        cautions_heading: wording.label("take-care").to_owned(),
        cautions: arrival::cautions(writer),
    })
}
