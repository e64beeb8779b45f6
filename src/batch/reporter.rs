//! Reports the result of each job: a bar on a terminal, plain lines elsewhere, JSON lines for scripts.
//!
//! Jobs are reported in the order of their folders, whichever worker finishes first.

use std::collections::BTreeMap;
use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use indicatif::{ProgressBar, ProgressStyle};
use serde_json::json;

use super::outcome::RunOutcome;
use crate::archive::request::Sealed;
use crate::diagnostic::source::escape_control;
use crate::diagnostic::{Diagnostic, Severity, print};
use crate::document::papers::progress::Progress;
use crate::failure::Failure;

/// The result of a job.
#[derive(Debug)]
pub enum Status {
    /// Papers were written.
    Written(Vec<PathBuf>),
    /// No paper is due at this stage of the job.
    NothingDue,
    /// Nothing has changed since the papers were written.
    Unchanged,
    /// The job is sealed in the archive.
    Sealed(Vec<Sealed>),
    /// The job was only checked, and nothing is wrong with it.
    Checked,
    /// The job's material has errors.
    Refused,
    /// The machine refused something.
    Failed(Failure),
}

impl Status {
    /// One word for the table.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Written(_) => "written",
            Self::NothingDue => "none due",
            Self::Unchanged => "unchanged",
            Self::Sealed(bags) if bags.iter().all(|bag| !bag.is_new) => "sealed before",
            Self::Sealed(_) => "sealed",
            Self::Checked => "in order",
            Self::Refused => "refused",
            Self::Failed(_) => "failed",
        }
    }

    fn is_good(&self) -> bool {
        !matches!(self, Self::Refused | Self::Failed(_))
    }
}

/// What is reported of a job.
#[derive(Debug)]
pub struct JobReport {
    /// Its number, or its folder.
    pub job: String,
    /// What came of it.
    pub status: Status,
    /// Its problems.
    pub problems: Vec<Diagnostic>,
    /// How many errors it has.
    pub errors: usize,
    /// How many warnings it has.
    pub warnings: usize,
    /// Earlier visits of its unit, each in words.
    pub visits: Vec<String>,
    /// How far its papers are; unknown if it was refused.
    pub progress: Option<Progress>,
}

impl JobReport {
    /// A job with its problems.
    pub fn new(job: String, status: Status, problems: Vec<Diagnostic>) -> Self {
        let errors = problems.iter().filter(|one| one.severity == Severity::Error).count();
        let warnings = problems.len() - errors;
        Self { job, status, problems, errors, warnings, progress: None, visits: Vec::new() }
    }

    /// A job that the machine refused.
    pub fn failed(job: String, failure: Failure) -> Self {
        Self { errors: 1, ..Self::new(job, Status::Failed(failure), Vec::new()) }
    }
}

/// The form of the report.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// For people.
    Text,
    /// One JSON object a line.
    Json,
}

/// Reports a run to a person or a script.
pub struct Reporter {
    format: Format,
    bar: ProgressBar,
    state: Mutex<State>,
}

#[derive(Default)]
struct State {
    /// The next job to report.
    next: usize,
    /// Jobs that are done before their turn.
    early: BTreeMap<usize, JobReport>,
    /// One row a job for the table, problems dropped.
    rows: Vec<Row>,
    /// Why something could not be printed, if that was so.
    unsaid: Option<io::Error>,
}

struct Row {
    job: String,
    word: &'static str,
    is_good: bool,
    errors: usize,
    warnings: usize,
    place: String,
}

/// Longest table that lists every job; a longer one leaves out what is unchanged and in order.
const LONG_TABLE: usize = 40;

impl Reporter {
    /// A reporter in a format; a bar is drawn only on a terminal.
    pub fn new(format: Format) -> Self {
        Self { format, bar: ProgressBar::hidden(), state: Mutex::default() }
    }

