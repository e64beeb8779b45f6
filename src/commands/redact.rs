//! `redact`: takes one file out of the bags of a job.
//!
//! In: typed arguments; out: how the run ended.

use serde_json::json;

use super::clock::now;
use crate::archive::layout::{HANDOVER, OWNER, PAPERS};
use crate::archive::redact::redact;
use crate::cli::Redact;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;

/// Takes a file out.
///
/// # Errors
/// No bag holds it, the reason is none, or the disk refuses.
pub fn run(arguments: &Redact, console: &Console) -> Result<RunOutcome, Failure> {
    let Redact { job, file, archive, because, sealed_version, .. } = arguments;
    let gone = redact(job, file, *sealed_version, because, archive, now())?;
    for one in &gone {
        let result = || json!({ "file": one.file, "status": "taken-out", "tar-went": one.has_tar });
        console.tell(&format!("taken out: {}", one.file), result)?;
        if one.has_tar {
            console.remark("its bag's tar held it too and was taken away")?;
        }
    }
    if gone.iter().any(|one| !one.file.contains(PAPERS)) {
        console.warn(&format!("papers may still show it: look below `{PAPERS}` of each bag"));
    }
    for copy in [OWNER, HANDOVER].map(|ending| format!("{job}{ending}")) {
        if archive.join(&copy).is_dir() {
            console.warn(&format!("a copy of the job is there, which may hold it: {copy}"));
        }
    }
    Ok(RunOutcome::AllGood)
}
