//! How page 1 is set: the size of its letters and the height of its photos, from counted lines, so that
//! it fills its page without being measured.
//!
//! In: the texts and photos of page 1; out: [`FirstPage`]. The lengths here are those of
//! `report-templates/shared/frame.typ` and `opening.typ`, which set it.

use serde::Serialize;

use crate::document::edition::Edition;
use crate::document::ruler::{Voice, lines};
use crate::document::view::fact::Fact;
use crate::document::view::{
    AdviceList, Answer, BillItem, Frame, LifeDay, Natural, Paid, Pair, PhotoView,
};

/// Points in a millimetre.
const MM: f64 = 72.0 / 25.4;
/// Sizes of the running text, the largest first, in points; the last also if it runs on.
const SIZES: [f64; 5] = [12.0, 11.2, 10.5, 9.8, 9.4];
const OVERLONG_SIZE: f64 = 10.5;
/// Sizes of the lead by its letters.
const LEADS: [(usize, f64); 4] = [(80, 23.0), (150, 20.5), (220, 18.5), (320, 16.0)];
const LONGEST_LEAD: f64 = 13.5;
/// What of the lead's size is left if the page is full.
const LEAD_SHARES: [f64; 3] = [1.0, 0.88, 0.78];
/// Shares of the column over which a lead may be balanced.
const SHARES: [f64; 5] = [0.7, 0.78, 0.86, 0.93, 1.0];
/// Heights of the photos in millimetres: below the first they are of no use.
const LEAST_PHOTO: f64 = 34.0;
const WANTED_PHOTO: f64 = 46.0;
const TALLEST_PHOTO: f64 = 104.0;
/// Between two photos, in millimetres.
const PHOTO_GAP: f64 = 4.0;
/// The least spaces in millimetres: under the lead, under the photos, over the things to do, between
/// the answers.
const UNDER_LEAD: f64 = 7.0;
const UNDER_PHOTOS: f64 = 6.5;
const OVER_TODO: f64 = 7.0;
const BETWEEN_ANSWERS: f64 = 3.0;
/// The column of the facts in millimetres, and what of it an amount takes with the space before it.
const SPINE: f64 = 39.0;
const AMOUNT: f64 = 15.0;
/// What the line of its days takes of it.
const LIFE_INSET: f64 = 5.3;
/// Share of a size that is above the first baseline.
const RISE: f64 = 0.72;
/// Column of the questions and the space beside it, in millimetres.
const QUESTIONS: f64 = 32.0 + 4.5;

/// The column of the edition for a telephone and its tallest photo in millimetres, its letters in points.
const PHONE_WIDTH: f64 = 54.0;
const PHONE_PHOTO: f64 = 72.0;
const PHONE_SIZE: f64 = 10.5;
const PHONE_LEAD: f64 = 15.0;

/// How page 1 is set.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FirstPage {
    /// Size of the answers in points.
    pub size: f64,
    /// Size of the lead in points.
    pub lead: f64,
    /// Share of the column over which the lead is broken into lines.
    pub share: f64,
    /// Height of the photos in millimetres.
    pub photo: f64,
    /// True if it is one page, whose spaces open to fill it.
    pub fills: bool,
    /// True if the items of the bill stand under its sum.
    pub bill: bool,
    /// True if the bearing is drawn at its foot.
    pub natural: bool,
}

/// What is on page 1.
pub struct Opening<'a> {
    /// Paper and sender.
    pub frame: &'a Frame,
    /// The facts beside it.
    pub spine: &'a [Fact],
    /// The unit's days beside it.
    pub life: &'a [LifeDay],
    /// The amount.
    pub paid: Option<&'a Paid>,
    /// The one sentence.
    pub lead: &'a str,
    /// The photos.
    pub pair: Option<&'a Pair>,
    /// The answers.
    pub answers: &'a [Answer],
    /// The things to do.
    pub todo: Option<&'a AdviceList>,
    /// The items of a small bill; empty if there is none.
    pub items: &'a [BillItem],
    /// A bearing that may be drawn here.
    pub natural: Option<&'a Natural>,
}

