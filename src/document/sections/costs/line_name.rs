//! What a line of a bill is for, in words.

use crate::assessment::cost::LineKind;
use crate::document::format;
use crate::document::text;
use crate::document::writer::Writer;
use crate::sheet::vocabulary::Condition;

/// More parts than this are counted and not named.
const NAMED_PARTS: usize = 4;

/// What a line is for.
pub fn of(writer: &Writer<'_>, kind: &LineKind) -> String {
    let wording = writer.wording;
    match kind {
        LineKind::Part { what, state: None } => what.clone(),
        LineKind::Part { what, state: Some(state) } => text::fill(
            wording.label("part-in-state"),
            &[("part", what), ("state", wording.choice("part-states", state.word()))],
        ),
        LineKind::Labour { rate, what, .. } => {
            let labour = match rate {
                Some(rate) => text::fill(wording.label("labour-at-rate"), &[("rate", rate)]),
                None => wording.label("labour").to_owned(),
            };
            match what {
                Some(what) => {
                    text::fill(wording.label("labour-for"), &[("labour", &labour), ("what", what)])
                }
                None => labour,
            }
        }
        LineKind::Agreed => {
            let chose = writer.fields().decision.as_ref().map(|decision| decision.option.word());
            let what = chose
                .map_or(wording.label("agreed-price"), |word| wording.choice("option-kinds", word));
            what.to_owned()
        }
        LineKind::Examination => examination(writer),
        LineKind::ExaminationCredited => wording.label("examination-credited").to_owned(),
        LineKind::Postage => wording.label("postage").to_owned(),
        LineKind::CoreCharge(part) => text::fill(wording.label("core-charge"), &[("part", part)]),
        LineKind::CoreReturned(part, day) => text::fill(
            wording.label("core-returned"),
            &[("part", part), ("day", &format::day(*day, wording))],
        ),
    }
}

/// The fee for looking into it, with what was examined.
fn examination(writer: &Writer<'_>) -> String {
    let wording = writer.wording;
    let findings = writer.fields().strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let mut parts: Vec<String> = Vec::new();
    for finding in findings.iter().filter(|one| one.condition != Condition::NotExamined) {
        let name = wording.part(finding.part.value.name(), "plain").to_owned();
        if !parts.contains(&name) {
            parts.push(name);
        }
    }
    if NAMED_PARTS < parts.len() {
        let count = parts.len().to_string();
        parts = vec![text::fill(wording.label("examination-of-parts"), &[("count", &count)])];
    }
    let billing = writer.fields().billing.as_ref();
    let more = billing.and_then(|billing| billing.inspected.as_ref());
    parts.extend(more.map(|text| text.0.clone()));
    match parts.is_empty() {
        true => wording.label("examination").to_owned(),
        false => text::fill(
            wording.label("examination-of"),
            &[("list", &format::listed(&parts, wording))],
        ),
    }
}
