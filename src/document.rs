//! The document stage: everything known of a job -> the papers as PDF.
//!
//! In: [`Material`] and a [`Press`]; out: PDF bytes. Nothing is written to disk here.

pub mod apart;
mod care_words;
pub mod clauses;
pub mod facts;
pub mod format;
pub mod frame;
mod frames;
pub mod manifest;
pub mod material;
pub mod noted;
pub mod pdf;
pub mod photo_sheet;
pub mod press;
pub mod problems;
pub mod report;
pub mod templates;
pub mod trial;
pub mod view;
pub mod wording;

use chrono::NaiveDate;
use typst::foundations::Bytes;

use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::failure::Failure;
use crate::photo::{NamedPhoto, PrintSize};
use crate::sheet::{Sheet, Workshop, issued};
use apart::{Answer, Task};
use material::{Cover, Material};
use press::{JobWorld, Paper, Press};

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

impl Refusal {
    /// Adds its problems to those of a job.
    ///
    /// # Errors
    /// The failure, if it is one.
    pub fn into_problems(self, problems: &mut Problems) -> Result<(), Failure> {
        match self {
            Self::Failure(failure) => Err(failure),
            Self::Problems(found) => {
                problems.extend(found);
                Ok(())
            }
        }
    }
}

impl From<Diagnostic> for Refusal {
    fn from(problem: Diagnostic) -> Self {
        Self::Problems(vec![problem])
    }
}

impl From<Vec<Diagnostic>> for Refusal {
    fn from(problems: Vec<Diagnostic>) -> Self {
        Self::Problems(problems)
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

/// What is wrong with the words of a job's language; nothing where there are none at all, which
/// [`check_language`] reports.
pub fn check_words(press: &Press, sheet: &Sheet, workshop: &Workshop) -> Vec<Diagnostic> {
    let language = frame::language(sheet, workshop);
    match press.templates().speaks(language.base()) {
        true => press.wording(language.base()).err().unwrap_or_default(),
        false => Vec::new(),
    }
}

/// The customer's report.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn return_report(press: &Press, material: &Material<'_>) -> Result<Document, Refusal> {
    let cover = material.cover();
    let view = report::view(material, &*press.wording(cover.language.base())?)?;
    print(press, Paper::ReturnReport, &cover, &view)
}

/// What would keep the customer's report from being made.
///
/// The workshop's own layouts are run, the built-in ones are tested; either way every sentence is
/// written.
pub fn check_report(press: &Press, material: &Material<'_>) -> Result<(), Refusal> {
    if press.templates().has_house_layouts() {
        return return_report(press, material).map(|_| ());
    }
    let language = frame::language(material.sheet, material.workshop);
    report::view(material, &*press.wording(language.base())?)?;
    Ok(())
}

/// The contact sheet of a folder's photos.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn photo_sheet(press: &Press, cover: &Cover<'_>) -> Result<Document, Refusal> {
    let view = photo_sheet::view(cover, &*press.wording(cover.language.base())?);
    print(press, Paper::PhotoSheet, cover, &view)
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
    cover: &Cover<'_>,
    view: &impl serde::Serialize,
) -> Result<Document, Refusal> {
    let data = serde_json::to_vec(view)
        .map_err(|error| Failure::new("hand the job to the templates", error))?;
    let text = |text: &str| Bytes::from_string(text.to_owned());
    let mut files = vec![
        ("/job/data.json".to_owned(), Bytes::new(data)),
        (frame::MANIFEST.to_owned(), text(cover.manifest)),
    ];
    files.extend(cover.issued.map(|issued| (frame::ISSUED.to_owned(), text(issued))));
    files.extend(
        cover.logo.map(|(name, bytes)| (frame::logo_file(name), Bytes::new(bytes.to_vec()))),
    );
    for (at, named) in cover.photos.iter().enumerate() {
        files.push((format!("/job/photo/{at}.svg"), Bytes::from_string(wrapped(named, at))));
        files.push((format!("/job/photo/{at}.jpg"), Bytes::new(named.photo.jpeg.clone())));
    }
    let ident = format!("{} {} {}", cover.job, paper.name(), cover.digest.hex());
    let pdf = match press.templates().has_house_layouts() {
        true => print_apart(press, paper, &files, &ident, cover.day)?,
        false => {
            let world = JobWorld::new(press, paper, files)?;
            pdf::write(&world, press, &ident, cover.day).map_err(Refusal::Problems)?
        }
    };
    Ok(Document { name: format!("{}.pdf", paper.name()), pdf })
}

/// Sets a paper with the workshop's own layouts, which may be programs without an end.
fn print_apart(
    press: &Press,
    paper: Paper,
    files: &[(String, Bytes)],
    ident: &str,
    day: NaiveDate,
) -> Result<Vec<u8>, Refusal> {
    let templates = press.templates();
    let own = format!("{}.typ", paper.name());
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
    match apart::ask(templates, &Task::Print(paper, files, ident, day))? {
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
