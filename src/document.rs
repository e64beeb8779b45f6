//! The document stage: everything known of a job -> the papers as PDF.
//!
//! In: [`Material`] and a [`Press`]; out: PDF bytes. Nothing is written to disk here.

mod care_words;
pub mod clauses;
pub mod facts;
pub mod format;
pub mod frame;
pub mod manifest;
pub mod material;
pub mod noted;
pub mod pdf;
pub mod photo_sheet;
pub mod press;
pub mod problems;
pub mod report;
pub mod templates;
pub mod view;
pub mod wording;

use std::sync::Arc;

use chrono::NaiveDate;
use typst::foundations::Bytes;

use crate::diagnostic::{Diagnostic, Place};
use crate::failure::Failure;
use crate::photo::PrintSize;
use crate::sheet::{Sheet, Workshop, issued};
use material::{Material, NamedPhoto};
use press::{JobWorld, Paper, Press};
use wording::Wording;

/// The room that a photo gets at most: the story's column, and half a page in height.
pub fn print_size() -> PrintSize {
    PrintSize::of_mm(137.0, 137.0)
}

/// A finished paper.
pub struct Document {
    /// File name: `return-report.pdf`.
    pub name: String,
    /// The PDF.
    pub pdf: Vec<u8>,
}

/// Why a paper could not be made.
pub enum Refusal {
    /// Problems in templates or wordings.
    Problems(Vec<Diagnostic>),
    /// Something of ours.
    Failure(Failure),
}

impl From<Diagnostic> for Refusal {
    fn from(problem: Diagnostic) -> Self {
        Self::Problems(vec![problem])
    }
}

impl From<Failure> for Refusal {
    fn from(failure: Failure) -> Self {
        Self::Failure(failure)
    }
}

/// Texts of sheet and profile that no font can print.
pub fn check_letters(sheet: &Sheet, workshop: &Workshop) -> Vec<Diagnostic> {
    let files = [(&sheet.source, &sheet.tree), (&workshop.source, &workshop.tree)];
    let texts = files.into_iter().flat_map(|(source, tree)| {
        issued::texts(tree).into_iter().map(move |(text, span)| (source, text, span))
    });
    texts
        .filter_map(|(source, text, span)| {
            let (_, c) = press::unprintable(text)?;
            let shown = source.text().get(span.clone()).unwrap_or_default();
            let at = shown
                .find(c)
                .map_or(span.clone(), |at| span.start + at..span.start + at + c.len_utf8());
            Some(problems::unprintable(Place::at(source, at), c))
        })
        .collect()
}

/// A language that the papers cannot be written in, at the place that names it.
pub fn check_language(press: &Press, sheet: &Sheet, workshop: &Workshop) -> Option<Diagnostic> {
    let templates = press.templates();
    let language = frame::language(sheet, workshop);
    if templates.speaks(language.base()) {
        return None;
    }
    let place = match (&sheet.fields.language, &workshop.fields.language) {
        (Some(own), _) => sheet.place(&own.span),
        (None, Some(house)) => Place::at(&workshop.source, house.span.clone()),
        (None, None) => Place::whole(&workshop.source),
    };
    Some(problems::unknown_language(place, &language.0, &templates.languages()))
}

/// The words of a job's language.
///
/// # Errors
/// A mistake in one of its files, told there.
fn wording(press: &Press, material: &Material<'_>) -> Result<Arc<Wording>, Diagnostic> {
    press.wording(frame::language(material.sheet, material.workshop).base())
}

/// The customer's report.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn return_report(press: &Press, material: &Material<'_>) -> Result<Document, Refusal> {
    let wording = wording(press, material)?;
    let view = report::view(material, &wording)?;
    print(press, Paper::ReturnReport, material, &view, day(material.sheet))
}

/// The contact sheet of a folder's photos.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn photo_sheet(press: &Press, material: &Material<'_>) -> Result<Document, Refusal> {
    let wording = wording(press, material)?;
    let view = photo_sheet::view(material, &wording);
    print(press, Paper::PhotoSheet, material, &view, day(material.sheet))
}

/// The day of a paper: the last one that the sheet tells.
pub fn day(sheet: &Sheet) -> NaiveDate {
    let fields = &sheet.fields;
    let returned = fields.returned.as_ref().map(|date| date.0);
    let opened = fields.strip_down.as_ref().map(|strip| strip.date.0);
    returned.or(opened).unwrap_or(fields.arrival.date.0)
}

fn print(
    press: &Press,
    paper: Paper,
    material: &Material<'_>,
    view: &impl serde::Serialize,
    day: NaiveDate,
) -> Result<Document, Refusal> {
    let data = serde_json::to_vec(view)
        .map_err(|error| Failure::new("hand the job to the templates", error))?;
    let text = |text: &str| Bytes::from_string(text.to_owned());
    let mut files = vec![
        ("/job/data.json".to_owned(), Bytes::new(data)),
        (frame::ISSUED.to_owned(), text(material.issued)),
        (frame::MANIFEST.to_owned(), text(material.manifest)),
    ];
    files.extend(
        material.logo.map(|(name, bytes)| (frame::logo_file(name), Bytes::new(bytes.to_vec()))),
    );
    for (at, named) in material.photos.iter().enumerate() {
        files.push((format!("/job/photo/{at}.svg"), Bytes::from_string(wrapped(named, at))));
        files.push((format!("/job/photo/{at}.jpg"), Bytes::new(named.photo.jpeg.clone())));
    }
    let world = JobWorld::new(press, paper, files)?;
    let job = &material.sheet.fields.job.0;
    let ident = format!("{job} {} {}", paper.name(), material.digest.hex());
    let pdf = pdf::write(&world, press, &ident, day).map_err(Refusal::Problems)?;
    Ok(Document { name: format!("{}.pdf", paper.name()), pdf })
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
