//! How a unit came in: what the owner said, what was seen, where it points, what happens next.

use crate::assessment::care::state::Hazard;
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::noted;
use crate::document::text;
use crate::document::view::Answer;
use crate::document::view::noted::NotedGroup;
use crate::document::writer::Writer;

/// The questions, each with the place that answers it.
const QUESTIONS: [(&str, Slot); 4] = [
    ("you-told-us", Slot::Told),
    ("what-we-saw", Slot::ArrivalSeen),
    ("where-it-points", Slot::ArrivalPoints),
    ("what-happens-next", Slot::ArrivalNext),
];

/// The short answers; a question without one is left out.
pub fn answers(writer: &Writer<'_>) -> Result<Vec<Answer>, Diagnostic> {
    let mut answers = Vec::new();
    for (key, slot) in QUESTIONS {
        let text = writer.said(slot)?;
        if !text.is_empty() {
            answers.push(Answer { question: writer.wording.label(key).to_owned(), text });
        }
    }
    Ok(answers)
}

/// Fields of the unit that are typed at the end of a job.
const TYPED_LATER: [&str; 2] = ["unit.firmware", "unit.pairing"];

/// What was noted of the unit and of how it came.
pub fn noted(writer: &Writer<'_>) -> Vec<NotedGroup> {
    let is_of_arrival = |path: &str| {
        let block = path.split('.').next().unwrap_or_default();
        matches!(block, "unit" | "arrival") && !TYPED_LATER.contains(&path)
    };
    let mut groups = noted::groups(&writer.material.sheet.tree, writer.wording, is_of_arrival);
    // How it came is what the note is about.
    groups.reverse();
    groups
}

/// What can hurt somebody while the unit is here: open dangers, then the general cautions.
pub fn cautions(writer: &Writer<'_>) -> Vec<String> {
    let care = &writer.material.assessment.care;
    let dangers = care.dangers.iter().map(|danger| {
        let caution = writer.wording.label(match danger.hazard {
            Hazard::Battery => "danger-caution-battery",
            Hazard::Ride => "danger-caution-ride",
        });
        text::fill(caution, &[("sign", writer.wording.sign(danger.sign.name(), "plain"))])
    });
    let words = writer.wording.care();
    let general = care.cautions.iter().map(|name| words.caution(name).to_owned());
    dangers.chain(general).collect()
}
