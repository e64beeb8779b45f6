//! Photos with captions, marks and alternative text, and the strongest pair for page 1.

use super::Writer;
use crate::document::facts;
use crate::document::format;
use crate::document::view::{MarkView, Pair, PhotoView};
use crate::sheet::findings::Finding;
use crate::sheet::grid::{COLUMNS, GridPlace};
use crate::sheet::photo_use::{Mark, MarkKind, PhotoUse};

impl Writer<'_> {
    pub(super) fn photo_views(
        &self,
        photos: &[PhotoUse],
        finding: Option<&Finding>,
        as_left: bool,
    ) -> Vec<PhotoView> {
        photos.iter().filter_map(|photo| self.photo_view(photo, finding, as_left)).collect()
    }

    fn photo_view(
        &self,
        used: &PhotoUse,
        finding: Option<&Finding>,
        as_left: bool,
    ) -> Option<PhotoView> {
        let (number, photo) = self.material.photo(&used.file.0)?;
        let wording = self.wording;
        let part = finding.map_or_else(
            || wording.label("on-arrival").to_owned(),
            |finding| wording.part(finding.part.name(), "plain").to_owned(),
        );
        let subject =
            used.caption.as_ref().map_or_else(|| format::capitalised(&part), |own| own.0.clone());
        let day = photo.facts.taken.as_ref().map(|taken| format::day(taken.local.date(), wording));
        let caption = match day {
            Some(day) => format!("{subject}, {day}"),
            None => subject.clone(),
        };
        let lead = wording.label(match (finding.is_some(), as_left) {
            (true, true) => "as-left",
            (true, false) => "as-found",
            (false, _) => "as-arrived",
        });
        let marks: Vec<MarkView> = used.marks.iter().map(|mark| mark_view(mark, wording)).collect();
        let mut alt = format!("{lead} {subject}");
        if let Some(finding) = finding.filter(|_| !as_left) {
            alt = format!("{alt}, {}", wording.choice("conditions", finding.condition.word()));
        }
        let marked: Vec<&str> = marks.iter().filter_map(|mark| mark.text.as_deref()).collect();
        if !marked.is_empty() {
            alt = format!("{alt}. {} {}", wording.label("marked"), marked.join(", "));
        }
        Some(PhotoView {
            file: format!("/job/photo/{}.svg", number - 1),
            width: photo.width,
            height: photo.height,
            number: number.to_string(),
            lead: Some(lead.to_owned()),
            caption,
            alt,
            marks,
        })
    }

    /// Before and after of the worst part that has both, else the best single photo.
    pub(super) fn pair(&self) -> Option<Pair> {
        let findings = self.fields().strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
        let both =
            |finding: &&Finding| !finding.photos.is_empty() && !finding.photos_after.is_empty();
        let with_both: Vec<Finding> = findings.iter().filter(both).cloned().collect();
        let with_any: Vec<Finding> =
            findings.iter().filter(|one| !one.photos.is_empty()).cloned().collect();
        let finding = facts::worst(&with_both)
            .and_then(|at| with_both.get(at))
            .or_else(|| facts::worst(&with_any).and_then(|at| with_any.get(at)))
            .or_else(|| with_any.first());
        let Some(finding) = finding else {
            let arrival = self.photo_views(&self.fields().arrival.photos, None, false);
            return arrival.into_iter().next().map(|before| Pair { before, after: None });
        };
        let first = |photos: &[PhotoUse], as_left| {
            photos.first().and_then(|photo| self.photo_view(photo, Some(finding), as_left))
        };
        Some(Pair {
            before: first(&finding.photos, false)?,
            after: first(&finding.photos_after, true),
        })
    }
}

fn mark_view(mark: &Mark, wording: &crate::document::wording::Wording) -> MarkView {
    let text = mark.text.as_ref().map(|text| text.0.clone());
    let one = |kind, at: GridPlace| {
        let (x, y) = at.fractions();
        MarkView { kind, x, y, x2: None, y2: None, size: None, text: text.clone() }
    };
    let two = |kind, at, to: GridPlace| {
        let (x2, y2) = to.fractions();
        MarkView { x2: Some(x2), y2: Some(y2), ..one(kind, at) }
    };
    match &mark.kind {
        // A diameter in cells becomes a radius in widths.
        MarkKind::Ring(at, cells) => {
            MarkView { size: Some(cells / 2.0 / f64::from(COLUMNS)), ..one("ring", *at) }
        }
        MarkKind::Arrow(tip, tail) => two("arrow", *tip, *tail),
        MarkKind::Box(at, to) => two("box", *at, *to),
        MarkKind::Label(at) => one("label", *at),
        MarkKind::Length(at, to, length) => {
            let measured = format::quantity(length, wording);
            let text = match &text {
                Some(text) => format!("{text}, {measured}"),
                None => measured,
            };
            MarkView { text: Some(text), ..two("length", *at, *to) }
        }
    }
}
