//! `mark`: the marking page of jobs, and what it saved taken into a sheet.

use std::path::Path;

use crate::batch::reporter::{Format, JobReport, Reporter, Status};
use crate::batch::workshops::Workshops;
use crate::batch::{self, RunOutcome, request::Request};
use crate::cli::Mark;
use crate::failure::Failure;
use crate::intake;
use crate::job::Wanted;
use crate::marking::{self, Given};
use crate::output;
use crate::sheet;

pub(super) fn run(mark: Mark, cores: usize) -> Result<RunOutcome, Failure> {
    let reporter = Reporter::new(Format::Text);
    match &mark.take {
        None => {
            let request = Request::new(vec![mark.job], Wanted::MarkingPage, cores);
            batch::run(&Request { out: mark.out, ..request }, &reporter)
        }
        Some(saved) => {
            let told = take(&mark.job, saved).unwrap_or_else(|failure| {
                JobReport::failed(mark.job.display().to_string(), failure)
            });
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
    let name = sheet::peek_number(&folder.sheet).unwrap_or_else(|| job.display().to_string());
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
        Ok(taken) if taken.is_as_before => Status::Unchanged,
        Ok(taken) => {
            let sheet = folder.path.join(intake::SHEET);
            output::change(&sheet, &folder.sheet, &taken.sheet)?;
            Status::Written(vec![sheet])
        }
    };
    Ok(JobReport::new(name, status, Vec::new()))
}
