//! What is wrong with a person's material: severity, code, words, place and advice.
//!
//! Every stage collects its remarks in [`Problems`]; nothing here prints or decides on exit codes.
//! What the machine refused (disk, memory, arguments) is a [`crate::failure::Failure`] instead.

pub mod print;
pub mod source;

use std::ops::Range;

use source::Source;

/// How much a problem weighs: a job with an error is refused, a warning only informs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The job is refused.
    Error,
    /// The job is done; somebody should look.
    Warning,
}

impl Severity {
    /// The word printed before the code.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
        }
    }
}

/// A place in a text, or a whole file if `range` is `None`.
#[derive(Clone, Debug)]
pub struct Place {
    /// The text, or the name alone of a file that is not text.
    pub source: Source,
    /// Bytes of the text; `None` is the whole file.
    pub range: Option<Range<usize>>,
}

impl Place {
    /// A whole file as a place.
    pub fn whole(source: &Source) -> Self {
        Self { source: source.clone(), range: None }
    }

    /// A place inside a text, in bytes.
    pub fn at(source: &Source, range: Range<usize>) -> Self {
        Self { source: source.clone(), range: Some(range) }
    }

    /// True for a place that begins within these bytes of the text.
    pub fn is_in(&self, bytes: &Range<usize>) -> bool {
        self.range.as_ref().is_some_and(|range| bytes.contains(&range.start))
    }

    /// The key by which problems are put in reading order.
    fn order(&self) -> (&str, usize) {
        (self.source.name(), self.range.as_ref().map_or(0, |range| range.start))
    }
}

/// One remark about a person's material.
#[derive(Clone, Debug)]
pub struct Diagnostic {
    /// Error or warning.
    pub severity: Severity,
    /// Stable code, `stage/what`, for scripts and for searching the handbook.
    pub code: &'static str,
    /// What is wrong: lower case, no full stop, names in backticks.
    pub message: String,
    /// Where it is wrong.
    pub place: Place,
    /// Other places that belong to it, each with a few words.
    pub also: Vec<(Place, String)>,
    /// What to do about it.
    pub hints: Vec<String>,
}

impl Diagnostic {
    /// An error at a place.
    pub fn error(code: &'static str, place: Place, message: impl Into<String>) -> Self {
        Self::new(Severity::Error, code, place, message.into())
    }

    /// A warning at a place.
    pub fn warning(code: &'static str, place: Place, message: impl Into<String>) -> Self {
        Self::new(Severity::Warning, code, place, message.into())
    }

    fn new(severity: Severity, code: &'static str, place: Place, message: String) -> Self {
        let message = tame_lines(&message);
        Self { severity, code, message, place, also: Vec::new(), hints: Vec::new() }
    }

    /// Adds advice.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hints.push(tame_lines(&hint.into()));
        self
    }

    /// Adds advice if there is any.
    #[must_use]
    pub fn maybe_hint(self, hint: Option<String>) -> Self {
        match hint {
            Some(hint) => self.hint(hint),
            None => self,
        }
    }

    /// Points at a second place.
    #[must_use]
    pub fn also(mut self, place: Place, words: impl Into<String>) -> Self {
        self.also.push((place, words.into()));
        self
    }
}

/// The problems of one job, collected over its stages.
#[derive(Debug, Default)]
pub struct Problems {
    list: Vec<Diagnostic>,
}

impl Problems {
    /// Adds one problem.
    pub fn push(&mut self, diagnostic: Diagnostic) {
        self.list.push(diagnostic);
    }

    /// Adds many problems.
    pub fn extend(&mut self, diagnostics: impl IntoIterator<Item = Diagnostic>) {
        self.list.extend(diagnostics);
    }

    /// True if a job must be refused.
    pub fn has_errors(&self) -> bool {
        self.n_errors() > 0
    }

    /// How many errors there are.
    pub fn n_errors(&self) -> usize {
        self.list.iter().filter(|one| one.severity == Severity::Error).count()
    }

    /// The problems in reading order: by file, place, weight, code.
    pub fn into_sorted(mut self) -> Vec<Diagnostic> {
        self.list.sort_by(|a, b| {
            (a.place.order(), a.severity, a.code).cmp(&(b.place.order(), b.severity, b.code))
        });
        self.list
    }
}

/// A message of one or several lines as a terminal may show it.
fn tame_lines(message: &str) -> String {
    message.split('\n').map(source::escape_control).collect::<Vec<_>>().join("\n")
}
