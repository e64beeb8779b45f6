//! The options letter: what was found and why, in short, and what the owner can choose.
//!
//! In: a [`Writer`]; out: what `options-letter.typ` sees. It never pushes: every choice has the same
//! room and the same words, none is marked, and to have the unit back as it is is always one of them.

use serde::Serialize;

use crate::diagnostic::Diagnostic;
use crate::document::frame;
use crate::document::sections::{choices, letterhead, offer, slip};
use crate::document::view::fact::Fact;
use crate::document::view::letter::{Choices, Slip};
use crate::document::view::{Answer, Frame, PhotoView};
use crate::document::writer::Writer;

/// The options letter.
#[derive(Debug, Serialize)]
pub struct OptionsLetter {
    /// What every paper has.
    #[serde(flatten)]
    pub frame: Frame,
    /// Groups of facts beside the text.
    pub spine: Vec<Vec<Fact>>,
    /// The one sentence.
    pub lead: String,
    /// Photos of what was found, the worst first.
    pub photos: Vec<PhotoView>,
    /// What was reported and found, and why it happened.
    pub answers: Vec<Answer>,
    /// The choices.
    pub choices: Choices,
    /// The slip to answer with.
    pub slip: Slip,
}

/// Builds the view.
///
/// # Errors
/// A sentence whose template does not work, placed in its own file.
pub fn view(writer: &Writer<'_>) -> Result<OptionsLetter, Diagnostic> {
    let (material, wording) = (writer.material, writer.wording);
    let title = letterhead::title(writer, "options-letter");
    let days = letterhead::until_now(writer);
    Ok(OptionsLetter {
        frame: frame::frame(&material.cover(), wording, title),
        spine: vec![letterhead::who_and_what(writer, "options-letter"), days],
        lead: offer::lead(writer)?,
        photos: offer::photos(writer),
        answers: offer::answers(writer)?,
        choices: choices::choices(writer)?,
        slip: slip::slip(writer),
    })
}
