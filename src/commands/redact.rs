//! `redact`: takes one file out of the bags of a job.
//!
//! In: typed arguments; out: how the run ended.

use super::clock::now;
use super::print::say;
use crate::archive::layout::{HANDOVER, OWNER, PAPERS};
use crate::archive::redact::redact;
use crate::batch::RunOutcome;
use crate::cli::Redact;
use crate::failure::Failure;

/// Takes a file out.
///
/// # Errors
/// No bag holds it, the reason is none, or the disk refuses.
pub fn run(arguments: &Redact) -> Result<RunOutcome, Failure> {
    let Redact { job, file, archive, because, sealed_version } = arguments;
    let gone = redact(job, file, *sealed_version, because, archive, now())?;
    for one in &gone {
        say(&format!("taken out: {}", one.file))?;
        if one.has_tar {
            say("its bag's tar held it too and was taken away")?;
        }
    }
    if gone.iter().any(|one| !one.file.contains(PAPERS)) {
        say(&format!("papers may still show it: look below `{PAPERS}` of each bag"))?;
    }
    for copy in [OWNER, HANDOVER].map(|ending| format!("{job}{ending}")) {
        if archive.join(&copy).is_dir() {
            say(&format!("a copy of the job is there, which may hold it: {copy}"))?;
        }
    }
    Ok(RunOutcome::AllGood)
}
