//! Why it failed: the sentences, and the signs for and against as they were weighed.

use crate::assessment::cause::evidence::{Derivation, Origin};
use crate::assessment::cause::scored_sign::ScoredSign;
use crate::assessment::cause::scores::RootCause;
use crate::diagnostic::Diagnostic;
use crate::document::clauses::Slot;
use crate::document::format;
use crate::document::sections::findings;
use crate::document::text;
use crate::document::view::assessed::{CauseView, SignRow, Signs};
use crate::document::writer::Writer;
use crate::sheet::catalogue::Sign;
use crate::sheet::vocabulary::CauseKind;

/// Most signs that are drawn; those left out count least.
const MOST_ROWS: usize = 9;

/// Points of the strongest sign: score 2, weight 3.
const MOST_POINTS: i32 = 6;

/// How much a sign weighs, in words.
fn weight(points: i32) -> &'static str {
    match (points.abs(), 0 < points) {
        (6.., true) => "strongly-for",
        (3.., true) => "for",
        (_, true) => "slightly-for",
        (6.., false) => "strongly-against",
        (3.., false) => "against",
        (_, false) => "slightly-against",
    }
}

/// The technician's words if page 1 has not said them, how such a cause does harm, the signs.
pub fn cause(writer: &Writer<'_>) -> Result<Option<CauseView>, Diagnostic> {
    let Some(cause) = &writer.fields().cause else { return Ok(None) };
    let slots = [Slot::Triage, Slot::Cause, Slot::Contributing, Slot::CauseSupport];
    let said = slots.iter().map(|slot| writer.said(*slot)).collect::<Result<Vec<_>, _>>()?;
    let looked = looked_for_too(writer, cause.main.value);
    let note = writer.note_beside(|short| &short.why, cause.note.as_ref());
    let text = note.into_iter().chain(said).filter(|text| !text.is_empty()).collect();
    let heading = writer.said(Slot::CauseHeading)?;
    Ok(Some(CauseView { heading, text, signs: signs(writer, cause.main.value), looked }))
}

/// The signs that counted for or against the stated cause.
fn signs(writer: &Writer<'_>, stated: CauseKind) -> Option<Signs> {
    let fault = RootCause::of(stated)?;
    let weighing = &writer.material.assessment.weighing;
    let (for_it, against) = weighing.for_and_against(fault);
    let counted = |one: &&ScoredSign| one.used_points.of(fault) != 0;
    let signs: Vec<&ScoredSign> =
        for_it.into_iter().chain(against).filter(counted).take(MOST_ROWS).collect();
    if signs.is_empty() {
        return None;
    }
    let wording = writer.wording;
    let rows = signs.iter().map(|one| {
        let points = one.used_points.of(fault);
        SignRow {
            text: sign_text(writer, one),
            shown_by: shown_by(writer, one),
            points: wording.choice("weights", weight(points)).to_owned(),
            // One scale for every report: the strongest sign there can be fills its side.
            share: f64::from(points) / f64::from(MOST_POINTS),
        }
    });
    let own = &writer.material.workshop.fields.scores;
    let is_own = weighing.house_values
        && signs.iter().any(|one| own.iter().any(|score| score.sign == one.sign));
    let cause = wording.choice("causes-as-subject", stated.word());
    Some(Signs {
        label: text::fill(wording.label("signs-weighed"), &[("cause", cause)]),
        note: is_own.then(|| wording.label("house-values").to_owned()),
        columns: ["sign", "shown-by", "speaks"].map(|key| wording.label(key).to_owned()).to_vec(),
        rows: rows.collect(),
    })
}

/// Signs that were looked for and not found, but for those that are weighed in the table.
fn looked_for_too(writer: &Writer<'_>, stated: CauseKind) -> Option<String> {
    let weighing = &writer.material.assessment.weighing;
    let is_weighed = |sign: Sign| {
        let own = weighing.signs.iter().find(|one| one.sign == sign);
        own.zip(RootCause::of(stated)).is_some_and(|(one, fault)| one.used_points.of(fault) != 0)
    };
    let strip = writer.fields().strip_down.as_ref()?;
    let signs = strip.looked_for_absent.iter().filter(|sign| !is_weighed(sign.value));
    let known = signs.map(|sign| writer.wording.sign(sign.name(), "plain").to_owned());
    let plain: Vec<String> =
        known.chain(strip.looked_for_absent.others().map(str::to_owned)).collect();
    let list = format::listed(&plain, writer.wording);
    (!list.is_empty())
        .then(|| text::fill(writer.wording.label("looked-for-too"), &[("list", &list)]))
}

fn sign_text(writer: &Writer<'_>, one: &ScoredSign) -> String {
    let is_jet = |origin: &Origin| matches!(origin, Origin::Derived(Derivation::WashedWithJet));
    if one.origins.first().is_some_and(is_jet) {
        return writer.wording.label("washed-with-jet").to_owned();
    }
    let plain = writer.wording.sign(one.sign.name(), "plain");
    match one.seen {
        true => text::capitalised(plain),
        false => text::fill(writer.wording.label("sign-not-found"), &[("sign", plain)]),
    }
}

/// What shows a sign, from its first origin that shows anything.
fn shown_by(writer: &Writer<'_>, one: &ScoredSign) -> String {
    let shown = one.origins.iter().find_map(|origin| match origin {
        Origin::Finding { finding, .. } => {
            let strip = writer.fields().strip_down.as_ref()?;
            findings::numbers_of(writer, strip.findings.get(*finding)?.photos.iter())
        }
        Origin::Arrival { .. } => {
            findings::numbers_of(writer, writer.fields().arrival.photos.iter())
                .or_else(|| Some(writer.wording.label("on-arrival").to_owned()))
        }
        Origin::NotSeenList(_) => Some(writer.wording.label("looked-for").to_owned()),
        Origin::Derived(Derivation::WaterPoured) => {
            let photos = findings::numbers_of(writer, writer.fields().arrival.photos.iter());
            let parts = writer.facts.water().map(str::to_owned).into_iter().chain(photos);
            Some(parts.collect::<Vec<_>>().join(", "))
        }
        Origin::Derived(_) => Some(writer.wording.label("as-told").to_owned()),
        Origin::Bench(_) => Some(writer.wording.label("on-the-bench").to_owned()),
    });
    shown.unwrap_or_default()
}
