//! Many jobs: finds them, works on all cores, keeps each one's trouble to itself, tells what came of it.
//!
//! Plain worker threads, each with a private one-thread pool for Typst: jobs as tasks of a shared pool
//! would be nested on one stack and overflow it.

pub mod order;
pub mod shops;
pub mod teller;

use std::collections::{BTreeMap, BTreeSet};
use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use crate::archive::holdings::{self, Holding};
use crate::assessment::plausibility::{self, Shared};
use crate::closing;
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place};
use crate::failure::Failure;
use crate::handover::Tray;
use crate::intake;
use crate::job::{self, Wanted};
use crate::photo::{Digest, Hands, PixelBudget};
use crate::sheet::problems;
use order::{Order, inputs_digest};
use shops::Shops;
use teller::{Status, Teller, Told};

/// How a run ended, as the exit code says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ending {
    /// Every job is done.
    AllGood,
    /// A job was refused; the others are done.
    SomeRefused,
    /// Nothing could be run.
    CouldNotRun,
}

/// Stack of a worker; Typst's deepest nesting needs half a megabyte.
const STACK_BYTES: usize = 8 << 20;

/// Runs an order.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(order: &Order, teller: &Teller) -> Result<Ending, Failure> {
    let (folders, unreadable) = find_jobs(&order.folders)?;
    if let Some(out) = &order.out {
        crate::handover::make_folder(out)?;
    }
    let numbers: Vec<Option<String>> =
        folders.iter().map(|folder| job::peek_number(folder)).collect();
    let run = Run {
        order,
        twins: twins(&folders, &numbers),
        folders,
        numbers,
        shops: Shops::default(),
        photos: Mutex::default(),
        budget: PixelBudget::default(),
    };
    teller.begin(run.folders.len());
    run.work_all(teller);
    let shared = run.shared_photos()?;
    Ok(teller.end(&unreadable, &shared))
}

/// The jobs of every folder of an order, each once.
fn find_jobs(below: &[PathBuf]) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    let (mut folders, mut unreadable) = (Vec::new(), Vec::new());
    for folder in below {
        let (found, failures) = intake::find_jobs(folder)?;
        if found.is_empty() {
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

/// Folders of jobs whose number another folder has too, with that other folder.
fn twins(folders: &[PathBuf], numbers: &[Option<String>]) -> BTreeMap<usize, PathBuf> {
    let mut by_number: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, number) in numbers.iter().enumerate() {
        // File systems may not tell `a` from `A`; two papers must not meet in one folder.
        let number = number.as_deref().unwrap_or_default().to_lowercase();
        by_number.entry(number).or_default().push(at);
    }
    let doubled = by_number.iter().filter(|(number, at)| !number.is_empty() && 1 < at.len());
    doubled
        .flat_map(|(_, all)| {
            all.iter().map(|&at| {
                let other = if at == all[0] { all[1] } else { all[0] };
                (at, folders[other].clone())
            })
        })
        .collect()
}

/// One run over many folders.
struct Run<'a> {
    order: &'a Order,
    folders: Vec<PathBuf>,
    numbers: Vec<Option<String>>,
    twins: BTreeMap<usize, PathBuf>,
    shops: Shops,
    /// Photos of the jobs of this run: job, file name, digest.
    photos: Mutex<Vec<Holding>>,
    budget: PixelBudget,
}

