//! A first try of a workshop's own wordings and drawings, before any job is worked on.
//!
//! In: a press, or a logo; out: problems. The wordings write about a job made for it, `trial/findings.yaml`.
//! Runs inside the bounds of a child process: see `apart`.

use chrono::NaiveDate;
use typst::foundations::Bytes;

use super::apart::{self, Answer, Task};
use super::facts;
use super::frame;
use super::material::Material;
use super::press::{Paper, Press};
use super::report;
use super::templates::Templates;
use super::{Refusal, problems};
use crate::assessment;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::failure::Failure;
use crate::photo::Digest;
use crate::sheet;

const SHEET: &str = include_str!("trial/findings.yaml");
const PROFILE: &str = include_str!("trial/workshop.yaml");

/// A template that shows nothing but the logo.
const LOGO: &str = "#let paper(data) = {\n  set document(title: \"Logo\")\n  set text(lang: \"en\")\n  \
    [= Logo]\n  image(data.file, alt: \"Logo\", height: 14mm)\n}\n";

/// Writes every sentence of every language about the job made for it.
///
/// # Errors
/// Problems in the wordings, each in its own file.
pub fn words(press: &Press) -> Result<(), Refusal> {
    let mut found = Problems::default();
    let workshop = sheet::read_profile("workshop.yaml", PROFILE.as_bytes(), &mut found);
    let read = |workshop| {
        let sheet = sheet::read("findings.yaml", SHEET.as_bytes(), &workshop, &mut found)?;
        let assessment = assessment::assess(&sheet, &workshop, None, &mut found);
        Some((sheet, workshop, assessment))
    };
    let Some((sheet, workshop, assessment)) = workshop.and_then(read) else {
        return Err(Refusal::Problems(found.into_sorted()));
    };
    let material = Material {
        sheet: &sheet,
        workshop: &workshop,
        photos: &[],
        assessment: &assessment,
        manifest: "",
        issued: "",
        digest: Digest::of(b""),
        logo: None,
    };
    let mut problems = Vec::new();
    for language in press.templates().languages() {
        match press.wording(language) {
            Ok(wording) => {
                let fields = &sheet.fields;
                let values = facts::of(fields, &workshop.fields, &assessment, &wording);
                let tried = wording.try_all(&values);
                let written = report::view(&material, &wording).err();
                problems.extend(written.filter(|_| tried.is_empty()));
                problems.extend(tried);
            }
            Err(found) => problems.extend(found),
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(Refusal::Problems(problems)) }
}

/// Tries a drawn logo on an empty page; returns what is wrong with it.
///
/// # Errors
/// No process can be started.
pub fn logo(place: &Place, name: &str, bytes: &[u8]) -> Result<Option<Diagnostic>, Failure> {
    let template = SourceText::new("logo", LOGO);
    let path = format!("{}.typ", Paper::PhotoSheet.name());
    let templates = Templates::with_house(vec![(path, template)]);
    let file = frame::logo_file(name);
    let data = serde_json::json!({"file": &file}).to_string();
    let files = [
        ("/job/data.json".to_owned(), Bytes::from_string(data)),
        (file, Bytes::new(bytes.to_vec())),
    ];
    let task = Task::Print(Paper::PhotoSheet, &files, "logo", NaiveDate::default());
    Ok(match apart::ask(&templates, &task)? {
        Answer::Done(_) => None,
        Answer::RanOut => {
            Some(problems::logo(place.clone(), "it takes too much time or memory to draw"))
        }
        Answer::Problems(found) => {
            let cause = found.first().map_or("it cannot be drawn", |one| one.message.as_str());
            Some(problems::logo(place.clone(), &format!("`{name}`: {cause}")))
        }
    })
}
