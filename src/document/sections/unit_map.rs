//! The unit as a section with the names of the parts, and the way the water took.
//!
//! In: findings; out: where each name is set, or that it is not on the drawing, so that none is
//! lost. The places of parts are `unit_map/places.rs`, the drawing is layout.

mod names;
mod places;

use crate::document::text;
use crate::document::view::{MapName, UnitMap};
use crate::document::writer::Writer;
use crate::sheet::catalogue::sign::Link;
use crate::sheet::findings::Finding;
use crate::sheet::vocabulary::{CauseKind, Condition, UnitKind};
use places::Room;

pub use places::{Drawn, known, place};

/// The drawing; `None` if no part was found harmed that it could show.
pub fn unit_map(writer: &Writer<'_>) -> Option<UnitMap> {
    let findings = &writer.fields().strip_down.as_ref()?.findings;
    let drawn = drawn(writer.fields().unit.kind, findings);
    let wording = writer.wording;
    let mut room = Room::default();
    let (mut named, mut told, mut beside) = (Vec::new(), Vec::new(), Vec::new());
    for finding in findings {
        let name = wording.part_of(finding);
        let condition = wording.choice("conditions", finding.condition.word());
        let is_examined = finding.condition != Condition::NotExamined;
        let place = place(finding.part.value, drawn).filter(|_| is_examined);
        match place.and_then(|place| room.take(place)) {
            Some(place) => {
                let is_harmed = is_harmed(finding);
                let text = text::capitalised(&match is_harmed {
                    true => format!("{name}, {condition}"),
                    false => name.to_owned(),
                });
                named.push((finding, names::Named { text, place, is_harmed }));
            }
            None => beside.push(format!("{name} ({condition})")),
        }
    }
    let (findings_named, named): (Vec<&Finding>, Vec<names::Named>) = named.into_iter().unzip();
    let mut shown = Vec::new();
    for ((finding, named), dealt) in
        findings_named.into_iter().zip(&named).zip(names::dealt(&named))
    {
        let condition = wording.choice("conditions", finding.condition.word());
        let name = wording.part_of(finding);
        match dealt {
            Some((side, at)) => {
                told.push(format!("{name}, {condition}"));
                shown.push(MapName {
                    part: finding.part.name(),
                    text: named.text.clone(),
                    x: named.place[0],
                    y: named.place[1],
                    side: side.word(),
                    at,
                    whole: !named.is_harmed,
                });
            }
            None => beside.push(format!("{name} ({condition})")),
        }
    }
    if shown.iter().all(|name| name.whole) {
        return None;
    }
    let way_in = way_in(writer, findings);
    let way_in = way_in.and_then(|finding| Some((finding, place(finding.part.value, drawn)?)));
    let mut alt = text::fill(wording.label("map-alt"), &[("list", &told.join("; "))]);
    if let Some((finding, _)) = way_in {
        let seal = wording.part_of(finding);
        alt = format!("{alt} {}", text::fill(wording.label("map-water-alt"), &[("part", seal)]));
    }
    let caption = if way_in.is_some() { "map-caption-water" } else { "map-caption" };
    let mut caption = text::capitalised(wording.label(caption));
    if !beside.is_empty() {
        let list = text::fill(wording.label("map-not-drawn"), &[("list", &beside.join(", "))]);
        caption = format!("{caption} {list}");
        alt = format!("{alt} {list}");
    }
    Some(UnitMap {
        kind: drawn.word(),
        heading: wording.label("map-heading").to_owned(),
        names: shown,
        water: way_in.map(|(_, place)| place),
        caption,
        alt,
    })
}

/// The finding at the part past which the water came: the first one that shows a way in, if
/// water is the cause or had a part in it.
fn way_in<'f>(writer: &Writer<'_>, findings: &'f [Finding]) -> Option<&'f Finding> {
    let cause = writer.fields().cause.as_ref()?;
    let is_wet = cause.main.value == CauseKind::Ingress
        || cause.contributing.iter().any(|one| one.value == CauseKind::Ingress);
    let shows_way = |finding: &&Finding| finding.signs.iter().any(|sign| sign.0.link == Link::Path);
    findings.iter().find(shows_way).filter(|_| is_wet)
}

/// Which section is drawn. A hub of which no more is known is drawn with planet gears only if a
/// finding names a part that no other hub has.
pub fn drawn(kind: UnitKind, findings: &[Finding]) -> Drawn {
    let has_gears = || {
        findings.iter().any(|finding| {
            let row = finding.part.0;
            row.is_of(UnitKind::HubGeared) && !row.is_of(UnitKind::HubDirect)
        })
    };
    match kind {
        UnitKind::MidDrive => Drawn::MidDrive,
        UnitKind::HubGeared => Drawn::HubGeared,
        UnitKind::HubDirect => Drawn::HubDirect,
        UnitKind::Hub if has_gears() => Drawn::HubGeared,
        UnitKind::Hub => Drawn::Hub,
    }
}

fn is_harmed(finding: &Finding) -> bool {
    !matches!(finding.condition, Condition::Sound | Condition::NotExamined)
}
