//! One round of watching: the jobs that changed are worked on, and what is new of them is said.
//!
//! In: changed job folders; out: lines for people, one envelope for scripts. What was said of a job before
//! is kept: a problem is drawn when it appears and named when it has gone.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use crate::batch;
use crate::batch::job_report::{JobReport, Status};
use crate::batch::listener::Listener;
use crate::batch::request::Request;
use crate::batch::workshops::Workshops;
use crate::commands::clock;
use crate::console::{Console, RunOutcome, complain, envelope};
use crate::diagnostic::source::escape_control;
use crate::diagnostic::{Diagnostic, print};
use crate::failure::Failure;
use crate::intake;

/// What is known of jobs from earlier rounds.
pub(super) struct Rounds<'a> {
    console: &'a Console,
    /// The problems that were said, by the job's folder and then as they read.
    said: BTreeMap<PathBuf, Vec<String>>,
}

/// What the jobs of one round gave, by their place.
#[derive(Default)]
struct Told {
    jobs: BTreeMap<usize, JobReport>,
    unreadable: Vec<Failure>,
    of_several: Vec<Diagnostic>,
}

impl Listener for Mutex<Told> {
    fn start(&self, _: usize) {}

    fn job_done(&self, at: usize, told: JobReport) {
        self.lock().unwrap_or_else(PoisonError::into_inner).jobs.insert(at, told);
    }

    fn finish(&self, unreadable: &[Failure], of_several: &[Diagnostic]) -> RunOutcome {
        let mut told = self.lock().unwrap_or_else(PoisonError::into_inner);
        told.unreadable.extend_from_slice(unreadable);
        told.of_several.extend_from_slice(of_several);
        let is_good = unreadable.is_empty() && told.jobs.values().all(|job| job.status.is_good());
        if is_good { RunOutcome::AllGood } else { RunOutcome::SomeRefused }
    }
}

impl<'a> Rounds<'a> {
    pub(super) fn new(console: &'a Console) -> Self {
        Self { console, said: BTreeMap::new() }
    }

    /// Works on jobs and says what is new.
    ///
    /// # Errors
    /// The round could not start, or its words cannot be printed.
    pub(super) fn run(
        &mut self,
        workshops: &Workshops,
        request: &Request,
        folders: Vec<PathBuf>,
    ) -> Result<(), Failure> {
        let (out, archive) = (request.out.clone(), request.archive.clone());
        let anew = Request::new(folders, request.wanted.clone(), request.workers);
        let request = Request { out, archive, force: request.force, ..anew };
        let told = Mutex::new(Told::default());
        let outcome = batch::run_in(workshops, &request, &told)?;
        let told = told.into_inner().unwrap_or_else(PoisonError::into_inner);
        for job in told.jobs.values() {
            self.tell(job)?;
        }
        for failure in &told.unreadable {
            self.console.fail("", failure);
        }
        for problem in &told.of_several {
            match self.console.is_json() {
                true => self.console.problem(envelope::problem("", problem)),
                false => complain(&print::drawn(problem)),
            }
        }
        self.console.end_round(outcome)
    }

    fn tell(&mut self, told: &JobReport) -> Result<(), Failure> {
        let reads = |problem: &Diagnostic| {
            format!("{}[{}]: {}", problem.severity.word(), problem.code, problem.message)
        };
        // The state of a job that is skipped is known from its record; its problems are as they were.
        let now: Vec<String> = match &told.status {
            Status::Unchanged(_) => self.said.get(&told.folder).cloned().unwrap_or_default(),
            _ => told.problems.iter().map(reads).collect(),
        };
        let before = self.said.insert(told.folder.clone(), now.clone()).unwrap_or_default();
        if self.console.is_json() {
            told.to_script(self.console);
            return Ok(());
        }
        for problem in told.problems.iter().filter(|one| !before.contains(&reads(one))) {
            complain(&format!("{}\n", print::drawn(problem)));
        }
        if let Status::Failed(failure) = &told.status {
            complain(&failure.text());
        }
        let time = clock::local_now().format("%H:%M:%S");
        let job = escape_control(&told.job);
        self.console.remark(&format!("{time}  {job}  {}", came_of(told)))?;
        for gone in before.iter().filter(|one| !now.contains(one)) {
            let first = gone.lines().next().unwrap_or_default();
            self.console.remark(&format!("          gone: {first}"))?;
        }
        Ok(())
    }
}

/// What came of a job, in a few words.
fn came_of(told: &JobReport) -> String {
    let counted = |n: usize, word: &str| match n {
        0 => None,
        1 => Some(format!("1 {word}")),
        _ => Some(format!("{n} {word}s")),
    };
    let remarks = [counted(told.errors, "error"), counted(told.warnings, "warning")];
    let remarks: Vec<String> = remarks.into_iter().flatten().collect();
    let remarks =
        if remarks.is_empty() { String::new() } else { format!(", {}", remarks.join(", ")) };
    match &told.status {
        Status::Written(papers) => {
            let names = papers.iter().map(|path| {
                let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
                let name = name.unwrap_or_default();
                match intake::read_paper(path).ok().and_then(|pdf| n_pages(&pdf)) {
                    Some(1) => format!("{name} (1 page)"),
                    Some(n) => format!("{name} ({n} pages)"),
                    None => name,
                }
            });
            format!("{} written{remarks}", names.collect::<Vec<_>>().join(", "))
        }
        Status::Refused | Status::Failed(_) => {
            format!("{}{remarks}; its papers are as they were", told.status.word())
        }
        status => format!("{}{remarks}", status.word()),
    }
}

/// How many pages a PDF of ours has, by the root of its page tree (ISO 32000-1, 7.7.3.2) as it is written.
fn n_pages(pdf: &[u8]) -> Option<usize> {
    let key = b"/Type/Pages/Count ";
    let at = pdf.windows(key.len()).position(|bytes| bytes == key)? + key.len();
    let digits = pdf[at..].iter().take_while(|byte| byte.is_ascii_digit()).copied();
    std::str::from_utf8(&digits.collect::<Vec<u8>>()).ok()?.parse().ok()
}
