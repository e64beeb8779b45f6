//! `head`: writes the register's head into a file of its own, signed and with a query if wanted.
//!
//! In: typed arguments; out: how the run ended.

use super::key;
use super::print::say;
use crate::archive::note_head::{Beside, note};
use crate::batch::RunOutcome;
use crate::cli::Head;
use crate::failure::Failure;

/// Notes the head.
///
/// # Errors
/// There is no archive or nothing in it, or the key or the disk refuses.
pub fn run(head: &Head) -> Result<RunOutcome, Failure> {
    key::warn(head.key.as_deref());
    let passphrase = key::passphrase();
    let beside = Beside {
        key: head.key.as_deref(),
        passphrase: passphrase.as_deref(),
        query: head.stamp_query,
    };
    for path in note(&head.archive, &beside)? {
        say(&format!("noted: {}", path.display()))?;
    }
    Ok(RunOutcome::AllGood)
}
