//! What each command does, from typed arguments to printed words.
//!
//! In: arguments; out: how the run ended. Commands that work on jobs make one [`Order`] of them.

mod clock;
mod erase;
mod new;
pub mod print;
mod schema;
mod seal;
mod verify;

use std::io;
use std::thread;

use crate::batch::order::Order;
use crate::batch::teller::{Format, Teller};
use crate::batch::{self, Ending};
use crate::cli::{Check, Command, OutputFormat, Photos, Render};
use crate::document::apart;
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
        Command::Seal(seal) => seal::run(seal, cores),
        Command::Verify(verify) => verify::run(&verify),
        Command::Erase(erase) => erase::run(&erase),
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
    let order = Order::new(vec![render.folder], Wanted::Papers, workers);
    (Order { out: Some(render.out), afresh: render.afresh, ..order }, render.format)
}
