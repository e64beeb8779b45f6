//! `seal`: stores a reply of a time-stamp authority, or seals jobs.
//!
//! In: typed arguments; out: how the run ended. What is sealed is the matter of `sealing`.

use serde_json::json;

use super::clock::now;
use super::key;
use crate::archive::store_reply;
use crate::batch;
use crate::batch::reporter::Reporter;
use crate::batch::request::Request;
use crate::cli::Seal;
use crate::console::{Console, RunOutcome};
use crate::document::papers::choice::Choice;
use crate::failure::Failure;
use crate::job::Wanted;
use crate::sealing::SealOptions;

/// Stores a reply, or seals jobs.
///
/// # Errors
/// What kept the run from starting, or the reply from being stored.
pub fn run(seal: Seal, workers: usize, console: &Console) -> Result<RunOutcome, Failure> {
    let at = now();
    if let Some(reply) = &seal.reply {
        let path = store_reply::store(reply, &seal.archive, at)?;
        let shown = path.display().to_string();
        console.tell(&format!("stored: {shown}"), || json!({ "file": shown }))?;
        return Ok(RunOutcome::AllGood);
    }
    key::warn(seal.key.as_deref(), console);
    // Issued papers may be earlier ones, which are then made again for comparison.
    let choice = if seal.papers.is_some() { Choice::All } else { Choice::Due };
    let request = Request {
        archive: Some(seal.archive.clone()),
        options: Some(SealOptions {
            archive: seal.archive,
            tar: seal.tar,
            for_owner: seal.for_owner,
            for_handover: seal.for_handover,
            papers: seal.papers,
            key: seal.key,
            passphrase: key::passphrase(),
            stamp_query: seal.stamp_query,
            receipts: seal.receipts,
            at,
        }),
        ..Request::new(seal.jobs, Wanted::Papers(choice.into()), workers)
    };
    batch::run(&request, &Reporter::new(console))
}
