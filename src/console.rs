//! What a run says to whoever started it: lines for people, one JSON object for scripts, an exit code.
//!
//! In: results and problems as they come; out: printed words. In text each is printed at once; as JSON
//! they are gathered in one [`Envelope`], which is printed when the run ends. What the words are is not
//! here, and how jobs are reported is `batch::reporter`.

pub mod envelope;
pub mod outcome;

use std::io::Write;
use std::sync::{Mutex, PoisonError};

use serde_json::Value;

use crate::diagnostic::source::escape_control;
use crate::failure::Failure;
pub use envelope::Envelope;
pub use outcome::RunOutcome;

/// The form of what is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// For people.
    Text,
    /// One JSON object for scripts.
    Json,
}

/// What one run says.
#[derive(Debug)]
pub struct Console {
    format: Format,
    is_quiet: bool,
    envelope: Mutex<Envelope>,
}

impl Console {
    /// The console of a run of a verb; a quiet one says only what is wrong and what was asked for.
    pub fn new(verb: Option<&str>, format: Format, is_quiet: bool) -> Self {
        Self { format, is_quiet, envelope: Mutex::new(Envelope::new(verb)) }
    }

    /// True if a script is listening.
    pub fn is_json(&self) -> bool {
        self.format == Format::Json
    }

    /// True if only what is wrong is to be printed.
    pub fn is_quiet(&self) -> bool {
        self.is_quiet
    }

    /// Says what was done: a line for people unless they want quiet, a result for scripts.
    ///
    /// # Errors
    /// The output cannot be written.
    pub fn tell(&self, line: &str, result: impl FnOnce() -> Value) -> Result<(), Failure> {
        match self.format {
            Format::Json => self.result(result()),
            Format::Text if self.is_quiet => {}
            Format::Text => say(line)?,
        }
        Ok(())
    }

    /// Says what was asked for, which a quiet run says too.
    ///
    /// # Errors
    /// The output cannot be written.
    pub fn answer(&self, line: &str, result: impl FnOnce() -> Value) -> Result<(), Failure> {
        match self.format {
            Format::Json => self.result(result()),
            Format::Text => say(line)?,
        }
        Ok(())
    }

    /// Says something to people alone, unless they want quiet.
    ///
    /// # Errors
    /// The output cannot be written.
    pub fn remark(&self, line: &str) -> Result<(), Failure> {
        if self.is_json() || self.is_quiet { Ok(()) } else { say(line) }
    }

    /// Warns of something that is not a job's.
    pub fn warn(&self, words: &str) {
        match self.format {
            Format::Json => self.problem(envelope::warning(words)),
            Format::Text => complain(&format!("warning: {}", escape_control(words))),
        }
    }

    /// Reports what the machine refused about one of several things; the run goes on.
    pub fn fail(&self, subject: &str, failure: &Failure) {
        match self.format {
            Format::Json => self.problem(envelope::failure(subject, failure)),
            Format::Text => complain(&failure.text()),
        }
    }

    /// Takes a result for scripts.
    pub fn result(&self, result: Value) {
        self.envelope.lock().unwrap_or_else(PoisonError::into_inner).results.push(result);
    }

    /// Takes a problem for scripts.
    pub fn problem(&self, problem: Value) {
        self.envelope.lock().unwrap_or_else(PoisonError::into_inner).problems.push(problem);
    }

    /// Ends the run: says what kept it from starting, and to scripts everything; returns the exit code.
    pub fn close(&self, ended: Result<RunOutcome, Failure>) -> u8 {
        let outcome = ended.unwrap_or_else(|failure| {
            self.fail("", &failure);
            RunOutcome::CouldNotRun
        });
        if self.format == Format::Text {
            return outcome.code();
        }
        match self.print(outcome) {
            Ok(()) => outcome.code(),
            Err(failure) => {
                complain(&failure.text());
                RunOutcome::CouldNotRun.code()
            }
        }
    }

    /// Ends one round of a run that goes on: scripts get what was gathered so far.
    ///
    /// # Errors
    /// The output cannot be written.
    pub fn end_round(&self, outcome: RunOutcome) -> Result<(), Failure> {
        if self.is_json() { self.print(outcome) } else { Ok(()) }
    }

    /// Prints the envelope on one line and empties it.
    ///
    /// # Errors
    /// The output cannot be written.
    fn print(&self, outcome: RunOutcome) -> Result<(), Failure> {
        let mut envelope = self.envelope.lock().unwrap_or_else(PoisonError::into_inner);
        say(&envelope.take(outcome).to_string())
    }
}

/// Prints a line.
///
/// # Errors
/// The output cannot be written, be it a full disk or a reader that has gone away: what was to be
/// reported is then unknown to whoever asked.
pub fn say(line: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout();
    writeln!(out, "{line}").and_then(|()| out.flush()).map_err(|error| Failure::new("print", error))
}

/// Prints a line beside the output; nobody can be told if that fails.
pub fn complain(line: &str) {
    let _ = writeln!(anstream::stderr(), "{line}");
}
