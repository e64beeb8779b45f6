//! Many jobs: finds them, works on all cores, isolates failures by job, reports each result.
//!
//! How the work is shared among threads is `workers`; what is done to one job is `job`.

mod claims;
pub mod job_report;
pub mod listener;
pub mod reporter;
pub mod request;
pub mod shard;
pub mod workshops;

use std::collections::BTreeSet;
use std::panic::{self, AssertUnwindSafe};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use crate::assessment::earlier::{Earlier, Visits};
use crate::assessment::recognition::{Look, Mark};
use crate::console::RunOutcome;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::digest::Digest;
use crate::failure::{Failure, fault};
use crate::intake;
use crate::intake::JobFolder;
use crate::job::{self, Means, Wanted, number};
use crate::neighbours::neighbourhood::Neighbourhood;
use crate::neighbours::photos::{self, shapes};
use crate::neighbours::{self, visits};
use crate::output::{Made, OutputFolder};
use crate::photo::PixelBudget;
use crate::sealing;
use crate::sheet::{self, problems, serial};
use crate::workers;
use crate::workshop::Workshop;
use claims::Claims;
use job_report::{JobReport, Status};
use listener::Listener;
use request::{Request, inputs_digest};
use workshops::Workshops;

/// Runs a request.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(request: &Request, listener: &dyn Listener) -> Result<RunOutcome, Failure> {
    run_in(&Workshops::default(), request, listener)
}

/// Runs a request in workshops that may have been opened before.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run_in(
    workshops: &Workshops,
    request: &Request,
    listener: &dyn Listener,
) -> Result<RunOutcome, Failure> {
    let (folders, unreadable) = find_jobs(request)?;
    if let Some(out) = &request.out {
        intake::refuse_sealed(out)?;
        crate::output::make_folder(out)?;
    }
    let peeked: Vec<Peeked> = folders.iter().map(|folder| peek(folder)).collect();
    let (folders, peeked) = share(request, folders, peeked);
    let serials: BTreeSet<String> = peeked.iter().flat_map(|one| one.1.clone()).collect();
    let numbers: Vec<Option<String>> = peeked.into_iter().map(|(number, _)| number).collect();
    let around = match request.wanted {
        Wanted::PhotoSheet | Wanted::MarkingPage => Vec::new(),
        Wanted::Check | Wanted::Papers(_) => {
            let folders = folders.iter().map(PathBuf::as_path);
            let open = |job: &Path| workshops.of(job).ok();
            neighbours::around(folders, open, request.archive.as_deref())
        }
    };
    let visits = Arc::new(visits::visits(&around, &serials));
    let run = Run {
        request,
        claims: Mutex::new(Claims::of(&numbers)),
        folders,
        numbers,
        workshops,
        around,
        visits,
        photos: Mutex::default(),
        budget: PixelBudget::default(),
    };
    listener.start(run.folders.len());
    workers::map_jobs(request.workers, run.folders.len(), |at| {
        let folder = run.folders[at].clone();
        listener.job_done(at, JobReport { folder, ..run.work_guarded(at) });
    });
    let shared = run.shared_photos();
    Ok(listener.finish(&unreadable, &shared))
}

/// What is known of a job before its sheet is read: its number, and serial numbers as compared.
type Peeked = (Option<String>, Vec<String>);

fn peek(folder: &Path) -> Peeked {
    let bytes = intake::read_text_file(&folder.join(intake::SHEET), "read the sheet");
    bytes.map(|bytes| (sheet::peek_number(&bytes), serial::glimpsed(&bytes))).unwrap_or_default()
}

/// The jobs of the share that a request is for; one whose number cannot be read counts by its folder's name.
fn share(
    request: &Request,
    folders: Vec<PathBuf>,
    peeked: Vec<Peeked>,
) -> (Vec<PathBuf>, Vec<Peeked>) {
    let Some(shard) = request.shard else { return (folders, peeked) };
    let jobs = folders.into_iter().zip(peeked);
    let is_own = |(folder, (number, _)): &(PathBuf, Peeked)| match number {
        Some(number) => shard.takes(number),
        None => shard.takes(&intake::name_of(folder).unwrap_or_default()),
    };
    jobs.filter(is_own).unzip()
}

