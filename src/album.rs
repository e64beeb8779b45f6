//! The photos of one job: chosen from its folder, prepared on the threads of the job, compared.
//!
//! In: a job folder, its sheet if there is one; out: photos in the order of their numbers on paper,
//! and problems. How one photo is prepared is `photo`; where it is printed is `document`.

mod choose;
mod doubts;
mod place;

use crate::diagnostic::{Problems, Severity};
use crate::failure::Failure;
use crate::intake::{JobFolder, PhotoFile};
use crate::photo::{self, NamedPhoto, PixelBudget, PrintSize};
use crate::sheet::Sheet;
use crate::workers;
use place::{named, place};

pub use choose::check_named;

/// What a job may use for its photos.
#[derive(Debug, Clone, Copy)]
pub struct Means<'a> {
    /// Number of threads, at least 1.
    pub threads: usize,
    /// The pixels that all jobs of a run may hold at once.
    pub budget: &'a PixelBudget,
    /// The room of a photo on paper.
    pub print: PrintSize,
}

/// The photos of a sheet in its order, then the others of its folder.
///
/// # Errors
/// A file cannot be read.
pub fn of_sheet(
    folder: &JobFolder,
    sheet: &Sheet,
    means: &Means<'_>,
    problems: &mut Problems,
) -> Result<Vec<NamedPhoto>, Failure> {
    let chosen = choose::of_sheet(folder, sheet, folder.photos()?, problems);
    let photos = prepare(folder, Some(sheet), &chosen, means, problems)?;
    problems.extend(doubts::doubts(folder, sheet, &photos));
    Ok(photos)
}

/// The photos of a folder, whatever its sheet says. What is wrong with one is a warning: the others
/// are shown.
///
/// # Errors
/// A file cannot be read.
pub fn of_folder(
    folder: &JobFolder,
    means: &Means<'_>,
    problems: &mut Problems,
) -> Result<Vec<NamedPhoto>, Failure> {
    let chosen = choose::of_folder(folder, folder.photos()?, problems);
    prepare(folder, None, &chosen, means, problems)
}

fn prepare(
    folder: &JobFolder,
    sheet: Option<&Sheet>,
    files: &[PhotoFile],
    means: &Means<'_>,
    problems: &mut Problems,
) -> Result<Vec<NamedPhoto>, Failure> {
    let prepared = workers::map(means.threads, files.len(), |at| {
        let bytes = folder.read_photo(&files[at].name)?;
        Ok(photo::prepare(&bytes, means.print, means.budget))
    });
    let mut photos = Vec::new();
    for (file, prepared) in files.iter().zip(prepared) {
        let name = &file.name;
        let place = place(folder, sheet, name);
        match prepared? {
            Ok(photo) => {
                problems.extend(photo.facts.damaged.then(|| photo::problems::damaged(place, name)));
                photos.push(NamedPhoto { name: name.clone(), photo });
            }
            Err(refusal) => {
                let is_used = sheet.is_none_or(|sheet| named(sheet, name).is_some());
                let mut problem = photo::problems::refused(place, name, &refusal, is_used);
                if sheet.is_none() {
                    problem.severity = Severity::Warning;
                }
                problems.push(problem);
            }
        }
    }
    Ok(photos)
}
