//! Findings, part by part: plain words first, trade words in the spine.

use serde::Serialize;

use super::Writer;
use super::photos::Shows;
use crate::assessment::bench::bearing::{Bearing, ClearanceClass, Closure};
use crate::diagnostic::Diagnostic;
use crate::document::facts::PartFacts;
use crate::document::format;
use crate::document::view::{Fact, FindingView, Pair};
use crate::sheet::findings::Finding;
use crate::sheet::photo_use::PhotoUse;
use crate::sheet::vocabulary::Condition;

/// What the sentences of one finding see: the part, and the whole job.
#[derive(Serialize)]
struct FindingFacts<'a> {
    part: &'a PartFacts,
    job: &'a super::JobFacts,
}

impl Writer<'_> {
    pub(super) fn findings(&self, pair: Option<&Pair>) -> Result<Vec<FindingView>, Diagnostic> {
        let Some(strip) = &self.fields().strip_down else { return Ok(Vec::new()) };
        let count = strip.findings.len();
        let on_page_1: Vec<&str> = pair
            .iter()
            .flat_map(|pair| std::iter::once(&pair.before).chain(&pair.after))
            .map(|photo| photo.number.as_str())
            .collect();
        let each = strip.findings.iter().zip(self.facts.parts()).enumerate();
        each.map(|(at, (finding, part))| self.finding(finding, part, (at + 1, count), &on_page_1))
            .collect()
    }

    fn finding(
        &self,
        finding: &Finding,
        part: &PartFacts,
        (number, count): (usize, usize),
        on_page_1: &[&str],
    ) -> Result<FindingView, Diagnostic> {
        let wording = self.wording;
        let facts = FindingFacts { part, job: &self.facts };
        let own = finding.heading.as_ref().map(|heading| heading.0.clone());
        let heading = match own.or_else(|| self.heading_of_sign(finding)) {
            Some(heading) => heading,
            None => wording.sentence("finding-heading", &facts)?,
        };
        let told = wording.sentence("finding", &facts)?;
        let note = finding.note.iter().map(|note| note.0.clone());
        let text: Vec<String> = note.chain([told]).filter(|text| !text.is_empty()).collect();
        let shown = |photos: &[PhotoUse], shows| {
            let mut views = self.photo_views(photos, shows);
            views.retain(|photo| !on_page_1.contains(&photo.number.as_str()));
            views
        };
        let label = wording.label("finding-of").replace("{number}", &number.to_string());
        Ok(FindingView {
            number: label.replace("{count}", &count.to_string()),
            part: format::capitalised(wording.part(finding.part.name(), "plain")),
            condition: finding.condition.word(),
            condition_word: wording.choice("conditions", finding.condition.word()).to_owned(),
            action_word: finding
                .action
                .map(|action| wording.choice("actions", action.word()).to_owned()),
            facts: self.trade_facts(finding),
            heading,
            text: if text.is_empty() { text } else { vec![text.join(" ")] },
            reference: self.reference(finding),
            photos: shown(&finding.photos, Shows::Found(finding)),
            photos_after: shown(&finding.photos_after, Shows::Left(finding)),
        })
    }

    /// The heading of the first sign, which says what is there.
    fn heading_of_sign(&self, finding: &Finding) -> Option<String> {
        let sign = finding.signs.first()?;
        let part = self.wording.part(finding.part.name(), "plain");
        Some(self.wording.sign(sign.name(), "heading").replace("{part}", part))
    }

    /// Designation and trade terms, for readers of the trade.
    fn trade_facts(&self, finding: &Finding) -> Vec<Fact> {
        let wording = self.wording;
        let bearing = finding.bearing.as_ref().map(|name| Fact {
            under: Bearing::parse(&name.0).map(|bearing| self.bearing(&bearing)),
            ..Fact::mono(wording.label("bearing"), &name.0)
        });
        let mut facts: Vec<Fact> = bearing.into_iter().collect();
        if !finding.signs.is_empty() && finding.condition != Condition::Sound {
            let terms: Vec<&str> =
                finding.signs.iter().map(|sign| wording.sign(sign.name(), "trade")).collect();
            let norms: Vec<&str> =
                finding.signs.iter().filter_map(|sign| sign.0.iso.as_deref()).collect();
            let under = (!norms.is_empty()).then(|| {
                norms.iter().map(|norm| format!("ISO\u{a0}{norm}")).collect::<Vec<_>>().join(", ")
            });
            let label = wording.label("trade-term");
            facts.push(Fact { under, ..Fact::plain(label, terms.join("; ")) });
        }
        facts
    }

    /// What a designation means: size, closure, clearance.
    fn bearing(&self, bearing: &Bearing) -> String {
        let wording = self.wording;
        let size = bearing.size.map(|size| {
            let text = wording.label("bearing-size").replace("{bore}", &size.bore.to_string());
            let text = text.replace("{outside}", &size.outside.to_string());
            text.replace("{width}", &size.width.to_string())
        });
        let closure = match bearing.closure {
            Closure::Open => "open",
            Closure::Shields => "shields",
            Closure::NonContactSeals => "non-contact-seals",
            Closure::LightContactSeals => "light-contact-seals",
            Closure::ContactSeals => "contact-seals",
        };
        let sides = if bearing.closed_sides == 1 { "one-side" } else { "both-sides" };
        let closure = wording.choice("closures", closure);
        let closure = match bearing.closed_sides {
            0 => closure.to_owned(),
            _ => wording.label(sides).replace("{closure}", closure),
        };
        let clearance = match bearing.clearance {
            ClearanceClass::Normal => None,
            ClearanceClass::C2 => Some("C2"),
            ClearanceClass::C3 => Some("C3"),
            ClearanceClass::C4 => Some("C4"),
            ClearanceClass::C5 => Some("C5"),
            ClearanceClass::Motor => Some("CM"),
        };
        let clearance =
            clearance.map(|class| wording.label("clearance-class").replace("{class}", class));
        let parts: Vec<String> = size.into_iter().chain([closure]).chain(clearance).collect();
        parts.join(", ")
    }

    /// `Photos 3, 4`: all photos of the finding, those of page 1 too.
    pub(super) fn reference(&self, finding: &Finding) -> Option<String> {
        self.numbers_of(finding.photos.iter().chain(&finding.photos_after))
    }

    /// `Photos 3, 4`, by their numbers in the evidence list.
    pub(super) fn numbers_of<'p>(
        &self,
        photos: impl Iterator<Item = &'p PhotoUse>,
    ) -> Option<String> {
        let numbers: Vec<String> = photos
            .filter_map(|photo| self.material.photo(&photo.file.0))
            .map(|(number, _)| number.to_string())
            .collect();
        let label = match numbers.len() {
            0 => return None,
            1 => self.wording.label("photo-number"),
            _ => self.wording.label("photo-numbers"),
        };
        Some(label.replace("{numbers}", &numbers.join(", ")))
    }
}
