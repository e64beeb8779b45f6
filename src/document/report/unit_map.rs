//! The unit as a section with the numbers of the findings, and the way the water took.
//!
//! In: findings; out: which number stands at which part. Where a part lies on the drawing is layout.

use super::Writer;
use crate::document::format;
use crate::document::view::{MapNumber, UnitMap};
use crate::sheet::catalogue::sign::Link;
use crate::sheet::findings::Finding;
use crate::sheet::vocabulary::{CauseKind, Condition};

impl Writer<'_> {
    /// The drawing; `None` where no part was found harmed.
    pub(super) fn unit_map(&self) -> Option<UnitMap> {
        let findings = &self.fields().strip_down.as_ref()?.findings;
        if !findings.iter().any(is_harmed) {
            return None;
        }
        let wording = self.wording;
        let numbers: Vec<MapNumber> = (1_usize..)
            .zip(findings)
            .filter(|(_, finding)| finding.condition != Condition::NotExamined)
            .map(|(number, finding)| MapNumber {
                number: number.to_string(),
                part: finding.part.name(),
                whole: !is_harmed(finding),
            })
            .collect();
        let told = (1_usize..).zip(findings).filter(|(_, finding)| is_harmed(finding));
        let told: Vec<String> = told
            .map(|(number, finding)| {
                let part = wording.part(finding.part.name(), "plain");
                let condition = wording.choice("conditions", finding.condition.word());
                format!("{number}: {part}, {condition}")
            })
            .collect();
        let water = self.way_in(findings);
        let mut alt = wording.label("map-alt").replace("{list}", &told.join("; "));
        if let Some(seal) = water {
            let seal = wording.part(seal, "plain");
            alt = format!("{alt} {}", wording.label("map-water-alt").replace("{part}", seal));
        }
        let caption = if water.is_some() { "map-caption-water" } else { "map-caption" };
        Some(UnitMap {
            kind: self.fields().unit.kind.word(),
            heading: wording.label("map-heading").to_owned(),
            numbers,
            water: water.unwrap_or_default().to_owned(),
            caption: format::capitalised(wording.label(caption)),
            alt,
        })
    }

    /// The part past which the water came: the first one that shows a way in, where water is the
    /// cause or had a part in it.
    fn way_in<'f>(&self, findings: &'f [Finding]) -> Option<&'f str> {
        let cause = self.fields().cause.as_ref()?;
        let is_wet = cause.main.value == CauseKind::Ingress
            || cause.contributing.iter().any(|one| one.value == CauseKind::Ingress);
        let shows_way =
            |finding: &&Finding| finding.signs.iter().any(|sign| sign.0.link == Link::Path);
        findings.iter().find(shows_way).filter(|_| is_wet).map(|finding| finding.part.name())
    }
}

fn is_harmed(finding: &Finding) -> bool {
    !matches!(finding.condition, Condition::Sound | Condition::NotExamined)
}
