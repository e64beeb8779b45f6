//! The contact sheet of a job folder: its photos with the lettered grid, whatever its sheet says yet.
//!
//! In: a job folder and the workshop; out: one paper. It is wanted before the findings can be typed, so a
//! new or faulty sheet does not prevent it: number, language and day come from it if they can be read.

use chrono::NaiveDate;

use super::done::{Done, on_disk, refused};
use super::means::Means;
use super::number;
use crate::album;
use crate::diagnostic::Problems;
use crate::digest::Digest;
use crate::document::manifest::{self, Inputs};
use crate::document::material::Cover;
use crate::document::{self, material};
use crate::failure::Failure;
use crate::intake::{JobFolder, SHEET};
use crate::sheet::text::Language;
use crate::sheet::{self, Sheet, issued};
use crate::workshop::Workshop;

/// Makes the contact sheet. What is wrong with a photo is a warning: the others are shown.
///
/// # Errors
/// What the machine refused.
pub fn run(folder: &JobFolder, workshop: &Workshop, means: &Means<'_>) -> Result<Done, Failure> {
    let mut problems = Problems::default();
    // What is wrong with the sheet is not this paper's business; `check` reports it.
    let name = folder.shown_name(SHEET);
    let sheet = sheet::read(&name, &folder.sheet, &workshop.profile, &mut Problems::default());
    let number = sheet::peek_number(&folder.sheet).unwrap_or_else(|| number::of_folder(folder));
    let photos = album::of_folder(folder, &means.of_photos(), &mut problems)?;

    let naming = workshop.profile.fields.technicians.unwrap_or_default();
    let issued = sheet.as_ref().map(|sheet| issued::copy(&sheet.tree, naming));
    let model = sheet.as_ref().and_then(|sheet| sheet.fields.unit.model.as_ref());
    let model = model.map(|model| model.0.as_str());
    let priced = sheet.as_ref().map_or(&[][..], |sheet| &sheet.priced);
    let profile = issued::relevant_profile(&workshop.profile.tree, model, priced);
    let manifest = manifest::manifest(&Inputs {
        job: &number,
        sheet: &folder.sheet,
        issued: issued.as_deref(),
        profile: profile.as_bytes(),
        templates: workshop.press.templates().digest(),
        photos: on_disk(folder, &photos),
        track: None,
        visits: None,
    });
    let cover = Cover {
        job: &number,
        language: language(sheet.as_ref(), workshop),
        day: day(sheet.as_ref(), folder),
        workshop: &workshop.profile,
        photos: &photos,
        manifest: &manifest,
        issued: issued.as_deref(),
        digest: Digest::of(manifest.as_bytes()),
        logo: workshop.logo(),
    };
    match document::photo_sheet(&workshop.press, &cover) {
        Ok(paper) => {
            Ok(Done { problems: problems.into_sorted(), papers: vec![paper], ..Done::default() })
        }
        Err(refusal) => refusal.into_problems(&mut problems).map(|()| refused(problems)),
    }
}

/// The sheet's language, else the workshop's, else English, as far as there are words for it.
pub(super) fn language(sheet: Option<&Sheet>, workshop: &Workshop) -> Language {
    let own = sheet.map(|sheet| material::language(sheet, &workshop.profile));
    let house = workshop.profile.fields.language.as_ref().map(|language| language.value.clone());
    let speaks = |language: &Language| workshop.press.templates().speaks(language.base());
    own.into_iter().chain(house).find(speaks).unwrap_or_else(|| Language("en".into()))
}

/// The sheet's last day, else that of the newest file of the folder.
fn day(sheet: Option<&Sheet>, folder: &JobFolder) -> NaiveDate {
    sheet.map(document::day).or_else(|| folder.newest_day()).unwrap_or_default()
}
