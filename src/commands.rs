//! What each command does, from typed arguments to printed words.
//!
//! In: arguments; out: how the run ended. Commands that work on jobs make one [`Request`] of them.

mod clock;
mod completions;
mod erase;
mod head;
mod import;
mod jobs;
mod key;
mod listed;
mod man;
mod mark;
mod new;
mod overview;
mod redact;
mod schema;
mod seal;
mod verify;
mod watch;
mod words;

use std::io;
use std::thread;

use crate::batch;
use crate::batch::reporter::Reporter;
use crate::batch::request::Request;
use crate::cli::share::Share;
use crate::cli::{Check, Command, EditionWanted, Photos, Render};
use crate::console::{Console, RunOutcome};
use crate::document::apart;
use crate::document::papers::asked::Asked;
use crate::document::papers::choice::Choice;
use crate::failure::Failure;
use crate::job::Wanted;

/// Does what a command says.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(command: Command, console: &Console) -> Result<RunOutcome, Failure> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    match command {
        Command::New(new) => new::run(&new, cores, console),
        Command::Import(import) => import::run(&import, cores, console),
        Command::Jobs(arguments) => jobs::run(&arguments, cores, console),
        Command::Overview(arguments) => overview::run(&arguments, cores, console),
        Command::Schema(schema) => schema::run(&schema, console),
        Command::Words(words) => words::run(&words, console),
        Command::Check(check) => {
            let reporter = Reporter::new(console).with_prices(check.prices);
            batch::run(&of_check(check, cores)?, &reporter)
        }
        Command::Photos(photos) => work(&of_photos(photos, cores), console),
        Command::Mark(mark) => mark::run(mark, cores, console),
        Command::Render(render) if render.watch => watch::run(of_render(render, cores)?, console),
        Command::Render(render) => work(&of_render(render, cores)?, console),
        Command::Seal(seal) => seal::run(seal, cores, console),
        Command::Verify(verify) => verify::run(&verify, console),
        Command::Head(head) => head::run(&head, console),
        Command::Redact(redact) => redact::run(&redact, console),
        Command::Erase(erase) => erase::run(&erase, console),
        Command::Completions(completions) => completions::run(&completions, console),
        Command::Man(man) => man::run(&man, console),
        Command::Apart => {
            apart::serve(io::stdin().lock(), io::stdout().lock()).map(|()| RunOutcome::AllGood)
        }
    }
}

fn work(request: &Request, console: &Console) -> Result<RunOutcome, Failure> {
    batch::run(request, &Reporter::new(console))
}

fn of_check(check: Check, cores: usize) -> Result<Request, Failure> {
    let request = Request::new(check.jobs, Wanted::Check, cores);
    shared(Request { archive: check.archive, ..request }, &check.share)
}

/// A request for a part of many jobs.
fn shared(request: Request, share: &Share) -> Result<Request, Failure> {
    let listed = share.jobs_from.as_deref().map_or(Ok(Vec::new()), listed::paths)?;
    Ok(Request { listed, shard: share.shard, ..request })
}

fn of_photos(photos: Photos, cores: usize) -> Request {
    let request = Request::new(photos.jobs, Wanted::PhotoSheet, cores);
    Request { out: photos.out, ..request }
}

fn of_render(render: Render, cores: usize) -> Result<Request, Failure> {
    let workers = render.workers.map_or(cores, usize::from);
    let choice = match render.papers.is_empty() {
        true => Choice::Due,
        false => Choice::Named(render.papers),
    };
    let phone = render.edition == Some(EditionWanted::Phone);
    let asked = Asked { choice, phone, message: render.message };
    let request = Request::new(render.jobs, Wanted::Papers(asked), workers);
    let (out, archive) = (Some(render.out), render.archive);
    shared(Request { out, archive, force: render.force, ..request }, &render.share)
}
