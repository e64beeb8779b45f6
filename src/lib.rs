//! Turns a folder of photos and one findings sheet into the papers of a drive-unit repair.
//!
//! ```text
//!  job folder ── intake ──► sheet ──► photo ──► assessment ──► document ──► handover ──► papers
//!                (disk)    (marked   (upright,  (what          (view,       (disk)
//!                           tree)     sRGB)      follows)       wording,
//!                                                               press, pdf)
//!        job.rs calls them in this order; batch.rs does so for many folders at once.
//! ```
//!
//! Problems of a person's material are collected as [`diagnostic::Diagnostic`]s, refusals of the
//! machine are [`failure::Failure`]s, mistakes of ours are panics that cost one job.

pub mod archive;
pub mod archiving;
pub mod assessment;
pub mod batch;
pub mod cli;
pub mod closing;
pub mod diagnostic;
pub mod document;
pub mod failure;
pub mod handover;
pub mod intake;
pub mod job;
pub mod photo;
pub mod remaking;
pub mod sheet;
pub mod shop;
pub mod start;

use std::any::Any;
use std::ffi::OsString;
use std::io::Write;
use std::panic::{self, AssertUnwindSafe};
use std::thread;

use archiving::say;
use batch::Ending;
use batch::order::Order;
use batch::teller::{Format, Teller, failure_text};
use clap::Parser;
use cli::{Arguments, Command, OutputFormat, SchemaOf};
use failure::{Failure, fault};
use job::Wanted;

/// Reads the arguments as typed and does what they say; returns the exit code.
///
/// Help and version are printed here too, so that an output that cannot be written ends with 2.
pub fn run_from(arguments: impl Iterator<Item = OsString>) -> u8 {
    match Arguments::try_parse_from(arguments) {
        Ok(arguments) => run(arguments),
        Err(answer) => {
            let printed = answer.print().and_then(|()| std::io::stdout().flush());
            if printed.is_err() { 2 } else { u8::try_from(answer.exit_code()).unwrap_or(2) }
        }
    }
}

/// Does what the arguments say; returns the exit code: 0 all good, 1 some job refused, 2 could not run.
pub fn run(arguments: Arguments) -> u8 {
    let fault = |cause: Box<dyn Any + Send>| {
        let words = format!("a fault in splitcase itself: {}", fault::words(&*cause));
        Err(Failure::new("go on", words).hint("please report it with these words"))
    };
    match panic::catch_unwind(AssertUnwindSafe(|| dispatch(arguments))).unwrap_or_else(fault) {
        Ok(Ending::AllGood) => 0,
        Ok(Ending::SomeRefused) => 1,
        Ok(Ending::CouldNotRun) => 2,
        Err(failure) => {
            let _ = writeln!(anstream::stderr(), "{}", failure_text(&failure));
            2
        }
    }
}

fn dispatch(arguments: Arguments) -> Result<Ending, Failure> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    match arguments.command {
        Command::New(new) => {
            for path in start::write(&new.folder, new.workshop)? {
                say(&format!("written: {}", path.display()))?;
            }
            Ok(Ending::AllGood)
        }
        Command::Schema(schema) => {
            let text = match schema.of {
                Some(SchemaOf::Findings) => start::findings_schema(),
                Some(SchemaOf::Workshop) => start::workshop_schema(),
                None => start::schemas(),
            };
            say(&format!("{text:#}")).map(|()| Ending::AllGood)
        }
        Command::Check(check) => {
            let order = Order {
                folders: vec![check.folder],
                out: None,
                wanted: Wanted::Check,
                workers: cores,
                afresh: true,
                terms: None,
            };
            batch::run(&order, &Teller::new(format(check.format)))
        }
        Command::Apart => {
            let (input, output) = (std::io::stdin().lock(), std::io::stdout().lock());
            document::apart::serve(input, output).map(|()| Ending::AllGood)
        }
        Command::Seal(seal) => archiving::seal(seal, cores),
        Command::Verify(verify) => archiving::verify(&verify),
        Command::Erase(erase) => archiving::erase(&erase),
        Command::Photos(photos) => {
            let wanted = Wanted::PhotoSheet;
            let order = Order {
                folders: vec![photos.job],
                out: photos.out,
                wanted,
                workers: cores,
                afresh: true,
                terms: None,
            };
            batch::run(&order, &Teller::new(Format::Text))
        }
        Command::Render(render) => {
            let workers = render.workers.map_or(cores, usize::from);
            let out = Some(render.out);
            let order = Order {
                folders: vec![render.folder],
                out,
                wanted: Wanted::Papers,
                workers,
                afresh: render.afresh,
                terms: None,
            };
            batch::run(&order, &Teller::new(format(render.format)))
        }
    }
}

fn format(format: OutputFormat) -> Format {
    match format {
        OutputFormat::Text => Format::Text,
        OutputFormat::Json => Format::Json,
    }
}