/// Main column and height of the printable area in millimetres.
fn page(frame: &Frame) -> (f64, f64) {
    let height = if frame.paper == "us-letter" { 279.4 } else { 297.0 };
    (174.0 - SPINE - 6.0, height - 15.0 - 18.0)
}

/// Lines as a number to reckon with.
fn count(lines: usize) -> f64 {
    f64::from(u32::try_from(lines).unwrap_or(u32::MAX))
}

/// Height in millimetres of this many lines of a size and a pitch in points: above the first baseline there
/// is only what a letter needs.
fn tall(lines: usize, size: f64, pitch: f64) -> f64 {
    (count(lines.saturating_sub(1)) * pitch + RISE * size) / MM
}

/// Page 1 of the edition for a telephone: its page is as long as it is, so that nothing has to fit.
fn of_phone(opening: &Opening<'_>) -> FirstPage {
    let photos =
        opening.pair.iter().flat_map(|pair| std::iter::once(&pair.before).chain(&pair.after));
    let tall = photos.map(|photo| PHONE_WIDTH * f64::from(photo.height) / f64::from(photo.width));
    let photo = (tall.fold(0.0, f64::max).min(PHONE_PHOTO) * 100.0).floor() / 100.0;
    FirstPage {
        size: PHONE_SIZE,
        lead: PHONE_LEAD,
        share: 1.0,
        photo,
        fills: false,
        bill: !opening.items.is_empty(),
        natural: opening.natural.is_some(),
    }
}

/// Chooses sizes for page 1.
pub fn first_page(opening: &Opening<'_>) -> FirstPage {
    if opening.frame.paper == Edition::Phone.size("") {
        return of_phone(opening);
    }
    let (main, height) = page(opening.frame);
    let largest = LEADS.iter().find(|(most, _)| opening.lead.chars().count() <= *most);
    let largest = largest.map_or(LONGEST_LEAD, |(_, size)| *size);
    let photos: Vec<&PhotoView> = opening
        .pair
        .iter()
        .flat_map(|pair| std::iter::once(&pair.before).chain(&pair.after))
        .collect();
    let cell = if photos.len() < 2 { main } else { (main - PHOTO_GAP) / 2.0 };
    let natural =
        photos.iter().map(|photo| cell * f64::from(photo.height) / f64::from(photo.width));
    let natural = natural.fold(0.0, f64::max).min(TALLEST_PHOTO);
    let under = if photos.is_empty() { 0.0 } else { UNDER_PHOTOS };
    let fixed = 1.0 + UNDER_LEAD + captions(&photos, cell) + under;
    let lead_lines =
        |lead: f64, share: f64| lines(opening.lead, Voice::Serif, lead, share * main * MM);
    let rest = |lead: f64, size: f64| {
        let lead = tall(lead_lines(lead, 1.0), lead, 1.18 * lead);
        height - fixed - lead - answers(opening, size, main) - todo(opening, size, main)
    };
    // The letters grow smaller before the lead does, and both before the photos.
    let sizes = || {
        let of = |share: &f64| SIZES.map(|size| ((largest * share * 10.0).round() / 10.0, size));
        LEAD_SHARES.iter().flat_map(of).collect::<Vec<_>>()
    };
    let with = |photo: f64| sizes().into_iter().find(|(lead, size)| photo <= rest(*lead, *size));
    let wanted = natural.min(WANTED_PHOTO);
    let found = with(wanted).or_else(|| with(natural.min(LEAST_PHOTO)));
    let found = found.filter(|_| spine(opening) < height - 4.0);
    let (lead, size) = found.unwrap_or((largest, OVERLONG_SIZE));
    let photo = if found.is_some() { rest(lead, size).min(natural) } else { wanted };
    let fewest = lead_lines(lead, 1.0);
    let share = SHARES.into_iter().find(|share| lead_lines(lead, *share) <= fewest).unwrap_or(1.0);
    let (bill, natural) = beside(opening, height - 1.0);
    FirstPage {
        size,
        lead,
        share,
        photo: (photo * 100.0).floor() / 100.0,
        fills: found.is_some(),
        bill,
        natural,
    }
}

