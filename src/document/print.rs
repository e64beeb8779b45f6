//! Sets the papers of a job: the data of each to a PDF with the files that it carries.
//!
//! In: [`Material`] or [`Cover`] and a [`Press`]; out: PDF bytes. Which papers there are is `papers`.

use serde::Serialize;
use typst::foundations::Bytes;

use super::apart::{self, Answer, Task};
use super::calendar;
use super::companion::Companion;
use super::edition::Edition;
use super::frame;
use super::material::{Cover, Material};
use super::message;
use super::message::attachment::Attachment;
use super::order::Order;
use super::papers::asked::Asked;
use super::papers::choice::Choice;
use super::papers::written::{Written, written};
use super::papers::{self, OVERVIEW, PHOTO_SHEET, Paper};
use super::press::Press;
use super::problems;
use super::refusal::Refusal;
use crate::diagnostic::Place;
use crate::diagnostic::source::SourceText;
use crate::photo::NamedPhoto;

/// A finished paper.
pub struct Document {
    /// File name: `return-report.pdf`.
    pub name: String,
    /// The PDF.
    pub pdf: Vec<u8>,
    /// True if the sheet owes it now; an earlier paper made again is not due.
    pub is_due: bool,
    /// What is beside it.
    pub beside: Vec<Companion>,
}

/// The papers of a job that are wanted.
///
/// # Errors
/// A paper that was asked for and lacks something, or problems in templates or wordings, each in its own
/// file.
pub fn make(
    press: &Press,
    material: &Material<'_>,
    asked: &Asked,
) -> Result<Vec<Document>, Refusal> {
    let cover = material.cover();
    let wording = press.wording(cover.language.base(), cover.region())?;
    let written = written(material, &wording, asked)?;
    let photos = photo_files(&cover);
    let made = written.into_iter().map(|written| one(press, material, &photos, written));
    made.collect()
}

/// The papers of a job that are wanted, written and not yet set.
///
/// # Errors
/// As of [`make`], but for the layouts.
pub fn orders(
    press: &Press,
    material: &Material<'_>,
    asked: &Asked,
) -> Result<Vec<Order>, Refusal> {
    let cover = material.cover();
    let wording = press.wording(cover.language.base(), cover.region())?;
    let photos = photo_files(&cover);
    let ordered = written(material, &wording, asked)?.into_iter().map(|written| {
        let files = carried(&photos, &written);
        let cover = Cover { day: written.day, ..material.cover() };
        order(written.paper, &cover, written.data, &files, Edition::Paper)
    });
    Ok(ordered.collect())
}

/// The files of a paper beside its data: photos, and the calendar if it carries one.
fn carried(photos: &[(String, Bytes)], written: &Written) -> Vec<(String, Bytes)> {
    let calendar = written.calendar.iter();
    let calendar =
        calendar.map(|text| (calendar::ATTACHED.to_owned(), Bytes::new(text.as_bytes().to_vec())));
    photos.iter().cloned().chain(calendar).collect()
}

/// A paper with what is beside it.
fn one(
    press: &Press,
    material: &Material<'_>,
    photos: &[(String, Bytes)],
    written: Written,
) -> Result<Document, Refusal> {
    let files = carried(photos, &written);
    let Written { paper, data, day, phone, calendar, letter } = written;
    let cover = Cover { day, ..material.cover() };
    let pdf = print(press, paper, &cover, data, &files, Edition::Paper)?;
    let mut beside = Vec::new();
    if let Some(data) = phone {
        let bytes = print(press, paper, &cover, data, &files, Edition::Phone)?;
        beside.push(Companion { name: format!("{}-phone.pdf", paper.name), bytes });
    }
    let name = calendar::CALENDAR.to_owned();
    beside.extend(calendar.map(|text| Companion { name, bytes: text.into_bytes() }));
    if let Some(letter) = letter {
        let name = paper.file_name();
        let own = Attachment { name: &name, mime: PDF, bytes: &pdf };
        let others = beside.iter().map(|one| Attachment {
            name: &one.name,
            mime: if one.name == calendar::CALENDAR { calendar::MIME } else { PDF },
            bytes: &one.bytes,
        });
        let attachments: Vec<Attachment<'_>> = [own].into_iter().chain(others).collect();
        let files = message::files(&letter, paper, &attachments)?;
        beside.extend(files);
    }
    let is_due = paper.is_due(&material.sheet.fields);
    Ok(Document { name: paper.file_name(), pdf, is_due, beside })
}

/// Media type of a PDF (RFC 8118).
const PDF: &str = "application/pdf";

/// What would keep the papers that are due from being made.
///
/// The workshop's own layouts are run, the built-in ones are tested; either way every sentence is
/// written.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn check(press: &Press, material: &Material<'_>) -> Result<(), Refusal> {
    if press.templates().has_house_layouts() {
        return make(press, material, &Choice::Due.into()).map(|_| ());
    }
    orders(press, material, &Choice::Due.into()).map(|_| ())
}

