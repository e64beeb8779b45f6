//! Why it failed: the sentences, and the signs for and against as they were weighed.

use super::Writer;
use crate::assessment::cause::evidence::{Derivation, Origin};
use crate::assessment::cause::scores::Fault;
use crate::assessment::cause::weighing::Weighed;
use crate::diagnostic::Diagnostic;
use crate::document::format;
use crate::document::view::assessed::{CauseView, SignRow, Signs};
use crate::sheet::vocabulary::CauseKind;

/// Most signs that are drawn; those left out count least.
const MOST_ROWS: usize = 9;

impl Writer<'_> {
    /// The technician's words where page 1 has not said them, how such a cause does harm, the signs.
    pub(super) fn cause(&self) -> Result<Option<CauseView>, Diagnostic> {
        let Some(cause) = &self.fields().cause else { return Ok(None) };
        let said = self.fields().in_short.as_ref().is_none_or(|short| short.why.is_none());
        let own = cause.note.as_ref().filter(|_| !said).map(|text| text.0.clone());
        let told = ["triage", "cause", "contributing", "cause-support"];
        let told = told.iter().map(|name| self.sentence(name)).collect::<Result<Vec<_>, _>>()?;
        let text = own.into_iter().chain(told).filter(|text| !text.is_empty()).collect();
        let heading = self.sentence("cause-heading")?;
        Ok(Some(CauseView { heading, text, signs: self.signs(cause.main.value) }))
    }

    /// The signs that counted for or against the stated cause.
    fn signs(&self, stated: CauseKind) -> Option<Signs> {
        let fault = Fault::of(stated)?;
        let weighing = &self.material.assessment.weighing;
        let (for_it, against) = weighing.for_and_against(fault);
        let counted = |one: &&Weighed| one.taken.of(fault) != 0;
        let signs: Vec<&Weighed> =
            for_it.into_iter().chain(against).filter(counted).take(MOST_ROWS).collect();
        let largest = signs.iter().map(|one| one.taken.of(fault).abs()).max()?;
        let wording = self.wording;
        let rows = signs.iter().map(|one| {
            let points = one.taken.of(fault);
            SignRow {
                text: self.sign_text(one),
                shown_by: self.shown_by(one),
                points: format::number(points.into(), wording),
                share: f64::from(points) / f64::from(largest),
            }
        });
        let cause = wording.choice("causes-as-subject", stated.word());
        Some(Signs {
            label: wording.label("signs-weighed").replace("{cause}", cause),
            note: weighing.house_values.then(|| wording.label("house-values").to_owned()),
            columns: ["sign", "shown-by", "points"]
                .map(|key| wording.label(key).to_owned())
                .to_vec(),
            rows: rows.collect(),
        })
    }

    fn sign_text(&self, one: &Weighed) -> String {
        let plain = self.wording.sign(one.sign.name(), "plain");
        match one.seen {
            true => format::capitalised(plain),
            false => self.wording.label("sign-not-found").replace("{sign}", plain),
        }
    }

    /// What shows a sign, from its first origin that shows anything.
    fn shown_by(&self, one: &Weighed) -> String {
        let shown = one.origins.iter().find_map(|origin| match origin {
            Origin::Finding { finding, .. } => {
                let strip = self.fields().strip_down.as_ref()?;
                self.reference(strip.findings.get(*finding)?)
            }
            Origin::Arrival { .. } => self
                .numbers_of(self.fields().arrival.photos.iter())
                .or_else(|| Some(self.wording.label("on-arrival").to_owned())),
            Origin::NotSeenList(_) => Some(self.wording.label("looked-for").to_owned()),
            Origin::Derived(Derivation::WaterPoured) => self.facts.water().map(str::to_owned),
            Origin::Derived(_) => Some(self.wording.label("as-told").to_owned()),
            Origin::Bench(_) => Some(self.wording.label("on-the-bench").to_owned()),
        });
        shown.unwrap_or_default()
    }
}
