//! `mark`: the marking page of jobs, and what it saved taken into a sheet.

use std::path::Path;

use crate::batch::job_report::{JobReport, Status};
use crate::batch::listener::Listener;
use crate::batch::reporter::Reporter;
use crate::batch::workshops::Workshops;
use crate::batch::{self, request::Request};
use crate::cli::Mark;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;
use crate::intake;
use crate::job::Wanted;
use crate::marking::{self, Given};
use crate::output;
use crate::sheet;

pub(super) fn run(mark: Mark, cores: usize, console: &Console) -> Result<RunOutcome, Failure> {
    let reporter = Reporter::new(console);
    match &mark.take {
        None => {
            let request = Request::new(mark.jobs, Wanted::MarkingPage, cores);
            batch::run(&Request { out: mark.out, ..request }, &reporter)
        }
        Some(saved) => {
            let [job] = mark.jobs.as_slice() else {
                let cause = "what was saved belongs to one job, and several are given";
                return Err(Failure::new("take the saved file", cause)
                    .hint("give the one whose photos the page showed"));
            };
            let job = intake::asked::folder(job)?;
            let told = take(&job, saved)
                .unwrap_or_else(|failure| JobReport::failed(intake::shown::shown(&job), failure));
            reporter.start(1);
            reporter.job_done(0, told);
            Ok(reporter.finish(&[], &[]))
        }
    }
}

/// Takes a saved file into the sheet of one job.
fn take(job: &Path, saved: &Path) -> Result<JobReport, Failure> {
    intake::refuse_sealed(job)?;
    let bytes = intake::read_text_file(saved, "read the saved file")?;
    let folder = intake::open(job)?;
    let name = sheet::peek_number(&folder.sheet).unwrap_or_else(|| intake::shown::shown(job));
    let workshop = match Workshops::default().of(job) {
        Ok(workshop) => workshop,
        Err(refusal) => return refusal.report(name),
    };
    let photos: Vec<String> = folder.photos()?.into_iter().map(|photo| photo.name).collect();
    let photos: Vec<&str> = photos.iter().map(String::as_str).collect();
    let shown = folder.shown_name(intake::SHEET);
    let before = Given { name: &shown, bytes: &folder.sheet };
    let saved = saved.display().to_string();
    let saved = Given { name: &saved, bytes: &bytes };
    let status = match marking::take(before, &workshop.profile, saved, &photos) {
        Err(problems) => return Ok(JobReport::new(name, Status::Refused, problems)),
        Ok(taken) if taken.is_as_before => Status::Unchanged(vec![folder.path.join(intake::SHEET)]),
        Ok(taken) => {
            let sheet = folder.path.join(intake::SHEET);
            output::change(&sheet, &folder.sheet, &taken.sheet)?;
            Status::Written(vec![sheet])
        }
    };
    Ok(JobReport::new(name, status, Vec::new()))
}
