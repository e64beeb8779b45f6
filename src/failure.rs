//! What the machine refused: disk, arguments, our own templates. Ends a job or a run, with a reason.
//!
//! Problems of a person's material are [`crate::diagnostic::Diagnostic`]s and are not here.

pub mod fault;

use std::fmt;
use std::path::{Path, PathBuf};

use crate::diagnostic::source::escape_control;

/// A refusal of the machine: what was tried, on which file, the cause, and what to do.
#[derive(Clone, Debug)]
pub struct Failure {
    /// What was tried, to follow "could not": `read the sheet`.
    pub action: String,
    /// The file or folder in question, if there is one.
    pub path: Option<PathBuf>,
    /// Why it did not work.
    pub cause: String,
    /// What to do about it.
    pub hint: Option<String>,
}

impl Failure {
    /// A failure without a file.
    pub fn new(action: impl Into<String>, cause: impl fmt::Display) -> Self {
        Self { action: action.into(), path: None, cause: cause.to_string(), hint: None }
    }

    /// A failure on a file or folder.
    pub fn on(action: impl Into<String>, path: &Path, cause: impl fmt::Display) -> Self {
        Self { path: Some(path.to_owned()), ..Self::new(action, cause) }
    }

    /// Adds advice.
    #[must_use]
    pub fn hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// The failure as people read it, with its advice on a line of its own.
    pub fn text(&self) -> String {
        let hint = self.hint.as_ref().map(|hint| format!("\n  help: {hint}")).unwrap_or_default();
        format!("error: {self}{hint}")
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "could not {}", self.action)?;
        if let Some(path) = &self.path {
            write!(f, " `{}`", escape_control(&path.display().to_string()))?;
        }
        write!(f, ": {}", escape_control(&self.cause))
    }
}

impl std::error::Error for Failure {}
