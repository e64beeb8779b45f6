//! Turns a folder of photos and one findings sheet into the papers of a drive-unit repair.
//!
//! ```text
//!  job folder ── intake ──► sheet ──► album ──► assessment ──► document ──► handover ──► papers
//!                (disk)    (marked   (photos,   (what          (view,       (disk)
//!                           tree)     upright,   follows)       wording,
//!                                     sRGB)                     press, pdf)
//!        job.rs calls them in this order; batch.rs does so for many folders at once.
//! ```
//!
//! Problems of a person's material are collected as [`diagnostic::Diagnostic`]s, refusals of the
//! machine are [`failure::Failure`]s, mistakes of ours are panics that cost one job.

pub mod album;
pub mod archive;
pub mod assessment;
pub mod batch;
pub mod cli;
pub mod commands;
pub mod console;
pub mod diagnostic;
pub mod digest;
pub mod document;
pub mod failure;
pub mod import;
pub mod intake;
pub mod job;
pub mod marking;
pub mod neighbours;
pub mod output;
pub mod overview;
pub mod photo;
pub mod remaking;
pub mod scaffold;
pub mod sealing;
pub mod sheet;
pub mod spreadsheet;
pub mod standing;
pub mod workers;
pub mod workshop;

use std::ffi::OsString;
use std::io::Write;
use std::panic::{self, AssertUnwindSafe};

use clap::{CommandFactory, FromArgMatches};
use cli::Arguments;
use cli::glimpse::Glimpse;
use console::{Console, Format, RunOutcome, envelope};
use failure::{Failure, fault};

/// Reads the arguments as typed and does what they say; returns the exit code.
///
/// Help and version are printed here too, so that an output that cannot be written ends with 2.
pub fn run_from(arguments: impl Iterator<Item = OsString>) -> u8 {
    let arguments: Vec<OsString> = arguments.collect();
    let glimpse = Glimpse::of(&arguments);
    let command = Arguments::command().color(glimpse.color.of_help());
    let read = command.try_get_matches_from(arguments);
    match read.and_then(|read| Arguments::from_arg_matches(&read)) {
        Ok(arguments) => run(arguments),
        Err(answer) if answer.use_stderr() && glimpse.format == Format::Json => {
            let console = Console::new(glimpse.verb.as_deref(), Format::Json, false);
            console.problem(envelope::arguments(answer.to_string().trim_end()));
            console.close(Ok(RunOutcome::CouldNotRun))
        }
        Err(answer) => {
            let printed = answer.print().and_then(|()| std::io::stdout().flush());
            if printed.is_err() { 2 } else { u8::try_from(answer.exit_code()).unwrap_or(2) }
        }
    }
}

/// Does what the arguments say; returns the exit code: 0 all good, 1 some job refused, 2 could not run.
pub fn run(arguments: Arguments) -> u8 {
    let Arguments { command, manner } = arguments;
    manner.color.choice().write_global();
    let (verb, format) = command.verb_and_format();
    let console = Console::new(Some(verb), format, manner.quiet);
    let ended = panic::catch_unwind(AssertUnwindSafe(|| commands::run(command, &console)));
    console.close(ended.unwrap_or_else(|cause| {
        let words = format!("a fault in splitcase itself: {}", fault::words(&*cause));
        Err(Failure::new("go on", words).hint("please report it with these words"))
    }))
}
