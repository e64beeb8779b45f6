//! Why a paper could not be made.

use crate::diagnostic::{Diagnostic, Problems};
use crate::failure::Failure;

/// Why a paper could not be made.
pub enum Refusal {
    /// Problems in templates or wordings.
    Problems(Vec<Diagnostic>),
    /// Something of ours.
    Failure(Failure),
}

impl Refusal {
    /// Adds its problems to those of a job.
    ///
    /// # Errors
    /// The failure, if it is one.
    pub fn into_problems(self, problems: &mut Problems) -> Result<(), Failure> {
        match self {
            Self::Failure(failure) => Err(failure),
            Self::Problems(found) => {
                problems.extend(found);
                Ok(())
            }
        }
    }
}

impl From<Diagnostic> for Refusal {
    fn from(problem: Diagnostic) -> Self {
        Self::Problems(vec![problem])
    }
}

impl From<Vec<Diagnostic>> for Refusal {
    fn from(problems: Vec<Diagnostic>) -> Self {
        Self::Problems(problems)
    }
}

impl From<Failure> for Refusal {
    fn from(failure: Failure) -> Self {
        Self::Failure(failure)
    }
}
