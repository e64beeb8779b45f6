//! What `seal` and `verify` do, from typed arguments to printed words.
//!
//! The clock is read here, for the register's lines and for what is due; below it is an argument.

use std::io::Write;
use std::path::Path;
use std::time::SystemTime;

use chrono::{DateTime, Utc};
use serde_json::json;

use crate::archive::verify::{self, Against, Maker};
use crate::archive::{self, signature, stamped};
use crate::batch::reporter::{Format, Reporter};
use crate::batch::request::Request;
use crate::batch::{self, RunOutcome};
use crate::cli::{Erase, OutputFormat, Seal, Verify};
use crate::closing::Terms;
use crate::failure::Failure;
use crate::intake;
use crate::job::Wanted;
use crate::remaking;

/// Environment variable that unlocks a private key.
const PASSPHRASE: &str = "SPLITCASE_KEY_PASSPHRASE";

/// Stores a reply, or seals jobs.
///
/// # Errors
/// What kept the run from starting, or the reply from being stored.
pub fn seal(seal: Seal, workers: usize) -> Result<RunOutcome, Failure> {
    let at = now();
    if let Some(reply) = &seal.reply {
        let path = stamped::store(reply, &seal.archive, at)?;
        return say(&format!("stored: {}", path.display())).map(|()| RunOutcome::AllGood);
    }
    if let Some(warning) = seal.key.as_deref().and_then(signature::open_to_others) {
        let _ = writeln!(anstream::stderr(), "warning: {warning}");
    }
    let request = Request {
        folders: seal.jobs,
        out: None,
        wanted: Wanted::Papers,
        workers,
        force: true,
        terms: Some(Terms {
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

/// Takes the bags of a job away.
///
/// # Errors
/// There is no such bag, the reason is none, or the disk refuses.
pub fn erase(erase: &Erase) -> Result<RunOutcome, Failure> {
    let Erase { job, archive, because, sealed_version } = erase;
    for bag in archive::erase::erase(job, *sealed_version, because, archive, now())? {
        say(&format!("erased: {bag}"))?;
    }
    let copy = format!("{job}-owner");
    if archive.join(&copy).is_dir() {
        say(&format!("still there: {copy}, the owner's copy"))?;
    }
    Ok(RunOutcome::AllGood)
}

/// Judges what was sealed, or answers a question about an archive.
///
/// # Errors
/// What could not be read; the exit code is then 2, as the judgement's own would be.
pub fn verify(verify: &Verify) -> Result<RunOutcome, Failure> {
    if let Some(archive) = &verify.archive {
        return question(verify, archive);
    }
    let Some(path) = &verify.path else {
        let cause = "neither a PATH nor `--archive` is given";
        return Err(Failure::new("verify", cause)
            .hint("`splitcase verify PATH`, or `splitcase verify --archive DIR --head`"));
    };
    if verify.head || verify.due.is_some() || verify.digest.is_some() {
        return question(verify, path);
    }
    let read = |path: &Path| intake::read_text_file(path, "read");
    let signers = verify.signer.as_deref().map(read).transpose()?;
    let signers = signers.map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
    let authority = verify.authority.as_deref().map(read).transpose()?;
    let against = Against {
        originals: verify.against.as_deref(),
        head: verify.head_was.as_deref(),
        signers: signers.as_deref(),
        authority: authority.as_deref(),
        maker: is_alone(path).then_some(Maker(&remaking::papers)),
        now: Some(now()),
    };
    let judgement = verify::verify(path, &against);
    say(match verify.format {
        OutputFormat::Text => judgement.text(path),
        OutputFormat::Json => judgement.as_json(path).to_string(),
    }
    .trim_end())?;
    Ok(match judgement.ending() {
        verify::Ending::AgreesWithItself | verify::Ending::VouchedFor => RunOutcome::AllGood,
        verify::Ending::DoesNotAgree => RunOutcome::SomeRefused,
        verify::Ending::CannotBeJudged => RunOutcome::CouldNotRun,
    })
}

/// In a whole archive making every paper again would take hours; there each bag is asked about alone.
fn is_alone(path: &Path) -> bool {
    !path.join("register.jsonl").exists()
}

/// The register's head, what is due, or the bag that a paper's digest belongs to.
fn question(verify: &Verify, archive: &Path) -> Result<RunOutcome, Failure> {
    let tell = |text: String, json: serde_json::Value| match verify.format {
        OutputFormat::Text => say(text.trim_end()),
        OutputFormat::Json => say(&json.to_string()),
    };
    if verify.head {
        let head = verify::head(archive)?;
        let json = json!({"lines": head.lines, "digest": head.digest});
        return tell(head.text(), json).map(|()| RunOutcome::AllGood);
    }
    if let Some(digest) = &verify.digest {
        let found = verify::find(archive, digest)?;
        for one in &found {
            let json = json!({"bag": one.bag, "paper": one.paper, "digest": one.digest});
            tell(one.text(), json)?;
        }
        if found.is_empty() {
            tell("no paper in this archive has that digest".into(), json!({"found": 0}))?;
            return Ok(RunOutcome::SomeRefused);
        }
        return Ok(RunOutcome::AllGood);
    }
    let today = match &verify.due {
        Some(Some(day)) => *day,
        Some(None) => now().date_naive(),
        None => {
            let cause = "`--archive` goes with `--head`, `--due` or `--digest`";
            return Err(Failure::new("verify", cause)
                .hint("`splitcase verify DIR` judges the whole archive"));
        }
    };
    let due = verify::due(archive, today)?;
    for one in &due {
        let json = json!({"bag": one.bag, "keep-until": one.keep_until.to_string()});
        tell(one.text(), json)?;
    }
    if due.is_empty() {
        let json = json!({"due": 0, "on": today.to_string()});
        tell(format!("nothing may be deleted yet on {today}"), json)?;
    }
    Ok(RunOutcome::AllGood)
}

#[allow(clippy::disallowed_methods, reason = "a seal says when it was made")]
fn now() -> DateTime<Utc> {
    SystemTime::now().into()
}

/// Prints a line.
///
/// # Errors
/// The output cannot be written, be it a full disk or a reader that has gone away: what was to be
/// reported is then unknown to whoever asked.
pub fn say(line: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout();
    writeln!(out, "{line}").and_then(|()| out.flush()).map_err(|error| Failure::new("print", error))
}
