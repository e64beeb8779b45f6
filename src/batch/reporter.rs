//! Reports the result of each job: a bar on a terminal, plain lines elsewhere, results for scripts.
//!
//! Jobs are reported in the order of their folders, whichever worker finishes first.

use std::collections::BTreeMap;
use std::io::{self, IsTerminal, Write};
use std::sync::{Mutex, PoisonError};

use indicatif::{ProgressBar, ProgressStyle};

use super::job_report::{JobReport, Status};
use super::listener::Listener;
use crate::console::envelope;
use crate::console::{Console, RunOutcome, complain};
use crate::diagnostic::source::escape_control;
use crate::diagnostic::{Diagnostic, print};
use crate::document::papers::progress::Progress;
use crate::failure::Failure;

/// Reports a run to a person or a script.
pub struct Reporter<'a> {
    console: &'a Console,
    /// True to say which prices came from the workshop's list.
    with_prices: bool,
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

impl<'a> Reporter<'a> {
    /// A reporter on a console; a bar is drawn only on a terminal.
    pub fn new(console: &'a Console) -> Self {
        Self { console, with_prices: false, bar: ProgressBar::hidden(), state: Mutex::default() }
    }

    /// The same, which says of each job which prices came from the workshop's list.
    #[must_use]
    pub fn with_prices(self, with_prices: bool) -> Self {
        Self { with_prices, ..self }
    }

    fn tell_one(&self, told: &JobReport, has_bar: bool) -> io::Result<()> {
        if self.console.is_json() {
            told.to_script(self.console);
            return Ok(());
        }
        let mut out = anstream::stdout().lock();
        let mut err = anstream::stderr().lock();
        for problem in &told.problems {
            writeln!(err, "{}\n", print::drawn(problem))?;
        }
        if let Status::Failed(failure) = &told.status {
            writeln!(err, "{}", failure.text())?;
        }
        if self.console.is_quiet() {
            return Ok(());
        }
        // On a terminal the bar and the closing table say it; elsewhere a line a job.
        if !has_bar {
            writeln!(out, "{}: {}", escape_control(&told.job), told.status.word())?;
        }
        for one in told.priced.iter().filter(|_| self.with_prices) {
            let words = escape_control(&one.in_words());
            writeln!(out, "{}: price of the list: {words}", escape_control(&told.job))?;
        }
        for visit in &told.visits {
            writeln!(out, "{}: seen before: {}", escape_control(&told.job), escape_control(visit))?;
        }
        Ok(())
    }
}

impl Listener for Reporter<'_> {
    fn start(&self, jobs: usize) {
        let has_reader = !self.console.is_json() && !self.console.is_quiet();
        if has_reader && io::stderr().is_terminal() && 1 < jobs {
            let style = ProgressStyle::with_template("{bar:24} {pos} of {len} jobs, {eta} to go");
            self.bar.set_style(
                style.unwrap_or_else(|_| ProgressStyle::default_bar()).progress_chars("●○·"),
            );
            self.bar.set_length(jobs as u64);
            self.bar.set_draw_target(indicatif::ProgressDrawTarget::stderr());
        }
    }

    /// Prints the result of a job once all earlier jobs are printed.
    fn job_done(&self, at: usize, told: JobReport) {
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

    /// Closes with what concerns several jobs and the table.
    ///
    /// A run whose words could not be printed has not run, whatever it has written: nobody knows.
    fn finish(&self, unreadable: &[Failure], of_several: &[Diagnostic]) -> RunOutcome {
        self.bar.finish_and_clear();
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let is_good = unreadable.is_empty() && state.rows.iter().all(|row| row.is_good);
        let said = if self.console.is_json() {
            for problem in of_several {
                self.console.problem(envelope::problem("", problem));
            }
            for failure in unreadable {
                self.console.fail("", failure);
            }
            Ok(())
        } else {
            end_problems(unreadable, of_several)
                .and_then(|()| if self.console.is_quiet() { Ok(()) } else { end_table(&state) })
        };
        match (state.unsaid.take().or(said.err()), is_good) {
            (Some(error), _) => {
                complain(&Failure::new("print what came of the jobs", error).text());
                RunOutcome::CouldNotRun
            }
            (None, true) => RunOutcome::AllGood,
            (None, false) => RunOutcome::SomeRefused,
        }
    }
}

fn end_problems(unreadable: &[Failure], of_several: &[Diagnostic]) -> io::Result<()> {
    let mut err = anstream::stderr().lock();
    for problem in of_several {
        writeln!(err, "\n{}", print::drawn(problem))?;
    }
    for failure in unreadable {
        writeln!(err, "{}", failure.text())?;
    }
    Ok(())
}

fn end_table(state: &State) -> io::Result<()> {
    let mut out = anstream::stdout().lock();
    let is_long = LONG_TABLE < state.rows.len();
    let shown = |row: &&Row| !is_long || !row.is_good || 0 < row.warnings;
    let rows: Vec<&Row> = state.rows.iter().filter(shown).collect();
    let width = rows.iter().map(|row| row.job.chars().count()).max().unwrap_or(0).max(3);
    if state.rows.is_empty() {
        return writeln!(out, "\nno job");
    }
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
    let jobs = counted(state.rows.len(), "job").unwrap_or_default();
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
    let first = |path: Option<&std::path::PathBuf>| {
        path.map_or_else(String::new, |path| escape_control(&path.display().to_string()))
    };
    let place = match &told.status {
        Status::Written(papers) | Status::Unchanged(papers) => first(papers.first()),
        Status::Sealed(bags) => first(bags.first().map(|bag| &bag.path)),
        Status::Checked | Status::NothingDue => {
            told.progress.as_ref().map_or_else(String::new, Progress::words)
        }
        Status::Refused | Status::Failed(_) => String::new(),
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
