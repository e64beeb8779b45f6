//! What each command does, from typed arguments to printed words.
//!
//! In: arguments; out: how the run ended. Commands that work on jobs make one [`Request`] of them.

mod clock;
mod erase;
mod head;
mod key;
mod mark;
mod new;
pub mod print;
mod redact;
mod schema;
mod seal;
mod verify;

use std::io;
use std::thread;

use crate::batch::reporter::{Format, Reporter};
use crate::batch::request::Request;
use crate::batch::{self, RunOutcome};
use crate::cli::{Check, Command, EditionWanted, OutputFormat, Photos, Render};
use crate::document::apart;
use crate::document::papers::asked::Asked;
use crate::document::papers::choice::Choice;
use crate::failure::Failure;
use crate::job::Wanted;

/// Does what a command says.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(command: Command) -> Result<RunOutcome, Failure> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    match command {
        Command::New(new) => new::run(&new),
        Command::Schema(schema) => schema::run(&schema),
        Command::Check(check) => jobs(of_check(check, cores)),
        Command::Photos(photos) => jobs(of_photos(photos, cores)),
        Command::Mark(mark) => mark::run(mark, cores),
        Command::Render(render) => jobs(of_render(render, cores)),
        Command::Seal(seal) => seal::run(seal, cores),
        Command::Verify(verify) => verify::run(&verify),
        Command::Head(head) => head::run(&head),
        Command::Redact(redact) => redact::run(&redact),
        Command::Erase(erase) => erase::run(&erase),
        Command::Apart => {
            apart::serve(io::stdin().lock(), io::stdout().lock()).map(|()| RunOutcome::AllGood)
        }
    }
}

fn jobs((request, format): (Request, OutputFormat)) -> Result<RunOutcome, Failure> {
    batch::run(&request, &Reporter::new(Format::from(format)))
}

fn of_check(check: Check, cores: usize) -> (Request, OutputFormat) {
    let request = Request::new(vec![check.folder], Wanted::Check, cores);
    (Request { archive: check.archive, ..request }, check.format)
}

fn of_photos(photos: Photos, cores: usize) -> (Request, OutputFormat) {
    let request = Request::new(vec![photos.job], Wanted::PhotoSheet, cores);
    (Request { out: photos.out, ..request }, OutputFormat::Text)
}

fn of_render(render: Render, cores: usize) -> (Request, OutputFormat) {
    let workers = render.workers.map_or(cores, usize::from);
    let choice = match render.papers.is_empty() {
        true => Choice::Due,
        false => Choice::Named(render.papers),
    };
    let phone = render.edition == Some(EditionWanted::Phone);
    let asked = Asked { choice, phone, message: render.message };
    let request = Request::new(vec![render.folder], Wanted::Papers(asked), workers);
    let (out, archive) = (Some(render.out), render.archive);
    (Request { out, archive, force: render.force, ..request }, render.format)
}