impl Run<'_> {
    fn work_all(&self, teller: &Teller) {
        let workers = self.order.workers.min(self.folders.len()).max(1);
        let next = AtomicUsize::new(0);
        thread::scope(|scope| {
            for _ in 0..workers {
                let work = || {
                    let pool = rayon::ThreadPoolBuilder::new()
                        .num_threads(1)
                        .stack_size(STACK_BYTES)
                        .build();
                    loop {
                        let at = next.fetch_add(1, Ordering::Relaxed);
                        if self.folders.len() <= at {
                            break;
                        }
                        let told = match &pool {
                            Ok(pool) => pool.install(|| self.work_guarded(at)),
                            Err(_) => self.work_guarded(at),
                        };
                        teller.tell(at, told);
                        // Ages are counted in calls, so each worker's cache lives one job of its own.
                        comemo::evict(workers);
                    }
                };
                let started =
                    thread::Builder::new().stack_size(STACK_BYTES).spawn_scoped(scope, work);
                // A machine that is short of threads works with those it has.
                if started.is_err() {
                    break;
                }
            }
        });
    }

    /// A panic of ours costs one job, not the run.
    fn work_guarded(&self, at: usize) -> Told {
        let job = self.name(at);
        panic::catch_unwind(AssertUnwindSafe(|| self.work(at))).unwrap_or_else(|cause| {
            let words = cause.downcast_ref::<String>().map(String::as_str);
            let words =
                words.or_else(|| cause.downcast_ref::<&str>().copied()).unwrap_or("no words");
            let failure = Failure::on(
                "finish the job",
                &self.folders[at],
                format!("a fault in splitcase: {words}"),
            );
            Told::failed(
                job,
                failure.hint("please report it with the sheet; the other jobs went on"),
            )
        })
    }

    fn work(&self, at: usize) -> Told {
        let job = self.name(at);
        match self.one(at) {
            Ok(told) => told,
            Err(failure) => Told::failed(job, failure),
        }
    }

    /// The job's number, or its folder where the sheet tells none.
    fn name(&self, at: usize) -> String {
        self.numbers[at].clone().unwrap_or_else(|| self.folders[at].display().to_string())
    }

    fn one(&self, at: usize) -> Result<Told, Failure> {
        let job = self.name(at);
        let folder = intake::open(&self.folders[at])?;
        let shop = match self.shops.of(&folder.path) {
            Ok(shop) => shop,
            Err(refusal) => return refusal.told(job),
        };
        if let Some(twin) = self.twins.get(&at) {
            return Ok(Told::new(job, Status::Refused, vec![self.doubled(at, twin)]));
        }
        let tray =
            self.order.out.as_ref().map(|out| Tray::new(out, &job, self.order.wanted.word()));
        let inputs = inputs_digest(&folder, &shop);
        if let Some(record) = tray.as_ref().and_then(Tray::record).filter(|_| !self.order.afresh)
            && record.inputs == inputs
            && tray.as_ref().is_some_and(|tray| tray.holds(&record))
        {
            self.note(
                &job,
                record
                    .photos
                    .iter()
                    .filter_map(|(name, sha256)| Some((name.as_str(), Digest::parse(sha256)?))),
            );
            return Ok(Told {
                warnings: record.warnings,
                ..Told::new(job, Status::Unchanged, Vec::new())
            });
        }
        // Where there are fewer jobs than cores, the cores left over help with the photos.
        let threads = self.order.workers / self.folders.len().max(1);
        let done = job::run(&folder, &shop, self.order.wanted, &Hands::new(threads, &self.budget))?;
        self.note(&job, done.photos.iter().map(|(name, sha256)| (name.as_str(), *sha256)));
        let has_errors =
            done.problems.iter().any(|one| one.severity == crate::diagnostic::Severity::Error);
        let mut remarks = Vec::new();
        let status = match (&tray, self.order.wanted) {
            _ if has_errors && done.papers.is_empty() => Status::Refused,
            _ if let Some((terms, basis)) = self.order.terms.as_ref().zip(done.basis.as_ref()) => {
                let closed = closing::close(&folder, &shop, &done, basis, terms)?;
                remarks = closed.remarks;
                Status::Sealed(closed.bags)
            }
            (Some(tray), _) => {
                let warnings = done.problems.len();
                tray.hand_over(&done.papers, inputs, warnings, &done.photos)?;
                Status::Written(done.papers.iter().map(|paper| tray.path(&paper.name)).collect())
            }
            (None, Wanted::PhotoSheet) => Status::Written(self.write_beside(at, &done)?),
            (None, _) => Status::Checked,
        };
        let mut problems = done.problems;
        problems.extend(remarks);
        Ok(Told::new(job, status, problems))
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

    /// The contact sheet goes beside the photos, where the technician looks.
    fn write_beside(&self, at: usize, done: &job::Done) -> Result<Vec<PathBuf>, Failure> {
        let paths = done.papers.iter().map(|paper| {
            let path = self.folders[at].join(&paper.name);
            crate::handover::write_beside(&path, &paper.pdf).map(|()| path)
        });
        paths.collect()
    }

    fn doubled(&self, at: usize, twin: &std::path::Path) -> Diagnostic {
        let sheet = SourceText::named(self.folders[at].join(intake::SHEET).display().to_string());
        let number = self.numbers[at].clone().unwrap_or_default();
        problems::duplicate_job(
            Place::whole(&sheet),
            &number,
            &twin.join(intake::SHEET).display().to_string(),
        )
    }
}