/// Height of the captions in millimetres.
fn captions(photos: &[&PhotoView], cell: f64) -> f64 {
    let of = |photo: &&PhotoView| {
        let lead = photo.lead.as_deref().unwrap_or_default();
        let words = format!("{}  {lead} {}", photo.number, photo.caption);
        1.9 + count(lines(&words, Voice::Sans, 8.6, cell * MM)) * 10.8 / MM
    };
    photos.iter().map(of).fold(0.0, f64::max)
}

/// Height of the answers in millimetres at a size.
fn answers(opening: &Opening<'_>, size: f64, main: f64) -> f64 {
    let column = (main - QUESTIONS) * MM;
    let of = |answer: &Answer| {
        let lines = lines(&answer.text, Voice::Serif, size, column);
        tall(lines, size, 1.33 * size) + BETWEEN_ANSWERS
    };
    opening.answers.iter().map(of).sum()
}

/// Height of the things to do in millimetres at a size of the answers.
fn todo(opening: &Opening<'_>, size: f64, main: f64) -> f64 {
    let Some(todo) = opening.todo else { return 0.0 };
    let size = size - 0.3;
    let of = |item: &crate::document::view::Advice| {
        let words = format!("{} {}", item.what, item.more);
        // Not all of it is strong.
        let lines = lines(&words, Voice::Serif, 1.02 * size, (main - 6.0) * MM);
        tall(lines, size, 1.3 * size) + 2.6
    };
    OVER_TODO + 9.0 + todo.items.iter().map(of).sum::<f64>()
}

/// What of the bill's items and the bearing the spine has room for, the items first.
fn beside(opening: &Opening<'_>, room: f64) -> (bool, bool) {
    let facts = spine(opening);
    let items =
        Some(items(opening)).filter(|tall| !opening.items.is_empty() && facts + tall <= room);
    let facts = facts + items.unwrap_or_default();
    let natural = opening.natural.is_some_and(|bearing| facts + drawn(bearing) <= room);
    (items.is_some(), natural)
}

/// Height of the items of the bill in millimetres.
fn items(opening: &Opening<'_>) -> f64 {
    let of = |item: &BillItem| {
        count(lines(&item.label, Voice::Sans, 8.2, (SPINE - AMOUNT) * MM)) * 9.8 / MM + 0.6
    };
    3.6 + opening.items.iter().map(of).sum::<f64>()
}

/// Height of a bearing at its natural size with the bar and its words in millimetres.
fn drawn(bearing: &Natural) -> f64 {
    let words = count(lines(&bearing.caption, Voice::Sans, 8.2, SPINE * MM)) * 9.8 / MM;
    7.0 + f64::from(bearing.outside) / 2.0 + 3.6 + words
}

/// Height of the spine in millimetres.
fn spine(opening: &Opening<'_>) -> f64 {
    let column = SPINE * MM;
    let of = |fact: &Fact, inset: f64| {
        let long = 90 < fact.value.chars().count();
        let (size, pitch) = if long { (8.2, 10.2) } else { (9.6, 11.9) };
        // Mono letters are wider than those of the facts.
        let wide = if fact.style == "mono" { 1.3 } else { 1.0 };
        (6.0 + count(lines(&fact.value, Voice::Sans, size * wide, column - inset * MM)) * pitch)
            / MM
            + 2.3
    };
    let facts: f64 = opening.spine.iter().map(|fact| of(fact, 0.0)).sum();
    let life: f64 = opening.life.iter().map(|day| of(&day.fact, LIFE_INSET)).sum();
    let notes = opening.paid.map_or(0.0, |paid| {
        let of = |note: &String| 0.5 + count(lines(note, Voice::Sans, 8.0, column)) * 10.4 / MM;
        15.0 + paid.notes.iter().map(of).sum::<f64>()
    });
    let sender = &opening.frame.workshop;
    let of_line = |line: &String| count(lines(line, Voice::Sans, 8.0, column)) * 10.0 / MM - 0.5;
    let lines_of_sender: f64 = sender.address.iter().chain(&sender.contact).map(of_line).sum();
    let logo = if sender.logo.is_some() { 19.0 } else { 0.0 };
    let name = count(lines(&sender.name, Voice::Sans, 13.0, column)) * 15.0 / MM;
    logo + name + 10.0 + facts + life + notes + 5.0 + lines_of_sender
}