/// The jobs of every folder of a request, each once. A path of a list that is no job costs no other.
fn find_jobs(request: &Request) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    let (mut folders, mut unreadable) = (Vec::new(), Vec::new());
    for folder in &request.folders {
        let (found, failures) = jobs_below(folder, &request.wanted)?;
        folders.extend(found);
        unreadable.extend(failures);
    }
    for path in &request.listed {
        match jobs_below(path, &request.wanted) {
            Ok((found, failures)) => {
                folders.extend(found);
                unreadable.extend(failures);
            }
            Err(failure) => unreadable.push(failure),
        }
    }
    // HD-2 goes before HD-10; names that differ only in how a number is written have an order too.
    folders.sort_by(|a, b| alphanumeric_sort::compare_path(a, b).then_with(|| a.cmp(b)));
    intake::find::keep_each_once(&mut folders);
    Ok((folders, unreadable))
}

/// The jobs in a folder and below it, at least one.
fn jobs_below(folder: &Path, wanted: &Wanted) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    let (mut found, failures) = intake::find::find_jobs(folder)?;
    if found.is_empty() && wanted.is_beside_photos() && intake::asked::has_photos(folder) {
        found.push(folder.to_owned());
    }
    if found.is_empty() && failures.is_empty() {
        let cause = format!("there is no `{}` in it or below it", intake::SHEET);
        let failure = Failure::on("find a job in", folder, cause);
        return Err(failure.hint("`splitcase new FOLDER` starts a job"));
    }
    Ok((found, failures))
}

