//! Many jobs: finds them, works on all cores, keeps each one's trouble to itself, tells what came of it.
//!
//! How the work is shared among threads is `workers`; what is done to one job is `job`.

mod claims;
pub mod order;
mod outcome;
pub mod shops;
pub mod teller;

use std::collections::BTreeSet;
use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use crate::archive::holdings::{self, Holding};
use crate::assessment::plausibility::{self, Shared};
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::failure::{Failure, fault};
use crate::handover::Tray;
use crate::intake;
use crate::job::{self, Means, Wanted, number};
use crate::photo::{Digest, PixelBudget};
use crate::sealing;
use crate::sheet::{self, problems};
use crate::shop::Shop;
use crate::workers;
use claims::Claims;
use order::{Order, inputs_digest};
use shops::Shops;
use teller::{Status, Teller, Told};

pub use outcome::Ending;

/// Runs an order.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(order: &Order, teller: &Teller) -> Result<Ending, Failure> {
    let (folders, unreadable) = find_jobs(&order.folders)?;
    if let Some(out) = &order.out {
        intake::refuse_sealed(out)?;
        crate::handover::make_folder(out)?;
    }
    let numbers: Vec<Option<String>> = folders.iter().map(|folder| number::peek(folder)).collect();
    let run = Run {
        order,
        claims: Mutex::new(Claims::of(&numbers)),
        folders,
        numbers,
        shops: Shops::default(),
        photos: Mutex::default(),
        budget: PixelBudget::default(),
    };
    teller.begin(run.folders.len());
    workers::map_jobs(order.workers, run.folders.len(), |at| teller.tell(at, run.work_guarded(at)));
    let shared = run.shared_photos()?;
    Ok(teller.end(&unreadable, &shared))
}

/// The jobs of every folder of an order, each once.
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
    order: &'a Order,
    folders: Vec<PathBuf>,
    numbers: Vec<Option<String>>,
    claims: Mutex<Claims>,
    shops: Shops,
    /// Photos of the jobs of this run: job, file name, digest.
    photos: Mutex<Vec<Holding>>,
    budget: PixelBudget,
}

impl Run<'_> {
    /// A panic of ours costs one job, not the run.
    fn work_guarded(&self, at: usize) -> Told {
        panic::catch_unwind(AssertUnwindSafe(|| self.work(at))).unwrap_or_else(|cause| {
            let cause = format!("a fault in splitcase: {}", fault::words(&*cause));
            let failure = Failure::on("finish the job", &self.folders[at], cause);
            Told::failed(
                self.name(at),
                failure.hint("please report it with the sheet; the other jobs went on"),
            )
        })
    }

    fn work(&self, at: usize) -> Told {
        self.one(at).unwrap_or_else(|failure| Told::failed(self.name(at), failure))
    }

    /// The job's number as it was at the start of the run, or its folder where the sheet names none.
    fn name(&self, at: usize) -> String {
        self.numbers[at].clone().unwrap_or_else(|| self.folders[at].display().to_string())
    }

    fn one(&self, at: usize) -> Result<Told, Failure> {
        let folder = intake::open(&self.folders[at])?;
        // The sheet may have been saved since the run began: its number is read from the very bytes
        // that the papers are made from.
        let number = sheet::peek_number(&folder.sheet);
        let job = number.clone().unwrap_or_else(|| self.folders[at].display().to_string());
        let shop = match self.shops.of(&folder.path) {
            Ok(shop) => shop,
            Err(refusal) => return refusal.told(job),
        };
        if let Some(number) = &number {
            let mut claims = self.claims.lock().unwrap_or_else(PoisonError::into_inner);
            if let Some(other) = claims.claim(number, at) {
                return Ok(Told::new(job, Status::Refused, vec![self.doubled(at, number, other)]));
            }
        }
        let kind = self.order.wanted.word();
        let tray = match (&self.order.out, self.order.wanted, &number) {
            (Some(out), Wanted::PhotoSheet, None) => {
                Some(Tray::new(out, &number::of_folder(&folder), kind)?)
            }
            (Some(out), _, Some(number)) => Some(Tray::new(out, number, kind)?),
            (None, Wanted::PhotoSheet, _) => {
                intake::refuse_sealed(&folder.path)?;
                Some(Tray::beside(&folder.path, kind))
            }
            _ => None,
        };
        let inputs = inputs_digest(&folder, &shop);
        if let Some(tray) = tray.as_ref().filter(|_| !self.order.afresh)
            && let Some(record) = tray.record()?
            && record.inputs == inputs
            && tray.holds(&record)
        {
            let photos = record.photos.iter();
            let photos =
                photos.filter_map(|(name, sha256)| Some((name.as_str(), Digest::parse(sha256)?)));
            self.note(&job, photos);
            let warnings = record.warnings;
            return Ok(Told { warnings, ..Told::new(job, Status::Unchanged, Vec::new()) });
        }
        // Where there are fewer jobs than cores, the cores left over help with the photos.
        let threads = self.order.workers / self.folders.len().max(1);
        let means = Means { threads: threads.max(1), budget: &self.budget };
        let done = job::run(&folder, &shop, self.order.wanted, &means)?;
        self.note(&job, done.photos.iter().map(|(name, sha256)| (name.as_str(), *sha256)));
        let (status, remarks) = self.finish(&folder, &shop, &done, tray.as_ref(), inputs)?;
        let mut problems = done.problems;
        problems.extend(remarks);
        Ok(Told::new(job, status, problems))
    }

    /// Seals or writes what was made.
    fn finish(
        &self,
        folder: &intake::JobFolder,
        shop: &Shop,
        done: &job::Done,
        tray: Option<&Tray>,
        inputs: String,
    ) -> Result<(Status, Vec<Diagnostic>), Failure> {
        let has_errors = done.problems.iter().any(|one| one.severity == Severity::Error);
        if has_errors && done.papers.is_empty() {
            return Ok((Status::Refused, Vec::new()));
        }
        if let Some((terms, basis)) = self.order.terms.as_ref().zip(done.basis.as_ref()) {
            let closed = sealing::seal_job(folder, shop, done, basis, terms)?;
            return Ok((Status::Sealed(closed.bags), closed.remarks));
        }
        match tray {
            Some(tray) => {
                tray.hand_over(&done.papers, inputs, done.problems.len(), &done.photos)?;
                let papers = done.papers.iter().map(|paper| tray.path(&paper.name));
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
        let sealed = match &self.order.terms {
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
                let folder = self.order.folders[0].display().to_string();
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
