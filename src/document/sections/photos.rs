//! Photos with captions, marks and alternative text, and the strongest pair for page 1.

use crate::document::facts;
use crate::document::format;
use crate::document::ruler::{self, Voice};
use crate::document::sections::compared;
use crate::document::text;
use crate::document::view::{MarkView, Pair, PhotoView};
use crate::document::wording::Wording;
use crate::document::writer::Writer;
use crate::sheet::catalogue::sign::SignKind;
use crate::sheet::findings::Finding;
use crate::sheet::grid::{COLUMNS, GridPlace};
use crate::sheet::photo_use::{Mark, MarkKind, PhotoUse};

/// Size of the words beside marks, in points.
const MARK_SIZE: f64 = 8.0;

/// What a photo is of, and when in the job it was taken.
#[derive(Clone, Copy)]
pub enum Shows<'a> {
    /// The unit as it came in.
    Arrival,
    /// A part before the work.
    Found(&'a Finding),
    /// A part after the work.
    Left(&'a Finding),
    /// The unit that goes back in exchange.
    Exchange,
}

/// The photos that a place of the sheet names, as far as they could be read.
pub fn photo_views(writer: &Writer<'_>, photos: &[PhotoUse], shows: Shows<'_>) -> Vec<PhotoView> {
    let views = photos.iter().enumerate();
    views.filter_map(|(at, photo)| photo_view(writer, photo, shows, at == 0)).collect()
}

/// The same beside words that name the part and what is on it already: such a caption is its day alone.
pub fn beside_their_part(
    writer: &Writer<'_>,
    photos: &[PhotoUse],
    shows: Shows<'_>,
) -> Vec<PhotoView> {
    let short = |used: &PhotoUse| {
        let mut view = photo_view(writer, used, shows, false)?;
        let taken = writer.material.photo(&used.file.0)?.1.facts.taken.as_ref();
        if let Some(taken) = taken.filter(|_| used.caption.is_none()) {
            let arrived = writer.fields().arrival.date.0;
            view.caption = format::day_near(taken.local.date(), arrived, writer.wording);
        }
        Some(view)
    };
    photos.iter().filter_map(short).collect()
}

/// A photo. The first of a finding says what it shows, the others of which part they are.
fn photo_view(
    writer: &Writer<'_>,
    used: &PhotoUse,
    shows: Shows<'_>,
    is_first: bool,
) -> Option<PhotoView> {
    let (number, photo) = writer.material.photo(&used.file.0)?;
    let wording = writer.wording;
    let (lead, subject) = match shows {
        Shows::Arrival => ("as-arrived", wording.label("on-arrival").to_owned()),
        Shows::Found(finding) => ("as-found", found_caption(finding, is_first, wording)),
        Shows::Left(finding) => ("as-left", left_caption(finding, wording)),
        Shows::Exchange => ("sent-back-photo", wording.label("unit-in-exchange").to_owned()),
    };
    let lead = wording.label(lead);
    let subject =
        used.caption.as_ref().map_or_else(|| text::capitalised(&subject), |own| own.0.clone());
    let arrived = writer.fields().arrival.date.0;
    let day = photo.facts.taken.map(|taken| format::day_near(taken.local.date(), arrived, wording));
    let marks: Vec<MarkView> = used.marks.iter().map(|mark| mark_view(mark, wording)).collect();
    let mut alt = format!("{lead} {subject}");
    if let Shows::Found(finding) = shows {
        alt = format!("{alt}, {}", wording.choice("conditions", finding.condition.word()));
    }
    let marked: Vec<&str> = marks.iter().filter_map(|mark| mark.text.as_deref()).collect();
    if !marked.is_empty() {
        alt = format!("{alt}. {} {}", wording.label("marked"), marked.join(", "));
    }
    let mut view = PhotoView {
        file: format!("/job/photo/{}.svg", number - 1),
        width: photo.width,
        height: photo.height,
        cut: None,
        bar: None,
        number: number.to_string(),
        lead: Some(lead.to_owned()),
        caption: day.map_or_else(|| subject.clone(), |day| format!("{subject}, {day}")),
        alt,
        marks,
    };
    let width = compared::width_in_mm(&view, &used.marks);
    view.bar = width.and_then(|width| compared::scale_bar(width, wording));
    Some(view)
}

/// The first photos of a part before and after the work in one frame of at most `tallest` widths, where their
/// marks allow it.
pub fn compare(
    writer: &Writer<'_>,
    finding: &Finding,
    (before, after): (Option<&mut PhotoView>, Option<&mut PhotoView>),
    tallest: f64,
) {
    fn marks<'a>(writer: &Writer<'_>, photos: &'a [PhotoUse], view: &PhotoView) -> &'a [Mark] {
        let number = |used: &PhotoUse| writer.material.photo(&used.file.0).map(|found| found.0);
        let shown = photos
            .iter()
            .find(|used| number(used).is_some_and(|number| number.to_string() == view.number));
        shown.map_or(&[], |used| &used.marks)
    }
    let Some((before, after)) = before.zip(after) else { return };
    let found = marks(writer, &finding.photos, before);
    let left = marks(writer, &finding.photos_after, after);
    compared::in_one_frame((before, found), (after, left), tallest, writer.wording);
}

/// The part, and in the first photo the first of its signs that an eye can see.
fn found_caption(finding: &Finding, is_first: bool, wording: &Wording) -> String {
    let part = wording.part_of(finding);
    let seen = finding.signs.iter().find(|sign| sign.value.0.kind == SignKind::Seen);
    match seen.filter(|_| is_first) {
        Some(sign) => {
            let sign = wording.sign(sign.name(), "plain");
            text::fill(wording.label("caption-sign"), &[("part", part), ("sign", sign)])
        }
        None => part.to_owned(),
    }
}

/// The part, and what was done to it.
fn left_caption(finding: &Finding, wording: &Wording) -> String {
    let part = wording.part_of(finding);
    let state = finding.action.map(|action| wording.choice("actions-in-caption", action.word()));
    match state.filter(|state| !state.is_empty()) {
        Some(state) => {
            text::fill(wording.label("caption-state"), &[("part", part), ("state", state)])
        }
        None => part.to_owned(),
    }
}

/// Before and after of the worst part that has both, else the best single photo.
pub fn pair(writer: &Writer<'_>) -> Option<Pair> {
    let fields = writer.fields();
    let findings = fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let first = |photos: &[PhotoUse], shows: Shows<'_>| {
        let mut views = photos.iter().enumerate();
        views.find_map(|(at, photo)| photo_view(writer, photo, shows, at == 0))
    };
    let before = |finding: &Finding| first(&finding.photos, Shows::Found(finding));
    let after = |finding: &Finding| first(&finding.photos_after, Shows::Left(finding));
    let by_weight = facts::by_weight(findings);
    let both = by_weight.iter().find_map(|&finding| {
        let (mut before, mut after) = (before(finding)?, after(finding)?);
        // They stand side by side and are cut no further.
        compare(writer, finding, (Some(&mut before), Some(&mut after)), f64::INFINITY);
        Some((before, Some(after)))
    });
    let exchanged =
        || fields.exchange.as_ref().and_then(|exchange| first(&exchange.photos, Shows::Exchange));
    let single = || Some((by_weight.iter().find_map(|&finding| before(finding))?, exchanged()));
    let arrival = || Some((first(&fields.arrival.photos, Shows::Arrival)?, exchanged()));
    let (before, after) = both.or_else(single).or_else(arrival)?;
    Some(Pair { before, after })
}

/// How wide a mark's words are, in points.
fn wide(text: Option<&str>) -> f64 {
    let width = text.map_or(0.0, |text| ruler::width(text, Voice::Sans, MARK_SIZE));
    (width * 100.0).ceil() / 100.0
}

fn mark_view(mark: &Mark, wording: &Wording) -> MarkView {
    let text = mark.text.as_ref().map(|text| text.0.clone());
    let one = |kind, at: GridPlace| {
        let (x, y) = at.fractions();
        let wide = wide(text.as_deref());
        MarkView { kind, x, y, x2: None, y2: None, size: None, text: text.clone(), wide }
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
            let wide = wide(Some(&text));
            MarkView { text: Some(text), wide, ..two("length", *at, *to) }
        }
    }
}
