//! `import`: photos from a card or cable into a job, and what the sheet may say of them.
//!
//! In: typed arguments; out: how the run ended.

use serde_json::json;

use super::clock;
use crate::cli::starting;
use crate::console::{Console, RunOutcome};
use crate::diagnostic::source::escape_control;
use crate::failure::Failure;
use crate::import::{self, Asked, Fate, Imported, Told};
use crate::intake;
use crate::job::number;

pub(super) fn run(
    arguments: &starting::Import,
    cores: usize,
    console: &Console,
) -> Result<RunOutcome, Failure> {
    let job = intake::asked::folder(&arguments.job).map_err(|failure| {
        failure.hint("make it first: `splitcase new HD-1`, then import into it")
    })?;
    let number = number::peek(&job).unwrap_or_else(|| number::of_path(&job));
    let told = import::import(&Asked {
        from: &arguments.from,
        job: &job,
        number: &number,
        since: arguments.since.or(arguments.day),
        until: arguments.until.or(arguments.day),
        threads: cores,
        local: &clock::local,
    })?;
    for photo in &told.photos {
        console.tell(&line(photo), || result(photo))?;
    }
    for (name, kind) in &told.passed_over {
        console.warn(&format!(
            "`{}` is {} and was not copied",
            escape_control(name),
            kind.phrase()
        ));
    }
    for failure in &told.failures {
        console.fail(&arguments.from.display().to_string(), failure);
    }
    summary(&told, &intake::shown::shown(&job), console)?;
    Ok(if told.failures.is_empty() { RunOutcome::AllGood } else { RunOutcome::SomeRefused })
}

fn line(photo: &Imported) -> String {
    let at = photo.at.format("%Y-%m-%d %H:%M");
    let clock = if photo.by_camera { "" } else { "  (time of the file: the camera noted none)" };
    let from = escape_control(&photo.from);
    match &photo.fate {
        Fate::Copied(name) => format!("{name}  {at}  from {from}{clock}"),
        Fate::HereBefore(name) => {
            format!("{}  {at}  is here already: {from}", escape_control(name))
        }
    }
}

fn result(photo: &Imported) -> serde_json::Value {
    let (status, name) = match &photo.fate {
        Fate::Copied(name) => ("copied", name),
        Fate::HereBefore(name) => ("here-already", name),
    };
    json!({
        "file": name,
        "from": photo.from,
        "status": status,
        "taken": photo.at.format("%Y-%m-%dT%H:%M:%S").to_string(),
        "time-by": if photo.by_camera { "camera" } else { "file" },
    })
}

fn summary(told: &Told, job: &str, console: &Console) -> Result<(), Failure> {
    let copied: Vec<&str> = told
        .photos
        .iter()
        .filter_map(|photo| match &photo.fate {
            Fate::Copied(name) => Some(name.as_str()),
            Fate::HereBefore(_) => None,
        })
        .collect();
    let photos = |n: usize| if n == 1 { "1 photo".to_owned() } else { format!("{n} photos") };
    let before = told.photos.len() - copied.len();
    let rest = [
        (before, "here already"),
        (told.n_other_days, "of other days"),
        (told.failures.len(), "not read"),
    ];
    let rest = rest.iter().filter(|(n, _)| 0 < *n).map(|(n, words)| format!(", {n} {words}"));
    let rest: String = rest.collect();
    console.remark(&format!("\n{} copied into {job}{rest}", photos(copied.len())))?;
    if copied.is_empty() {
        return Ok(());
    }
    console.remark(&format!("for the sheet: photos: [{}]", copied.join(", ")))
}