    /// Announces how many jobs there are.
    pub fn start(&self, jobs: usize) {
        if self.format == Format::Text && std::io::stderr().is_terminal() && 1 < jobs {
            let style = ProgressStyle::with_template("{bar:24} {pos} of {len} jobs, {eta} to go");
            self.bar.set_style(
                style.unwrap_or_else(|_| ProgressStyle::default_bar()).progress_chars("●○·"),
            );
            self.bar.set_length(jobs as u64);
            self.bar.set_draw_target(indicatif::ProgressDrawTarget::stderr());
        }
    }

    /// Takes the result of a job; prints it once all earlier jobs are printed.
    pub fn job_done(&self, at: usize, told: JobReport) {
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        state.early.insert(at, told);
        while let Some(told) = {
            let next = state.next;
            state.early.remove(&next)
        } {
            // Read before the bar is suspended: inside, the bar is locked.
            let has_bar = !self.bar.is_hidden();
            let said = self.bar.suspend(|| self.tell_one(&told, has_bar));
            state.unsaid = state.unsaid.take().or(said.err());
            state.rows.push(row(&told));
            state.next += 1;
        }
        self.bar.inc(1);
    }

    fn tell_one(&self, told: &JobReport, has_bar: bool) -> io::Result<()> {
        let mut out = anstream::stdout().lock();
        if self.format == Format::Json {
            for problem in &told.problems {
                writeln!(out, "{}", print::as_json(&told.job, problem))?;
            }
            return writeln!(out, "{}", job_as_json(told));
        }
        let mut err = anstream::stderr().lock();
        let mut remarks = || {
            for problem in &told.problems {
                writeln!(err, "{}\n", print::drawn(problem))?;
            }
            match &told.status {
                Status::Failed(failure) => writeln!(err, "{}", failure_text(failure)),
                _ => Ok(()),
            }
        };
        let said = remarks();
        // On a terminal the bar and the closing table say it; elsewhere a line a job.
        said?;
        if !has_bar {
            writeln!(out, "{}: {}", escape_control(&told.job), told.status.word())?;
        }
        for visit in &told.visits {
            writeln!(out, "{}: seen before: {}", escape_control(&told.job), escape_control(visit))?;
        }
        Ok(())
    }

    /// Closes with what concerns several jobs and the table; returns how the run ended.
    ///
    /// A run whose words could not be printed has not run, whatever it has written: nobody knows.
    pub fn finish(&self, unreadable: &[Failure], of_several: &[Diagnostic]) -> RunOutcome {
        self.bar.finish_and_clear();
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let is_good = unreadable.is_empty() && state.rows.iter().all(|row| row.is_good);
        let said = match self.format {
            Format::Json => end_json(&state, unreadable, of_several),
            Format::Text => end_text(&state, unreadable, of_several),
        };
        match (state.unsaid.take().or(said.err()), is_good) {
            (Some(error), _) => {
                let failure = Failure::new("print what came of the jobs", error);
                let _ = writeln!(anstream::stderr(), "{}", failure_text(&failure));
                RunOutcome::CouldNotRun
            }
            (None, true) => RunOutcome::AllGood,
            (None, false) => RunOutcome::SomeRefused,
        }
    }
}

fn end_json(state: &State, unreadable: &[Failure], of_several: &[Diagnostic]) -> io::Result<()> {
    let mut out = anstream::stdout().lock();
    for problem in of_several {
        writeln!(out, "{}", print::as_json("", problem))?;
    }
    for failure in unreadable {
        writeln!(out, "{}", json!({"event": "failure", "message": failure.to_string()}))?;
    }
    let counts = counts(state);
    writeln!(out, "{}", json!({"event": "end", "jobs": state.rows.len(), "counts": counts}))?;
    out.flush()
}

