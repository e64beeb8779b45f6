//! What was found and why, in short, before the owner chooses.

use super::photos::{self, Shows};
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::facts;
use crate::document::text;
use crate::document::view::{Answer, PhotoView};
use crate::document::writer::{Writer, joined};

/// Most photos of the letter.
const MOST_PHOTOS: usize = 3;

/// The one sentence: what happened to the part that fared worst.
pub fn lead(writer: &Writer<'_>) -> Result<String, Diagnostic> {
    writer.said(Slot::Lead)
}

/// What the owner said, what was found, why it happened and how far the signs carry that.
pub fn answers(writer: &Writer<'_>) -> Result<Vec<Answer>, Diagnostic> {
    let note = writer.fields().cause.as_ref().and_then(|cause| cause.note.as_ref());
    let note = note.map_or_else(String::new, |note| text::ended(&note.0));
    let why = joined(&writer.said(Slot::Why)?, &note);
    let texts = [
        ("you-told-us", writer.said(Slot::Told)?),
        ("what-we-found", writer.said(Slot::Found)?),
        ("why-it-happened", joined(&why, &writer.said(Slot::AnswerSupport)?)),
    ];
    let said = texts.into_iter().filter(|(_, text)| !text.is_empty());
    let answer = |(key, text)| Answer { question: writer.wording.label(key).to_owned(), text };
    Ok(said.map(answer).collect())
}

/// One photo each of the parts that fared worst, as found; of a unit that was not opened, as it came.
pub fn photos(writer: &Writer<'_>) -> Vec<PhotoView> {
    let fields = writer.fields();
    let by_weight = facts::by_weight(fields.findings());
    let of_parts = by_weight.iter().filter_map(|&finding| {
        let shown = photos::photo_views(writer, &finding.photos, Shows::Found(finding));
        shown.into_iter().next()
    });
    let mut shown: Vec<PhotoView> = of_parts.take(MOST_PHOTOS).collect();
    if shown.is_empty() {
        shown = photos::photo_views(writer, &fields.arrival.photos, Shows::Arrival);
        shown.truncate(MOST_PHOTOS);
    }
    shown
}
