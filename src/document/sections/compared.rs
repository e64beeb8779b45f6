//! A part before and after in frames that can be laid over one another: what is measured in both, or framed in
//! both by a box with the same words, is as large in both and at the same place. Nothing is stretched or turned.

use rust_decimal::prelude::ToPrimitive;

use crate::document::format;
use crate::document::text;
use crate::document::view::{Cut, MarkView, PhotoView, ScaleBar};
use crate::document::wording::Wording;
use crate::sheet::photo_use::{Mark, MarkKind};

/// Least share of a photo's width and height that a cut may leave. (Workshop judgement.)
const LEAST_LEFT: f64 = 0.3;
/// Most that scales of one photo, or the sides of two boxes, may differ before the camera must have stood
/// askew, so that no one scale holds. (Workshop judgement.)
const MOST_ASKEW: f64 = 1.15;
/// Largest share of a photo's width that a scale bar takes.
const WIDEST_BAR: f64 = 0.25;
/// Lengths of scale bars in tenths of a millimetre.
const BARS: [u32; 10] = [1000, 500, 200, 100, 50, 20, 10, 5, 2, 1];

/// What is as large in both photos.
enum Alike<'a> {
    /// Every millimetre.
    Scale,
    /// What the boxes with these words are around.
    Boxed(&'a str),
}

/// How large a photo is in units of its yardstick, and where the middle of that is.
struct Yardstick {
    width: f64,
    height: f64,
    middle: (f64, f64),
}

/// How much of a photo is on each side of its yardstick, in units of that.
struct Reach {
    left: f64,
    right: f64,
    up: f64,
    down: f64,
}

/// Width of the photo in millimetres, if lengths are marked on it and agree.
pub fn width_in_mm(photo: &PhotoView, marks: &[Mark]) -> Option<f64> {
    let widths = marks.iter().filter_map(|mark| {
        let MarkKind::Length(at, to, length) = &mark.kind else { return None };
        let long = distance(photo, at.fractions(), to.fractions());
        let mm = length.in_base().to_f64()?;
        (0.0 < long && 0.0 < mm).then(|| mm / long)
    });
    agreed(&widths.collect::<Vec<_>>())
}

/// The bar for a photo of a known width: a round length of at most a quarter of it.
pub fn scale_bar(width: f64, wording: &Wording) -> Option<ScaleBar> {
    let tenths = BARS.into_iter().find(|tenths| f64::from(*tenths) / 10.0 <= width * WIDEST_BAR)?;
    let share = f64::from(tenths) / 10.0 / width;
    Some(ScaleBar { share, text: format::tenths_of_mm(tenths, wording) })
}

/// Cuts both photos to what they have in common, if a length is marked on each or a box with the same words;
/// to a frame of at most `tallest` widths, so that cells of one width show both at one size.
pub fn in_one_frame(
    (first, marks): (&mut PhotoView, &[Mark]),
    (second, marks_after): (&mut PhotoView, &[Mark]),
    tallest: f64,
    wording: &Wording,
) {
    let Some((alike, one, other)) = yardsticks((first, marks), (second, marks_after)) else {
        return;
    };
    let frame = one.reach().least(&other.reach()).no_taller(tallest);
    let cuts = (one.cut(&frame), other.cut(&frame));
    let keeps = |photo: &PhotoView, cut: &Cut| {
        let is_large = LEAST_LEFT <= cut.width && LEAST_LEFT <= cut.height;
        is_large && photo.marks.iter().all(|mark| cut.holds(mark, photo))
    };
    if !keeps(first, &cuts.0) || !keeps(second, &cuts.1) {
        return;
    }
    let said = match alike {
        Alike::Scale => wording.label("at-one-scale").to_owned(),
        Alike::Boxed(words) => text::fill(wording.label("as-large"), &[("thing", words)]),
    };
    for (photo, cut, marks) in [(first, cuts.0, marks), (second, cuts.1, marks_after)] {
        let part = if cut.is_whole() { "" } else { wording.label("part-of-photo") };
        let words = [part, said.as_str()].into_iter().filter(|words| !words.is_empty());
        let words = words.collect::<Vec<_>>().join(", ");
        photo.caption = format!("{}; {words}", photo.caption);
        photo.alt = format!("{} {}.", text::ended(&photo.alt), text::capitalised(&words));
        let width = width_in_mm(photo, marks);
        photo.bar = width.and_then(|width| scale_bar(width * cut.width, wording));
        show(photo, cut);
    }
}

