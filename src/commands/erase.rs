//! `erase`: takes the bags of a job away.
//!
//! In: typed arguments; out: how the run ended.

use super::clock::now;
use super::print::say;
use crate::archive::erase::erase;
use crate::archive::layout::{HANDOVER, OWNER};
use crate::batch::RunOutcome;
use crate::cli::Erase;
use crate::failure::Failure;

/// Takes the bags of a job away.
///
/// # Errors
/// There is no such bag, the reason is none, or the disk refuses.
pub fn run(arguments: &Erase) -> Result<RunOutcome, Failure> {
    let Erase { job, archive, because, sealed_version } = arguments;
    for bag in erase(job, *sealed_version, because, archive, now())? {
        say(&format!("erased: {bag}"))?;
    }
    for (ending, copy) in [(OWNER, "the owner's copy"), (HANDOVER, "the copy for handing over")] {
        let number = format!("{job}{ending}");
        if archive.join(&number).is_dir() {
            say(&format!("still there: {number}, {copy}"))?;
        }
    }
    Ok(RunOutcome::AllGood)
}
