//! Many jobs: finds them, works on all cores, keeps each one's trouble to itself, tells what came of it.
//!
//! How the work is shared among threads is `workers`; what is done to one job is `job`.

mod claims;
mod outcome;
pub mod reporter;
pub mod request;
pub mod workshops;

use std::collections::BTreeSet;
use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use crate::archive::holdings::{self, Holding};
use crate::assessment::plausibility::{self, Shared};
use crate::closing;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::failure::{Failure, fault};
use crate::intake;
use crate::job::{self, Means, number};
use crate::output::OutputFolder;
use crate::photo::{Digest, PixelBudget};
use crate::sheet::{self, problems};
use crate::workers;
use crate::workshop::Workshop;
use claims::Claims;
use reporter::{JobReport, Reporter, Status};
use request::{Request, inputs_digest};
use workshops::Workshops;

pub use outcome::RunOutcome;

/// Runs a request.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(request: &Request, reporter: &Reporter) -> Result<RunOutcome, Failure> {
    let (folders, unreadable) = find_jobs(&request.folders)?;
    if let Some(out) = &request.out {
        intake::refuse_sealed(out)?;
        crate::output::make_folder(out)?;
    }
    let numbers: Vec<Option<String>> = folders.iter().map(|folder| number::peek(folder)).collect();
    let run = Run {
        request,
        claims: Mutex::new(Claims::of(&numbers)),
        folders,
        numbers,
        workshops: Workshops::default(),
        photos: Mutex::default(),
        budget: PixelBudget::default(),
    };
    reporter.start(run.folders.len());
    workers::map_jobs(request.workers, run.folders.len(), |at| {
        reporter.job_done(at, run.work_guarded(at))
    });
    let shared = run.shared_photos()?;
    Ok(reporter.finish(&unreadable, &shared))
}

/// The jobs of every folder of a request, each once.
fn find_jobs(below: &[PathBuf]) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    let (mut folders, mut unreadable) = (Vec::new(), Vec::new());
    for folder in below {
        let (found, failures) = intake::find_jobs(folder)?;
        if found.is_empty() && failures.is_empty() {
            let cause = format!("there is no `{}` in it or below it", intake::SHEET);
            let failure = Failure::on("find a job in", folder, cause);
            return Err(failure.hint("`splitcase new FOLDER` starts a job"));
        }
        folders.extend(found);
        unreadable.extend(failures);
    }
    folders.sort();
    // One folder may be spelt in several ways.
    let mut known = BTreeSet::new();
    folders.retain(|folder| known.insert(intake::real_path(folder)));
    Ok((folders, unreadable))
}

/// One run over many folders.
struct Run<'a> {
    request: &'a Request,
    folders: Vec<PathBuf>,
    numbers: Vec<Option<String>>,
    claims: Mutex<Claims>,
    workshops: Workshops,
    /// Photos of the jobs of this run: job, file name, digest.
    photos: Mutex<Vec<Holding>>,
    budget: PixelBudget,
}

