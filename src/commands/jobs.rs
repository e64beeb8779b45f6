//! `jobs`: how every job stands, what its next paper needs, how long it waits.
//!
//! In: typed arguments; out: how the run ended. The rows are `standing`'s.

use super::clock;
use crate::cli::survey::{Jobs, TableFormat};
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;
use crate::intake::find;
use crate::standing::{self, table};

pub(super) fn run(jobs: &Jobs, cores: usize, console: &Console) -> Result<RunOutcome, Failure> {
    let (mut folders, mut failures) = (Vec::new(), Vec::new());
    for path in &jobs.jobs {
        let (found, unread) = find::find_jobs(path)?;
        folders.extend(found);
        failures.extend(unread);
    }
    find::keep_each_once(&mut folders);
    let today = jobs.today.unwrap_or_else(clock::today);
    let rows = standing::rows(&folders, today, cores);
    match jobs.format {
        TableFormat::Json => table::results(&rows).into_iter().for_each(|row| console.result(row)),
        TableFormat::Csv => {
            console.answer(table::csv(&rows)?.trim_end(), || serde_json::Value::Null)?;
        }
        TableFormat::Text if rows.is_empty() => {
            console
                .remark("there is no job in it or below it: `splitcase new FOLDER` starts one")?;
        }
        TableFormat::Text => {
            console.answer(&table::text(&rows).join("\n"), || serde_json::Value::Null)?;
        }
    }
    for failure in &failures {
        console.fail("", failure);
    }
    let is_good = failures.is_empty() && rows.iter().all(|row| row.said.is_ok());
    Ok(if is_good { RunOutcome::AllGood } else { RunOutcome::SomeRefused })
}
