//! What each command does, from typed arguments to printed words.
//!
//! In: arguments; out: how the run ended. Commands that work on jobs make one [`Order`] of them; `seal`,
//! `verify` and `erase` are `archiving`.

mod new;
mod schema;

use std::io;
use std::thread;

use crate::archiving;
use crate::batch::order::Order;
use crate::batch::teller::{Format, Teller};
use crate::batch::{self, Ending};
use crate::cli::{Check, Command, OutputFormat, Photos, Render};
use crate::document::apart;
use crate::document::papers::choice::Choice;
use crate::failure::Failure;
use crate::job::Wanted;

/// Does what a command says.
///
/// # Errors
/// What kept the whole run from starting.
pub fn run(command: Command) -> Result<Ending, Failure> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    match command {
        Command::New(new) => new::run(&new),
        Command::Schema(schema) => schema::run(&schema),
        Command::Check(check) => jobs(of_check(check, cores)),
        Command::Photos(photos) => jobs(of_photos(photos, cores)),
        Command::Render(render) => jobs(of_render(render, cores)),
        Command::Seal(seal) => archiving::seal(seal, cores),
        Command::Verify(verify) => archiving::verify(&verify),
        Command::Erase(erase) => archiving::erase(&erase),
        Command::Apart => {
            apart::serve(io::stdin().lock(), io::stdout().lock()).map(|()| Ending::AllGood)
        }
    }
}

fn jobs((order, format): (Order, OutputFormat)) -> Result<Ending, Failure> {
    batch::run(&order, &Teller::new(Format::from(format)))
}

fn of_check(check: Check, cores: usize) -> (Order, OutputFormat) {
    (Order::new(vec![check.folder], Wanted::Check, cores), check.format)
}

fn of_photos(photos: Photos, cores: usize) -> (Order, OutputFormat) {
    let order = Order::new(vec![photos.job], Wanted::PhotoSheet, cores);
    (Order { out: photos.out, ..order }, OutputFormat::Text)
}

fn of_render(render: Render, cores: usize) -> (Order, OutputFormat) {
    let workers = render.workers.map_or(cores, usize::from);
    let choice = match render.papers.is_empty() {
        true => Choice::Due,
        false => Choice::Named(render.papers),
    };
    let order = Order::new(vec![render.folder], Wanted::Papers(choice), workers);
    (Order { out: Some(render.out), afresh: render.afresh, ..order }, render.format)
}
