//! `seal`: stores a reply of a time-stamp authority, or seals jobs.
//!
//! In: typed arguments; out: how the run ended. What is sealed is the matter of `sealing`.

use std::io::Write;

use super::clock::now;
use super::print::say;
use crate::archive::store_reply;
use crate::archive::trust::ssh;
use crate::batch::reporter::{Format, Reporter};
use crate::batch::request::Request;
use crate::batch::{self, RunOutcome};
use crate::cli::{OutputFormat, Seal};
use crate::failure::Failure;
use crate::job::Wanted;
use crate::sealing::SealOptions;

/// Environment variable that unlocks a private key.
const PASSPHRASE: &str = "SPLITCASE_KEY_PASSPHRASE";

/// Stores a reply, or seals jobs.
///
/// # Errors
/// What kept the run from starting, or the reply from being stored.
pub fn run(seal: Seal, workers: usize) -> Result<RunOutcome, Failure> {
    let at = now();
    if let Some(reply) = &seal.reply {
        let path = store_reply::store(reply, &seal.archive, at)?;
        return say(&format!("stored: {}", path.display())).map(|()| RunOutcome::AllGood);
    }
    if let Some(warning) = seal.key.as_deref().and_then(ssh::open_to_others) {
        let _ = writeln!(anstream::stderr(), "warning: {warning}");
    }
    let request = Request {
        folders: seal.jobs,
        out: None,
        wanted: Wanted::Papers,
        workers,
        force: true,
        options: Some(SealOptions {
            archive: seal.archive,
            tar: seal.tar,
            for_owner: seal.for_owner,
            papers: seal.papers,
            key: seal.key,
            passphrase: std::env::var(PASSPHRASE).ok(),
            stamp_query: seal.stamp_query,
            at,
        }),
    };
    let format = match seal.format {
        OutputFormat::Text => Format::Text,
        OutputFormat::Json => Format::Json,
    };
    batch::run(&request, &Reporter::new(format))
}
