//! Sets the papers of a job: the data of each to a PDF with the files that it carries.
//!
//! In: [`Material`] or [`Cover`] and a [`Press`]; out: PDF bytes. Which papers there are is `papers`.

use chrono::NaiveDate;
use typst::foundations::Bytes;

use super::apart::{self, Answer, Task};
use super::frame;
use super::material::{Cover, Material};
use super::papers::{self, MadeFrom, PAPERS, PHOTO_SHEET, Paper};
use super::pdf;
use super::press::{JobWorld, Press};
use super::problems;
use super::refusal::Refusal;
use super::writer::Writer;
use crate::diagnostic::Place;
use crate::diagnostic::source::SourceText;
use crate::photo::NamedPhoto;

/// A finished paper.
pub struct Document {
    /// File name: `return-report.pdf`.
    pub name: String,
    /// The PDF.
    pub pdf: Vec<u8>,
}

/// The papers that a job owes.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn due(press: &Press, material: &Material<'_>) -> Result<Vec<Document>, Refusal> {
    let cover = material.cover();
    let wording = press.wording(cover.language.base(), cover.region())?;
    let writer = Writer::new(material, &wording);
    let mut documents = Vec::new();
    for paper in PAPERS {
        if let MadeFrom::Job { is_due, data } = paper.made_from
            && is_due(&material.sheet.fields)
        {
            documents.push(print(press, paper, &cover, data(&writer)?)?);
        }
    }
    Ok(documents)
}

/// What would keep the papers of a job from being made.
///
/// The workshop's own layouts are run, the built-in ones are tested; either way every sentence is
/// written.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn check(press: &Press, material: &Material<'_>) -> Result<(), Refusal> {
    if press.templates().has_house_layouts() {
        return due(press, material).map(|_| ());
    }
    let cover = material.cover();
    let wording = press.wording(cover.language.base(), cover.region())?;
    papers::try_all(&Writer::new(material, &wording))
}

/// The contact sheet of a folder's photos.
///
/// # Errors
/// Problems in templates or wordings, each in its own file.
pub fn photo_sheet(press: &Press, cover: &Cover<'_>) -> Result<Document, Refusal> {
    let view =
        papers::photo_sheet::view(cover, &*press.wording(cover.language.base(), cover.region())?);
    print(press, &PHOTO_SHEET, cover, papers::json(&view)?)
}

/// Sets one paper from its data.
fn print(
    press: &Press,
    paper: &Paper,
    cover: &Cover<'_>,
    data: Vec<u8>,
) -> Result<Document, Refusal> {
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
    let ident = format!("{} {} {}", cover.job, paper.name, cover.digest.hex());
    let pdf = match press.templates().has_house_layouts() {
        true => print_apart(press, paper.name, &files, &ident, cover.day)?,
        false => {
            let world = JobWorld::new(press, paper.name, files)?;
            pdf::write(&world, press, &ident, cover.day).map_err(Refusal::Problems)?
        }
    };
    Ok(Document { name: paper.file_name(), pdf })
}

/// Sets a paper with the workshop's own layouts, which may be programs without an end.
fn print_apart(
    press: &Press,
    paper: &str,
    files: &[(String, Bytes)],
    ident: &str,
    day: NaiveDate,
) -> Result<Vec<u8>, Refusal> {
    let templates = press.templates();
    let own = format!("{paper}.typ");
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
