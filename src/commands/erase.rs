//! `erase`: takes the bags of a job away.
//!
//! In: typed arguments; out: how the run ended.

use serde_json::json;

use super::clock::now;
use crate::archive::erase::erase;
use crate::archive::layout::{HANDOVER, OWNER};
use crate::cli::Erase;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;

/// Takes the bags of a job away.
///
/// # Errors
/// There is no such bag, the reason is none, or the disk refuses.
pub fn run(arguments: &Erase, console: &Console) -> Result<RunOutcome, Failure> {
    let Erase { job, archive, because, sealed_version, .. } = arguments;
    for bag in erase(job, *sealed_version, because, archive, now())? {
        console.tell(&format!("erased: {bag}"), || json!({ "bag": bag, "status": "erased" }))?;
    }
    for (ending, copy) in [(OWNER, "the owner's copy"), (HANDOVER, "the copy for handing over")] {
        let number = format!("{job}{ending}");
        if archive.join(&number).is_dir() {
            let line = format!("still there: {number}, {copy}");
            console.tell(&line, || json!({ "bag": number, "status": "still-there" }))?;
        }
    }
    Ok(RunOutcome::AllGood)
}