/// The contact sheet of a folder's photos.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn photo_sheet(press: &Press, cover: &Cover<'_>) -> Result<Document, Refusal> {
    let view =
        papers::photo_sheet::view(cover, &*press.wording(cover.language.base(), cover.region())?);
    let (data, photos) = (papers::json(&view)?, photo_files(cover));
    let pdf = print(press, &PHOTO_SHEET, cover, data, &photos, Edition::Paper)?;
    Ok(Document { name: PHOTO_SHEET.file_name(), pdf, is_due: true, beside: Vec::new() })
}

/// The overview of a workshop's closed jobs, from the view that its layout sees.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn overview(
    press: &Press,
    cover: &Cover<'_>,
    view: &impl Serialize,
    beside: Vec<Companion>,
) -> Result<Document, Refusal> {
    let data = papers::json(view)?;
    let pdf = print(press, &OVERVIEW, cover, data, &[], Edition::Paper)?;
    Ok(Document { name: OVERVIEW.file_name(), pdf, is_due: true, beside })
}

/// The photos under their virtual paths, shared by all papers of a job.
fn photo_files(cover: &Cover<'_>) -> Vec<(String, Bytes)> {
    let files = cover.photos.iter().enumerate().flat_map(|(at, named)| {
        let svg = Bytes::from_string(wrapped(named, at));
        let jpeg = Bytes::new(named.photo.jpeg.clone());
        [(format!("/job/photo/{at}.svg"), svg), (format!("/job/photo/{at}.jpg"), jpeg)]
    });
    files.collect()
}

/// Sets one paper from its data, with the files that it shows and carries.
fn print(
    press: &Press,
    paper: &Paper,
    cover: &Cover<'_>,
    data: Vec<u8>,
    carried: &[(String, Bytes)],
    edition: Edition,
) -> Result<Vec<u8>, Refusal> {
    let order = order(paper, cover, data, carried, edition);
    if press.templates().has_house_layouts() {
        print_apart(press, &order)
    } else {
        order.print(press)
    }
}

/// A paper with everything that the press needs for it.
fn order(
    paper: &Paper,
    cover: &Cover<'_>,
    data: Vec<u8>,
    carried: &[(String, Bytes)],
    edition: Edition,
) -> Order {
    let text = |text: &str| Bytes::from_string(text.to_owned());
    let mut files = vec![
        ("/job/data.json".to_owned(), Bytes::new(data)),
        (frame::MANIFEST.to_owned(), text(cover.manifest)),
    ];
    files.extend(cover.issued.map(|issued| (frame::ISSUED.to_owned(), text(issued))));
    files.extend(
        cover.logo.map(|(name, bytes)| (frame::logo_file(name), Bytes::new(bytes.to_vec()))),
    );
    files.extend_from_slice(carried);
    let name = match edition {
        Edition::Paper => paper.name.to_owned(),
        Edition::Phone => format!("{} phone", paper.name),
    };
    let ident = format!("{} {name} {}", cover.job, cover.digest.hex());
    Order { paper: paper.name.to_owned(), files, ident, day: cover.day }
}

/// Sets a paper with the workshop's own layouts, which may be programs without an end.
fn print_apart(press: &Press, order: &Order) -> Result<Vec<u8>, Refusal> {
    let templates = press.templates();
    let own = format!("{}.typ", order.paper);
    let own = templates
        .layouts()
        .filter(|(path, _)| templates.is_house(path))
        .find(|(path, _)| *path == own);
    let blamed = own.or_else(|| templates.layouts().find(|(path, _)| templates.is_house(path)));
    let ran_out = || {
        let place = blamed.map_or_else(
            || Place::whole(&SourceText::named("report-templates")),
            |(_, source)| Place::whole(source),
        );
        Refusal::Problems(vec![problems::ran_out(place)])
    };
    if press.is_given_up() {
        return Err(ran_out());
    }
    match apart::ask(templates, &Task::Print(order))? {
        Answer::Done(pdf) => Ok(pdf),
        Answer::Problems(found) => Err(Refusal::Problems(found)),
        Answer::RanOut => {
            press.note_ran_out();
            Err(ran_out())
        }
    }
}

/// The photo in an SVG that names it: Typst then passes the JPEG through without decoding it again.
fn wrapped(named: &NamedPhoto, at: usize) -> String {
    let (width, height) = (named.photo.width, named.photo.height);
    let digest = named.photo.facts.sha256.hex();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\"><!-- {digest} -->\
         <image width=\"{width}\" height=\"{height}\" href=\"{at}.jpg\"/></svg>"
    )
}
