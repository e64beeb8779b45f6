//! A first try of a workshop's own wordings, before any job is worked on.
//!
//! In: a press; out: problems. The wordings write about a job made for it, `trial/findings.yaml`.
//! Runs inside the bounds of a child process: see `apart`.

use super::material::Material;
use super::papers::asked::Asked;
use super::papers::choice::Choice;
use super::papers::written::written;
use super::press::Press;
use super::refusal::Refusal;
use super::writer::Writer;
use crate::assessment;
use crate::diagnostic::Problems;
use crate::digest::Digest;
use crate::sheet;

const SHEET: &str = include_str!("trial/findings.yaml");
const PROFILE: &str = include_str!("trial/workshop.yaml");

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
    let asked = Asked { choice: Choice::All, phone: true, message: true };
    let mut problems = Vec::new();
    for language in press.templates().languages() {
        match press.wording(language, None) {
            Ok(wording) => {
                let writer = Writer::new(&material, &wording);
                let tried = wording.try_all(&writer.facts);
                if tried.is_empty() {
                    match written(&material, &wording, &asked).map(|_| ()) {
                        Err(Refusal::Problems(found)) => problems.extend(found),
                        done => done?,
                    }
                }
                problems.extend(tried);
            }
            Err(found) => problems.extend(found),
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(Refusal::Problems(problems)) }
}