impl Run<'_> {
    /// A panic of ours costs one job, not the run.
    fn work_guarded(&self, at: usize) -> JobReport {
        panic::catch_unwind(AssertUnwindSafe(|| self.work(at))).unwrap_or_else(|cause| {
            let cause = format!("a fault in splitcase: {}", fault::words(&*cause));
            let failure = Failure::on("finish the job", &self.folders[at], cause);
            JobReport::failed(
                self.name(at),
                failure.hint("please report it with the sheet; the other jobs went on"),
            )
        })
    }

    fn work(&self, at: usize) -> JobReport {
        self.one(at).unwrap_or_else(|failure| JobReport::failed(self.name(at), failure))
    }

    /// The job's number as it was at the start of the run, or its folder where the sheet names none.
    fn name(&self, at: usize) -> String {
        self.numbers[at].clone().unwrap_or_else(|| self.folders[at].display().to_string())
    }

    fn one(&self, at: usize) -> Result<JobReport, Failure> {
        let folder = intake::open(&self.folders[at])?;
        // The sheet may have been saved since the run began: its number is read from the very bytes
        // that the papers are made from.
        let number = sheet::peek_number(&folder.sheet);
        let job = number.clone().unwrap_or_else(|| self.folders[at].display().to_string());
        let workshop = match self.workshops.of(&folder.path) {
            Ok(workshop) => workshop,
            Err(refusal) => return refusal.report(job),
        };
        if let Some(number) = &number {
            let mut claims = self.claims.lock().unwrap_or_else(PoisonError::into_inner);
            if let Some(other) = claims.claim(number, at) {
                return Ok(JobReport::new(
                    job,
                    Status::Refused,
                    vec![self.doubled(at, number, other)],
                ));
            }
        }
        let kind = self.request.wanted.word();
        let output = match (&self.request.out, self.request.wanted, &number) {
            (Some(out), wanted, None) if wanted.is_beside_photos() => {
                Some(OutputFolder::new(out, &number::of_folder(&folder), kind)?)
            }
            (Some(out), _, Some(number)) => Some(OutputFolder::new(out, number, kind)?),
            (None, wanted, _) if wanted.is_beside_photos() => {
                intake::refuse_sealed(&folder.path)?;
                Some(OutputFolder::beside(&folder.path, kind))
            }
            _ => None,
        };
        let inputs = inputs_digest(&folder, &workshop);
        if let Some(output) = output.as_ref().filter(|_| !self.request.force)
            && let Some(record) = output.record()?
            && record.inputs == inputs
            && output.holds(&record)
        {
            let photos = record.photos.iter();
            let photos =
                photos.filter_map(|(name, sha256)| Some((name.as_str(), Digest::parse(sha256)?)));
            self.note(&job, photos);
            let warnings = record.warnings;
            return Ok(JobReport {
                warnings,
                ..JobReport::new(job, Status::Unchanged, Vec::new())
            });
        }
        // Where there are fewer jobs than cores, the cores left over help with the photos.
        let threads = self.request.workers / self.folders.len().max(1);
        let means = Means { threads: threads.max(1), budget: &self.budget };
        let done = job::run(&folder, &workshop, self.request.wanted, &means)?;
        self.note(&job, done.photos.iter().map(|(name, sha256)| (name.as_str(), *sha256)));
        let (status, remarks) = self.finish(&folder, &workshop, &done, output.as_ref(), inputs)?;
        let mut problems = done.problems;
        problems.extend(remarks);
        Ok(JobReport::new(job, status, problems))
    }

    /// Seals or writes what was made.
    fn finish(
        &self,
        folder: &intake::JobFolder,
        workshop: &Workshop,
        done: &job::Done,
        output: Option<&OutputFolder>,
        inputs: String,
    ) -> Result<(Status, Vec<Diagnostic>), Failure> {
        let has_errors = done.problems.iter().any(|one| one.severity == Severity::Error);
        if has_errors && done.papers.is_empty() {
            return Ok((Status::Refused, Vec::new()));
        }
        if let Some((terms, basis)) = self.request.terms.as_ref().zip(done.basis.as_ref()) {
            let closed = closing::close(folder, workshop, done, basis, terms)?;
            return Ok((Status::Sealed(closed.bags), closed.remarks));
        }
        match output {
            Some(output) => {
                output.write_papers(&done.papers, inputs, done.problems.len(), &done.photos)?;
                let papers = done.papers.iter().map(|paper| output.path(&paper.name));
                Ok((Status::Written(papers.collect()), Vec::new()))
            }
            None if done.papers.is_empty() => Ok((Status::Checked, Vec::new())),
            // A sheet that goes to paper has a number; without one nothing can be written.
            None => Err(Failure::on("write the papers of", &folder.path, "the job has no number")),
        }
    }

    fn note<'a>(&self, job: &str, photos: impl Iterator<Item = (&'a str, Digest)>) {
        let mut all = self.photos.lock().unwrap_or_else(PoisonError::into_inner);
        all.extend(photos.map(|(name, sha256)| Holding {
            job: job.to_owned(),
            name: name.to_owned(),
            sha256,
        }));
    }

    /// Photos of this run that another job uses too, here or in the archive.
    fn shared_photos(&self) -> Result<Vec<Diagnostic>, Failure> {
        let own = self.photos.lock().unwrap_or_else(PoisonError::into_inner);
        let sealed = match &self.request.terms {
            Some(terms) => holdings::holdings(&terms.archive)?,
            None => Vec::new(),
        };
        let all: Vec<(&str, &str, Digest)> = own
            .iter()
            .chain(&sealed)
            .map(|one| (one.job.as_str(), one.name.as_str(), one.sha256))
            .collect();
        let shared = plausibility::shared(&all);
        let of_this_run =
            shared.iter().filter(|one| own.iter().any(|own| own.sha256 == one.sha256));
        Ok(of_this_run
            .map(|one| {
                let folder = self.request.folders[0].display().to_string();
                let place = Place::whole(&SourceText::named(folder));
                Diagnostic::warning(Shared::CODE, place, one.message()).hint(Shared::hint())
            })
            .collect())
    }

    fn doubled(&self, at: usize, number: &str, other: usize) -> Diagnostic {
        let sheet_of = |at: usize| self.folders[at].join(intake::SHEET).display().to_string();
        let place = Place::whole(&SourceText::named(sheet_of(at)));
        problems::duplicate_job(place, number, &sheet_of(other))
    }
}
