//! `head`: writes the register's head into a file of its own, signed and with a query if wanted.
//!
//! In: typed arguments; out: how the run ended.

use serde_json::json;

use super::key;
use crate::archive::note_head::{Beside, note};
use crate::cli::Head;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;

/// Notes the head.
///
/// # Errors
/// There is no archive or nothing in it, or the key or the disk refuses.
pub fn run(head: &Head, console: &Console) -> Result<RunOutcome, Failure> {
    key::warn(head.key.as_deref(), console);
    let passphrase = key::passphrase();
    let beside = Beside {
        key: head.key.as_deref(),
        passphrase: passphrase.as_deref(),
        query: head.stamp_query,
    };
    for path in note(&head.archive, &beside)? {
        let shown = path.display().to_string();
        console.tell(&format!("noted: {shown}"), || json!({ "file": shown }))?;
    }
    Ok(RunOutcome::AllGood)
}
