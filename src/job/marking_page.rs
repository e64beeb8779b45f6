//! The marking page of a job folder, whatever its sheet says yet.
//!
//! In: a job folder and the workshop; out: one HTML file in a paper's place. As with the contact sheet, a
//! new or faulty sheet does not prevent it: its marks and findings are shown as far as they can be read.

use super::contact_sheet::language;
use super::done::{Done, refused};
use super::means::Means;
use crate::album;
use crate::diagnostic::Problems;
use crate::document::{Document, Refusal, material};
use crate::failure::Failure;
use crate::intake::{JobFolder, SHEET};
use crate::marking::{self, PageOf};
use crate::sheet;
use crate::workshop::Workshop;

/// Makes the page. What is wrong with a photo is a warning: the others are shown.
///
/// # Errors
/// What the machine refused.
pub fn run(folder: &JobFolder, workshop: &Workshop, means: &Means<'_>) -> Result<Done, Failure> {
    let mut problems = Problems::default();
    // What is wrong with the sheet is `check`'s business; the page says which marks it cannot read.
    let name = folder.shown_name(SHEET);
    let sheet = sheet::read(&name, &folder.sheet, &workshop.profile, &mut Problems::default());
    let number = sheet::peek_number(&folder.sheet);
    let means = album::Means { print: marking::page_size(), ..means.of_photos() };
    let photos = album::of_folder(folder, &means, &mut problems)?;
    let language = language(sheet.as_ref(), workshop);
    let wording = match workshop
        .press
        .wording(language.base(), material::region(&language, &workshop.profile))
    {
        Ok(wording) => wording,
        Err(found) => {
            let refusal = Refusal::Problems(found);
            return refusal.into_problems(&mut problems).map(|()| refused(problems));
        }
    };
    let decimal_comma =
        sheet::has_decimal_comma(sheet.as_ref().map(|sheet| &sheet.tree), &workshop.profile);
    let page = marking::page(&PageOf {
        job: number.as_deref(),
        sheet: sheet.as_ref(),
        photos: &photos,
        wording: &wording,
        decimal_comma,
    })?;
    let name = marking::FILE_NAME.to_owned();
    let page = Document { name, pdf: page, is_due: true, beside: Vec::new() };
    Ok(Done { problems: problems.into_sorted(), papers: vec![page], ..Done::default() })
}
