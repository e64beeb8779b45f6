//! The one shape of every answer to a script: which verb of which version, its results, its problems.
//!
//! In: results as each verb makes them, problems of every kind; out: one JSON object, as
//! `output.schema.json` beside this file describes it. Nothing is printed here.

use serde_json::{Value, json};

use super::outcome::RunOutcome;
use crate::diagnostic::{Diagnostic, Severity};
use crate::failure::Failure;

/// Name and number of the shape: a field may come with the same number; if one goes or changes its
/// meaning, the number is the next one.
pub const FORMAT: &str = "splitcase-output-1";

/// Its JSON Schema.
pub const SCHEMA: &str = include_str!("output.schema.json");

/// Code of a problem that is the machine's: a file that cannot be read, a disk that is full.
const FAILURE: &str = "failure";
/// Code of a problem with what was typed behind the program's name.
const ARGUMENTS: &str = "arguments";

/// The answer of one run.
#[derive(Debug)]
pub struct Envelope {
    verb: Option<String>,
    /// What the verb made or found, one object each.
    pub results: Vec<Value>,
    /// What is wrong, one object each.
    pub problems: Vec<Value>,
}

impl Envelope {
    /// An empty answer of a verb.
    pub fn new(verb: Option<&str>) -> Self {
        Self { verb: verb.map(str::to_owned), results: Vec::new(), problems: Vec::new() }
    }

    /// Gives the whole answer and is empty again.
    pub fn take(&mut self, outcome: RunOutcome) -> Value {
        json!({
            "format": FORMAT,
            "verb": self.verb,
            "version": env!("CARGO_PKG_VERSION"),
            "exit-code": outcome.code(),
            "results": std::mem::take(&mut self.results),
            "problems": std::mem::take(&mut self.problems),
        })
    }
}

/// A problem of a person's material; `subject` is the job, or empty if it is that of several.
pub fn problem(subject: &str, diagnostic: &Diagnostic) -> Value {
    let place = &diagnostic.place;
    let position = place.range.as_ref().map(|range| place.source.line_column(range.start));
    json!({
        "subject": subject,
        "severity": diagnostic.severity.word(),
        "code": diagnostic.code,
        "file": place.source.name(),
        "line": position.map(|(line, _)| line),
        "column": position.map(|(_, column)| column),
        "message": diagnostic.message,
        "hints": diagnostic.hints,
    })
}

/// What the machine refused; `subject` is the job or path, or empty for the whole run.
pub fn failure(subject: &str, failure: &Failure) -> Value {
    let file = failure.path.as_ref().map(|path| path.display().to_string());
    let hints: Vec<&str> = failure.hint.as_deref().into_iter().collect();
    plain(subject, Severity::Error, FAILURE, file.as_deref(), &failure.to_string(), &hints)
}

/// A warning of the whole run.
pub fn warning(words: &str) -> Value {
    plain("", Severity::Warning, FAILURE, None, words, &[])
}

/// What is wrong with the arguments, as they were refused.
pub fn arguments(words: &str) -> Value {
    plain("", Severity::Error, ARGUMENTS, None, words, &[])
}

/// Something wrong at a place that has no lines.
pub fn flaw(subject: &str, code: &str, file: &str, message: &str, hint: Option<&str>) -> Value {
    let hints: Vec<&str> = hint.into_iter().collect();
    plain(subject, Severity::Error, code, Some(file), message, &hints)
}

fn plain(
    subject: &str,
    severity: Severity,
    code: &str,
    file: Option<&str>,
    message: &str,
    hints: &[&str],
) -> Value {
    json!({
        "subject": subject,
        "severity": severity.word(),
        "code": code,
        "file": file,
        "line": null,
        "column": null,
        "message": message,
        "hints": hints,
    })
}
