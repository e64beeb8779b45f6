//! `new`: a job with a number, a day and the photos that are there, or a workshop profile.
//!
//! In: typed arguments; out: how the run ended. The texts are `scaffold`'s.

use std::path::{Path, PathBuf};

use serde_json::json;

use super::clock;
use crate::archive::holdings;
use crate::cli::starting::New;
use crate::console::{Console, RunOutcome};
use crate::diagnostic::Problems;
use crate::failure::Failure;
use crate::intake::{self, around, asked, shown};
use crate::job::number;
use crate::scaffold::next_number::{self, Known};
use crate::scaffold::starter::Filled;
use crate::scaffold::{self, photo_list};
use crate::sheet::{self, text::is_job_number};

pub(super) fn run(new: &New, cores: usize, console: &Console) -> Result<RunOutcome, Failure> {
    let written = if new.workshop {
        scaffold::write_profile(&new.folder)?
    } else {
        let folder = place(&new.folder)?;
        let number = intake::name_of(&folder).filter(|name| is_job_number(name));
        warn_of_twin(&folder, number.as_deref(), console);
        let photos = if folder.is_dir() {
            let (photos, failures) = photo_list::comments(&folder, cores, &clock::local)?;
            for failure in &failures {
                console.warn(&failure.to_string());
            }
            photos
        } else {
            String::new()
        };
        let short = Filled {
            like: &new.like,
            number: number.as_deref(),
            today: clock::today(),
            photos: &photos,
        };
        scaffold::write_sheet(&folder, (!new.all_fields).then_some(&short))?
    };
    for path in written {
        let shown = shown::shown(&shown::from_here(&path));
        console.tell(&format!("written: {shown}"), || json!({ "file": shown }))?;
    }
    Ok(RunOutcome::AllGood)
}

/// The folder of the new job: the one that was given, or in a folder of jobs the next number's.
fn place(given: &Path) -> Result<PathBuf, Failure> {
    if given.join(intake::SHEET).exists() {
        return Ok(given.to_owned());
    }
    let folders = around::around(given).jobs;
    if folders.is_empty() {
        // The present folder is a job's if it has photos or a number for its name.
        let name = intake::name_of(given).unwrap_or_default();
        let is_jobs_own = asked::has_photos(given) || name.ends_with(|c: char| c.is_ascii_digit());
        if given != Path::new(".") || is_jobs_own {
            return Ok(given.to_owned());
        }
        let cause = "there is no job in it to count on from, and no photo";
        return Err(Failure::on("number the new job in", given, cause)
            .hint("give the first job its folder: `splitcase new HD-1`"));
    }
    let known: Vec<(Known, &PathBuf)> = folders
        .iter()
        .filter_map(|folder| {
            let bytes =
                intake::read_text_file(&folder.join(intake::SHEET), "read the sheet").ok()?;
            let number = sheet::peek_number(&bytes).or_else(|| intake::name_of(folder))?;
            Some((Known { number, arrived: sheet::peek_arrival(&bytes) }, folder))
        })
        .collect();
    let jobs: Vec<Known> = known.iter().map(|(job, _)| job.clone()).collect();
    let (next, last) = next_number::after(&jobs, &taken(given, &folders)).ok_or_else(|| {
        let cause = "the jobs in it have no numbers that can be counted on";
        Failure::on("number the new job in", given, cause)
            .hint("give its folder: `splitcase new HD-1`")
    })?;
    // Beside the job that was counted on from, wherever below the folder that is.
    Ok(known[last].1.parent().unwrap_or(given).join(next))
}

/// Numbers that are in use beside the sheets: names of folders, and jobs that are sealed.
fn taken(given: &Path, folders: &[PathBuf]) -> Vec<String> {
    let parents = folders.iter().filter_map(|folder| folder.parent());
    let mut taken: Vec<String> = parents.flat_map(around::folder_names).collect();
    taken.extend(sealed(given));
    taken.sort();
    taken.dedup();
    taken
}

/// The numbers of the jobs in the archive that the workshop's profile names.
fn sealed(near: &Path) -> Vec<String> {
    let Some(profile) = intake::find_profile(near) else { return Vec::new() };
    let Ok(bytes) = intake::read_text_file(&profile, "read the workshop profile") else {
        return Vec::new();
    };
    let read = sheet::read_profile(intake::PROFILE, &bytes, &mut Problems::default());
    let archive = read.and_then(|read| read.fields.evidence).and_then(|policy| policy.archive);
    let Some(archive) = archive else { return Vec::new() };
    let archive = profile.with_file_name(&archive.0);
    holdings::newest_bags(&archive).into_iter().map(|(job, _)| job).collect()
}

/// Warns of another job of the workshop that has the number already.
fn warn_of_twin(folder: &Path, number: Option<&str>, console: &Console) {
    let above = folder.ancestors().find(|above| above.is_dir()).unwrap_or(Path::new("."));
    let above = if above.as_os_str().is_empty() { Path::new(".") } else { above };
    let (Some(number), Some(profile)) = (number, intake::find_profile(above)) else { return };
    let own = intake::real_path(folder);
    let jobs = profile.parent().map(|root| around::around(root).jobs).unwrap_or_default();
    let twin = jobs.iter().find(|job| {
        intake::real_path(job) != own
            && number::peek(job).is_some_and(|other| other.eq_ignore_ascii_case(number))
    });
    if let Some(twin) = twin {
        console.warn(&format!("`{}` has the number {number} too", shown::shown(twin)));
    } else if sealed(above).iter().any(|sealed| sealed.eq_ignore_ascii_case(number)) {
        console.warn(&format!("the archive holds a job with the number {number}"));
    }
}
