//! `completions`: what a shell needs to complete verbs, options and choices.

use clap::CommandFactory;

use crate::cli::Arguments;
use crate::cli::shell::Completions;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;

pub(super) fn run(arguments: &Completions, console: &Console) -> Result<RunOutcome, Failure> {
    let mut text = Vec::new();
    let mut command = Arguments::command();
    let name = command.get_name().to_owned();
    clap_complete::generate(arguments.shell, &mut command, name, &mut text);
    let text = String::from_utf8_lossy(&text);
    console.answer(text.trim_end(), || serde_json::Value::Null).map(|()| RunOutcome::AllGood)
}
