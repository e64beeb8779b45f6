//! `man`: the manual page of the program, or one for it and each verb.

use std::path::Path;

use clap::{Command, CommandFactory};
use clap_mangen::Man;
use serde_json::json;

use crate::cli::Arguments;
use crate::cli::shell;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;
use crate::output;

pub(super) fn run(arguments: &shell::Man, console: &Console) -> Result<RunOutcome, Failure> {
    let mut command = Arguments::command();
    command.build();
    let program = command.get_name().to_owned();
    match &arguments.out {
        None => console.answer(page(&command, &program)?.trim_end(), || json!(null))?,
        Some(out) => {
            output::make_folder(out)?;
            write(&command, &program, out, console)?;
            let verbs = command.get_subcommands();
            for verb in verbs.filter(|verb| !verb.is_hide_set() && verb.get_name() != "help") {
                write(verb, &format!("{program}-{}", verb.get_name()), out, console)?;
            }
        }
    }
    Ok(RunOutcome::AllGood)
}

/// A page in roff, as `man` reads it.
fn page(command: &Command, name: &str) -> Result<String, Failure> {
    let mut page = Vec::new();
    let made = Man::new(command.clone()).title(name).render(&mut page);
    made.map_err(|error| Failure::new("make the manual page", error))?;
    Ok(String::from_utf8_lossy(&page).into_owned())
}

fn write(command: &Command, name: &str, out: &Path, console: &Console) -> Result<(), Failure> {
    let path = out.join(format!("{name}.1"));
    output::write_new_or_same(&path, page(command, name)?.as_bytes())?;
    let shown = path.display().to_string();
    console.tell(&format!("written: {shown}"), || json!({ "file": shown }))
}
