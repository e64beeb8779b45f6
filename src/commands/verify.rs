//! `verify`: judges what was sealed, or answers a question about an archive.
//!
//! In: typed arguments; out: how it ended. The judgement and its words are the archive's.

use std::path::Path;

use serde_json::{Value, json};

use super::clock::{self, now};
use crate::archive::layout::REGISTER;
use crate::archive::verify::judgement::{Against, Maker, Outcome};
use crate::archive::verify::{self, queries};
use crate::cli::Verify;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;
use crate::intake;
use crate::remaking;

/// Judges what was sealed, or answers a question about an archive.
///
/// # Errors
/// What could not be read; the exit code is then 2, as the judgement's own would be.
pub fn run(arguments: &Verify, console: &Console) -> Result<RunOutcome, Failure> {
    if let Some(archive) = &arguments.archive {
        return question(arguments, archive, console);
    }
    let Some(path) = &arguments.path else {
        let cause = "neither a PATH nor `--archive` is given";
        return Err(Failure::new("verify", cause)
            .hint("`splitcase verify PATH`, or `splitcase verify --archive DIR --head`"));
    };
    if arguments.head || arguments.due.is_some() || arguments.digest.is_some() {
        return question(arguments, path, console);
    }
    let read = |path: &Path| intake::read_text_file(path, "read");
    let signers = arguments.signer.as_deref().map(read).transpose()?;
    let signers = signers.map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
    let authority = arguments.authority.as_deref().map(read).transpose()?;
    let against = Against {
        originals: arguments.against.as_deref(),
        head: arguments.known_head.as_deref(),
        signers: signers.as_deref(),
        authority: authority.as_deref(),
        maker: is_alone(path).then_some(Maker(&remaking::papers)),
        now: Some(now()),
    };
    let judgement = verify::verify(path, &against);
    let outcome = match judgement.outcome() {
        Outcome::AgreesWithItself | Outcome::VouchedFor => RunOutcome::AllGood,
        Outcome::DoesNotAgree => RunOutcome::SomeRefused,
        Outcome::CannotBeJudged => RunOutcome::CouldNotRun,
    };
    let text = judgement.text(path);
    match outcome {
        RunOutcome::AllGood => console.tell(text.trim_end(), || judgement.as_json(path))?,
        _ => console.answer(text.trim_end(), || judgement.as_json(path))?,
    }
    judgement.problems_as_json(path).into_iter().for_each(|problem| console.problem(problem));
    Ok(outcome)
}

/// In a whole archive making every paper again would take hours; there each bag is asked about alone.
fn is_alone(path: &Path) -> bool {
    !path.join(REGISTER).exists()
}

/// The register's head, what is due, or the bag that a paper's digest belongs to.
fn question(arguments: &Verify, archive: &Path, console: &Console) -> Result<RunOutcome, Failure> {
    let tell = |text: String, json: Value| console.answer(text.trim_end(), || json);
    if arguments.head {
        let head = queries::head(archive)?;
        let json = json!({"lines": head.lines, "digest": head.digest});
        return tell(head.text(), json).map(|()| RunOutcome::AllGood);
    }
    if let Some(digest) = &arguments.digest {
        let found = queries::find(archive, digest)?;
        for one in &found {
            let json = json!({"bag": one.bag, "paper": one.paper, "digest": one.digest});
            tell(one.text(), json)?;
        }
        if found.is_empty() {
            console.remark("no paper in this archive has that digest")?;
            return Ok(RunOutcome::SomeRefused);
        }
        return Ok(RunOutcome::AllGood);
    }
    let today = match &arguments.due {
        Some(Some(day)) => *day,
        Some(None) => clock::today(),
        None => {
            let cause = "`--archive` goes with `--head`, `--due` or `--digest`";
            return Err(Failure::new("verify", cause)
                .hint("`splitcase verify DIR` judges the whole archive"));
        }
    };
    let due = queries::due(archive, today)?;
    for one in &due {
        let json = json!({"bag": one.bag, "keep-until": one.keep_until.to_string()});
        tell(one.text(), json)?;
    }
    if due.is_empty() {
        console.remark(&format!("nothing may be deleted yet on {today}"))?;
    }
    Ok(RunOutcome::AllGood)
}