/// One run over many folders.
struct Run<'a> {
    request: &'a Request,
    folders: Vec<PathBuf>,
    numbers: Vec<Option<String>>,
    claims: Mutex<Claims>,
    workshops: &'a Workshops,
    /// The workshops with what is around their jobs.
    around: Vec<Neighbourhood>,
    /// Earlier visits of the units of this run.
    visits: Arc<Visits>,
    /// Photos of the jobs of this run, by the job's place in the run.
    photos: Mutex<Vec<(usize, shapes::OwnPhoto)>>,
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

    /// The job's number as it was at the start of the run, or its folder if the sheet names none.
    fn name(&self, at: usize) -> String {
        self.numbers[at].clone().unwrap_or_else(|| intake::shown::shown(&self.folders[at]))
    }

    fn one(&self, at: usize) -> Result<JobReport, Failure> {
        let mut folder = match self.request.wanted.is_beside_photos() {
            true => intake::open_with_or_without_sheet(&self.folders[at])?,
            false => intake::open(&self.folders[at])?,
        };
        folder.earlier = Earlier::Among(Arc::clone(&self.visits));
        // The sheet may have been saved since the run began: its number is read from the very bytes
        // that the papers are made from.
        let number = sheet::peek_number(&folder.sheet);
        let job = number.clone().unwrap_or_else(|| intake::shown::shown(&self.folders[at]));
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
        let output = match (&self.request.out, &self.request.wanted, &number) {
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
        let inputs = inputs_digest(&folder, &workshop, &self.request.wanted);
        if let Some(output) = output.as_ref().filter(|_| !self.request.force)
            && let Some(record) = output.record()?
            && record.inputs == inputs
            && output.holds(&record)
        {
            let photos = record.photos.iter();
            let photos =
                photos.filter_map(|(name, sha256)| Some((name.as_str(), Digest::parse(sha256)?)));
            self.note(at, &folder, &job, photos.map(|(name, sha256)| (name, sha256, None)));
            let warnings = record.warnings;
            let papers =
                record.papers.iter().filter(|paper| paper.name.strip_suffix(".pdf").is_some());
            let papers = papers.map(|paper| output.path(&paper.name)).collect();
            let told = JobReport::new(job, Status::Unchanged(papers), Vec::new());
            return Ok(JobReport { warnings, progress: record.progress, ..told });
        }
        // If there are fewer jobs than cores, the cores left over help with the photos.
        let threads = self.request.workers / self.folders.len().max(1);
        let means = Means { threads: threads.max(1), budget: &self.budget };
        let done = job::run(&folder, &workshop, &self.request.wanted, &means)?;
        let photos = done.photos.iter();
        let photos = photos.map(|(name, look)| (name.as_str(), look.sha256, Some(look.clone())));
        self.note(at, &folder, &job, photos);
        let (status, remarks) = self.finish(&folder, &workshop, &done, output.as_ref(), inputs)?;
        let mut problems = done.problems;
        problems.extend(remarks);
        let told = JobReport::new(job, status, problems);
        Ok(JobReport { visits: done.visits, progress: done.progress, priced: done.priced, ..told })
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
        if let Some((options, basis)) = self.request.options.as_ref().zip(done.basis.as_ref()) {
            let sealed = sealing::seal_job(folder, workshop, done, basis, options)?;
            return Ok((Status::Sealed(sealed.bags), sealed.remarks));
        }
        match output {
            Some(output) => {
                let photos = done.photos.iter().map(|(name, look)| (name.clone(), look.sha256));
                let photos: Vec<(String, Digest)> = photos.collect();
                let warnings = done.problems.len();
                let (photos, progress) = (photos.as_slice(), done.progress.as_ref());
                output.write_papers(&done.papers, Made { inputs, warnings, photos, progress })?;
                let papers = done.papers.iter().map(|paper| output.path(&paper.name));
                let status = match done.papers.is_empty() {
                    true => Status::NothingDue,
                    false => Status::Written(papers.collect()),
                };
                Ok((status, Vec::new()))
            }
            None if done.papers.is_empty() => Ok((Status::Checked, Vec::new())),
            // A sheet that goes to paper has a number; without one nothing can be written.
            None => Err(Failure::on("write the papers of", &folder.path, "the job has no number")),
        }
    }

    /// Notes the photos of a job: name, digest, look.
    fn note<'a>(
        &self,
        at: usize,
        folder: &JobFolder,
        job: &str,
        photos: impl Iterator<Item = (&'a str, Digest, Option<Look>)>,
    ) {
        let mut all = self.photos.lock().unwrap_or_else(PoisonError::into_inner);
        all.extend(photos.filter_map(|(name, sha256, look)| {
            let file = folder.files.iter().find(|file| file.name == folder.on_disk(name))?;
            let mark = Mark { bytes: file.bytes, changed: file.changed, sha256 };
            let (name, shown) = (file.name.clone(), folder.shown_name(&file.name));
            let (job, folder) = (job.to_owned(), folder.path.clone());
            Some((at, shapes::OwnPhoto { job, folder, name, shown, mark, look }))
        }));
    }

    /// Photos of this run that another job has too: here, in the folder tree or in the archive.
    fn shared_photos(&self) -> Vec<Diagnostic> {
        let mut all = self.photos.lock().unwrap_or_else(PoisonError::into_inner);
        // Jobs are done in any order; what is said of them is not.
        all.sort_by_key(|(at, _)| *at);
        let own: Vec<shapes::OwnPhoto> = all.drain(..).map(|(_, photo)| photo).collect();
        let keeps = self.request.out.is_some() || self.request.options.is_some();
        let (around, threads) = (&self.around, self.request.workers);
        photos::compare(&own, &shapes::Means { around, keeps, threads, budget: &self.budget })
    }

    fn doubled(&self, at: usize, number: &str, other: usize) -> Diagnostic {
        let sheet_of = |at: usize| self.folders[at].join(intake::SHEET).display().to_string();
        let place = Place::whole(&SourceText::named(sheet_of(at)));
        problems::duplicate_job(place, number, &sheet_of(other))
    }
}