/// What both photos can be held against.
fn yardsticks<'a>(
    (first, marks): (&PhotoView, &'a [Mark]),
    (second, marks_after): (&PhotoView, &[Mark]),
) -> Option<(Alike<'a>, Yardstick, Yardstick)> {
    let by_length = |photo: &PhotoView, marks: &[Mark]| {
        let middle = marks.iter().find_map(|mark| match &mark.kind {
            MarkKind::Length(at, to, _) => Some(between(at.fractions(), to.fractions())),
            _ => None,
        })?;
        Some(Yardstick::new(photo, width_in_mm(photo, marks)?, middle))
    };
    if let (Some(one), Some(other)) = (by_length(first, marks), by_length(second, marks_after)) {
        return Some((Alike::Scale, one, other));
    }
    marks.iter().find_map(|mark| {
        let (words, one) = boxed(mark)?;
        let (_, other) = marks_after.iter().filter_map(boxed).find(|(same, _)| *same == words)?;
        let [(one_wide, one_tall), (other_wide, other_tall)] =
            [(first, one), (second, other)].map(|(photo, (at, to))| sides(photo, at, to));
        agreed(&[one_wide / one_tall, other_wide / other_tall])?;
        let yardstick =
            |photo, wide: f64, (at, to)| Yardstick::new(photo, 1.0 / wide, between(at, to));
        Some((
            Alike::Boxed(words),
            yardstick(first, one_wide, one),
            yardstick(second, other_wide, other),
        ))
    })
}

type Point = (f64, f64);

/// The words of a box and its corners.
fn boxed(mark: &Mark) -> Option<(&str, (Point, Point))> {
    let MarkKind::Box(at, to) = &mark.kind else { return None };
    let words = mark.text.as_ref()?;
    Some((words.0.as_str(), (at.fractions(), to.fractions())))
}

fn between((x, y): Point, (x2, y2): Point) -> Point {
    (f64::midpoint(x, x2), f64::midpoint(y, y2))
}

/// Width and height of a box in widths of its photo.
fn sides(photo: &PhotoView, (x, y): Point, (x2, y2): Point) -> Point {
    ((x2 - x).abs(), (y2 - y).abs() * tallness(photo))
}

/// How far two places are apart, in widths of the photo.
fn distance(photo: &PhotoView, (x, y): Point, (x2, y2): Point) -> f64 {
    (x2 - x).hypot((y2 - y) * tallness(photo))
}

/// Height of a photo in widths of it.
fn tallness(photo: &PhotoView) -> f64 {
    f64::from(photo.height) / f64::from(photo.width)
}

/// The mean of values that differ by little; none of values that differ, or of no value.
fn agreed(values: &[f64]) -> Option<f64> {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(0.0, f64::max);
    let count = u32::try_from(values.len()).ok().filter(|count| 0 < *count)?;
    let agree = most.is_finite() && 0.0 < least && most <= MOST_ASKEW * least;
    agree.then(|| values.iter().sum::<f64>() / f64::from(count))
}

impl Yardstick {
    fn new(photo: &PhotoView, width: f64, middle: Point) -> Self {
        Self { width, height: width * tallness(photo), middle }
    }

    fn reach(&self) -> Reach {
        let (x, y) = self.middle;
        Reach {
            left: x * self.width,
            right: (1.0 - x) * self.width,
            up: y * self.height,
            down: (1.0 - y) * self.height,
        }
    }

    /// The frame as a cut of this photo.
    fn cut(&self, frame: &Reach) -> Cut {
        let (x, y) = self.middle;
        Cut {
            x: x - frame.left / self.width,
            y: y - frame.up / self.height,
            width: (frame.left + frame.right) / self.width,
            height: (frame.up + frame.down) / self.height,
        }
    }
}

impl Reach {
    fn least(&self, other: &Self) -> Self {
        Self {
            left: self.left.min(other.left),
            right: self.right.min(other.right),
            up: self.up.min(other.up),
            down: self.down.min(other.down),
        }
    }

    /// Without what is above and below a height of so many widths, in equal shares.
    fn no_taller(self, widths: f64) -> Self {
        let kept = (widths * (self.left + self.right) / (self.up + self.down)).min(1.0);
        Self { up: self.up * kept, down: self.down * kept, ..self }
    }
}

impl Cut {
    /// True if next to nothing is cut off.
    fn is_whole(&self) -> bool {
        0.99 <= self.width && 0.99 <= self.height
    }

    /// True if all of a mark is inside.
    fn holds(&self, mark: &MarkView, photo: &PhotoView) -> bool {
        let (wide, tall) = match mark.size {
            Some(radius) => (radius, radius / tallness(photo)),
            None => (0.0, 0.0),
        };
        let ends = std::iter::once((mark.x, mark.y)).chain(mark.x2.zip(mark.y2));
        ends.into_iter().all(|(x, y)| {
            self.x <= x - wide
                && x + wide <= self.x + self.width
                && self.y <= y - tall
                && y + tall <= self.y + self.height
        })
    }
}

/// Shows a cut of a photo: its size and its marks become those of the cut.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "below the photo's own size"
)]
fn show(photo: &mut PhotoView, cut: Cut) {
    for mark in &mut photo.marks {
        mark.x = (mark.x - cut.x) / cut.width;
        mark.y = (mark.y - cut.y) / cut.height;
        mark.x2 = mark.x2.map(|x| (x - cut.x) / cut.width);
        mark.y2 = mark.y2.map(|y| (y - cut.y) / cut.height);
        mark.size = mark.size.map(|radius| radius / cut.width);
    }
    photo.width = (f64::from(photo.width) * cut.width).round().max(1.0) as u32;
    photo.height = (f64::from(photo.height) * cut.height).round().max(1.0) as u32;
    photo.cut = Some(cut);
}