fn end_text(state: &State, unreadable: &[Failure], of_several: &[Diagnostic]) -> io::Result<()> {
    let mut err = anstream::stderr().lock();
    for problem in of_several {
        writeln!(err, "\n{}", print::drawn(problem))?;
    }
    for failure in unreadable {
        writeln!(err, "{}", failure_text(failure))?;
    }
    let mut out = anstream::stdout().lock();
    let is_long = LONG_TABLE < state.rows.len();
    let shown = |row: &&Row| !is_long || !row.is_good || 0 < row.warnings;
    let rows: Vec<&Row> = state.rows.iter().filter(shown).collect();
    let width = rows.iter().map(|row| row.job.chars().count()).max().unwrap_or(0).max(3);
    writeln!(out)?;
    for row in rows {
        let remarks =
            [(row.errors, "error"), (row.warnings, "warning")].map(|(n, word)| counted(n, word));
        let remarks = remarks.iter().flatten().cloned().collect::<Vec<_>>().join(", ");
        let line = format!("{:width$}  {:9}  {:22}  {}", row.job, row.word, remarks, row.place);
        writeln!(out, "{}", line.trim_end())?;
    }
    let counts = counts(state)
        .into_iter()
        .map(|(word, n)| format!("{n} {word}"))
        .collect::<Vec<_>>()
        .join(", ");
    let jobs = counted(state.rows.len(), "job").unwrap_or_else(|| "no job".into());
    writeln!(out, "\n{jobs}: {counts}")?;
    out.flush()
}

fn counts(state: &State) -> BTreeMap<&'static str, usize> {
    let mut counts = BTreeMap::new();
    for row in &state.rows {
        *counts.entry(row.word).or_insert(0) += 1;
    }
    counts
}

fn counted(n: usize, word: &str) -> Option<String> {
    match n {
        0 => None,
        1 => Some(format!("1 {word}")),
        _ => Some(format!("{n} {word}s")),
    }
}

fn row(told: &JobReport) -> Row {
    let place = match &told.status {
        Status::Written(papers) => papers
            .first()
            .map_or_else(String::new, |path| escape_control(&path.display().to_string())),
        Status::Sealed(bags) => bags
            .first()
            .map_or_else(String::new, |bag| escape_control(&bag.path.display().to_string())),
        Status::Checked | Status::NothingDue => {
            told.progress.as_ref().map_or_else(String::new, Progress::words)
        }
        Status::Unchanged | Status::Refused | Status::Failed(_) => String::new(),
    };
    Row {
        job: escape_control(&told.job),
        word: told.status.word(),
        is_good: told.status.is_good(),
        errors: told.errors,
        warnings: told.warnings,
        place,
    }
}

fn job_as_json(told: &JobReport) -> serde_json::Value {
    let papers: Vec<String> = match &told.status {
        Status::Written(papers) => papers.iter().map(|path| path.display().to_string()).collect(),
        _ => Vec::new(),
    };
    let bags: Vec<serde_json::Value> = match &told.status {
        Status::Sealed(bags) => bags.iter().map(bag_as_json).collect(),
        _ => Vec::new(),
    };
    let failure = match &told.status {
        Status::Failed(failure) => Some(failure.to_string()),
        _ => None,
    };
    json!({
        "event": "job",
        "job": told.job,
        "status": told.status.word(),
        "errors": told.errors,
        "warnings": told.warnings,
        "papers": papers,
        "due": told.progress.as_ref().map(|progress| &progress.due),
        "next": told.progress.as_ref().and_then(|progress| progress.next.as_ref()),
        "bags": bags,
        "failure": failure,
        "seen_before": told.visits,
    })
}

fn bag_as_json(bag: &Sealed) -> serde_json::Value {
    json!({
        "path": bag.path.display().to_string(),
        "version": bag.version,
        "sha256": bag.digest.hex(),
        "is_new": bag.is_new,
        "tar": bag.tar.as_ref().map(|tar| tar.display().to_string()),
    })
}

/// A failure as people read it.
pub fn failure_text(failure: &Failure) -> String {
    let hint = failure.hint.as_ref().map(|hint| format!("\n  help: {hint}")).unwrap_or_default();
    format!("error: {failure}{hint}")
}
