//! Which files of a job folder become its photos, and what is wrong with the others.

use super::place::file_place;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Place, Problems};
use crate::intake::{JobFolder, PhotoFile};
use crate::photo::{self, Kind};
use crate::sheet::{Sheet, problems as sheet_problems};

/// The photos to prepare: those of the sheet in its order, then the others of the folder.
pub(super) fn of_sheet(
    folder: &JobFolder,
    sheet: &Sheet,
    files: Vec<PhotoFile>,
    problems: &mut Problems,
) -> Vec<PhotoFile> {
    let names: Vec<&str> = files.iter().map(|file| file.name.as_str()).collect();
    let still = files.iter().filter(|file| !is_passed_over(file.kind));
    let still: Vec<&str> = still.map(|file| file.name.as_str()).collect();
    check_named(sheet, &folder.shown, &names, &still, problems);
    let used: Vec<&str> = sheet.fields.photo_uses().map(|photo| photo.file.0.as_str()).collect();
    report_left_out(folder, problems);
    for file in files.iter().filter(|file| !used.contains(&file.name.as_str())) {
        report_passed_over(folder, file, problems);
    }
    let mut chosen: Vec<PhotoFile> = Vec::new();
    for name in used.into_iter().chain(still) {
        if let Some(file) = files.iter().find(|file| file.name == name)
            && chosen.iter().all(|one| one.name != name)
        {
            chosen.push(file.clone());
        }
    }
    chosen
}

/// The photos to prepare if no sheet is asked.
pub(super) fn of_folder(
    folder: &JobFolder,
    files: Vec<PhotoFile>,
    problems: &mut Problems,
) -> Vec<PhotoFile> {
    report_left_out(folder, problems);
    for file in &files {
        report_passed_over(folder, file, problems);
    }
    files.into_iter().filter(|file| !is_passed_over(file.kind)).collect()
}

/// Compares the photos that a sheet names with those in its folder.
///
/// `files` are all names that a photo may have, `still` those that can be printed; both sorted.
pub fn check_named(
    sheet: &Sheet,
    folder: &str,
    files: &[&str],
    still: &[&str],
    problems: &mut Problems,
) {
    let used: Vec<_> = sheet.fields.photo_uses().map(|photo| &photo.file).collect();
    for file in used.iter().filter(|file| !files.contains(&file.0.as_str())) {
        problems.push(sheet_problems::photo_missing(sheet.place(&file.span), &file.0, files));
    }
    // What could not be read may have named it.
    let still = if sheet.is_whole { still } else { &[] };
    for name in still.iter().filter(|name| used.iter().all(|file| file.0 != **name)) {
        let file = SourceText::named(format!("{folder}/{name}"));
        problems.push(sheet_problems::photo_unused(Place::whole(&file)));
    }
}

fn report_left_out(folder: &JobFolder, problems: &mut Problems) {
    for name in folder.photos_left_out() {
        problems.push(photo::problems::left_out(file_place(folder, name)));
    }
}

fn report_passed_over(folder: &JobFolder, file: &PhotoFile, problems: &mut Problems) {
    if is_passed_over(file.kind) {
        let place = file_place(folder, &file.name);
        problems.push(sheet_problems::passed_over(place, file.kind.phrase()));
    }
}

/// Films and pictures that no paper can hold.
fn is_passed_over(kind: Kind) -> bool {
    matches!(kind, Kind::Avif | Kind::Gif | Kind::JpegXl | Kind::CameraRaw | Kind::Film(_))
}
