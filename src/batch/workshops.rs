//! The workshops of a run, each opened once however many jobs it has.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::job_report::{JobReport, Status};
use crate::diagnostic::Diagnostic;
use crate::failure::Failure;
use crate::intake;
use crate::workshop::{self, Workshop, WorkshopRefusal};

type Opened = Arc<OnceLock<Result<Arc<Workshop>, Refused>>>;

/// Workshops by the path of their profile.
#[derive(Default)]
pub struct Workshops {
    opened: Mutex<BTreeMap<PathBuf, Opened>>,
}

/// Why a job has no workshop; reported for each of its jobs.
#[derive(Clone)]
pub enum Refused {
    /// Problems in the profile.
    Problems(Vec<Diagnostic>),
    /// Something the machine refused: action, path, cause, hint.
    Failure(Arc<Failure>),
}

impl Refused {
    /// What is reported of each job of this workshop.
    ///
    /// # Errors
    /// The machine's refusal as a failure of the job.
    pub fn report(self, job: String) -> Result<JobReport, Failure> {
        match self {
            Self::Problems(problems) => Ok(JobReport::new(job, Status::Refused, problems)),
            Self::Failure(failure) => Err((*failure).clone()),
        }
    }
}

impl Workshops {
    /// The workshop of a job folder.
    ///
    /// # Errors
    /// No profile above the folder, or one that cannot be used.
    pub fn of(&self, job: &Path) -> Result<Arc<Workshop>, Refused> {
        let Some(profile) = intake::find_profile(job) else {
            let cause = format!("there is no `{}` in it or above it", intake::PROFILE);
            let failure = Failure::on("find the workshop of", job, cause);
            let hint = "write one beside your job folders: `splitcase new --workshop FOLDER`";
            return Err(Refused::Failure(Arc::new(failure.hint(hint))));
        };
        let opened = {
            let mut all = self.opened.lock().unwrap_or_else(PoisonError::into_inner);
            all.entry(profile.clone()).or_default().clone()
        };
        let workshop = opened.get_or_init(|| match workshop::open(&profile) {
            Ok(workshop) => Ok(Arc::new(workshop)),
            Err(WorkshopRefusal::Problems(problems)) => Err(Refused::Problems(problems)),
            Err(WorkshopRefusal::Failure(failure)) => Err(Refused::Failure(Arc::new(failure))),
        });
        workshop.clone()
    }
}
