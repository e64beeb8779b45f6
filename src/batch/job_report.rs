//! What came of one job, for whoever reports it.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::archive::request::Sealed;
use crate::console::{Console, envelope};
use crate::diagnostic::{Diagnostic, Severity};
use crate::document::papers::progress::Progress;
use crate::failure::Failure;
use crate::job::FromList;

/// The result of a job.
#[derive(Debug)]
pub enum Status {
    /// Papers were written.
    Written(Vec<PathBuf>),
    /// No paper is due at this stage of the job.
    NothingDue,
    /// Nothing has changed since these papers were written.
    Unchanged(Vec<PathBuf>),
    /// The job is sealed in the archive.
    Sealed(Vec<Sealed>),
    /// The job was only checked, and nothing is wrong with it.
    Checked,
    /// The job's material has errors.
    Refused,
    /// The machine refused something.
    Failed(Failure),
}

impl Status {
    /// One word or two for the table; scripts get it with `-` between them.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Written(_) => "written",
            Self::NothingDue => "none due",
            Self::Unchanged(_) => "unchanged",
            Self::Sealed(bags) if bags.iter().all(|bag| !bag.is_new) => "sealed before",
            Self::Sealed(_) => "sealed",
            Self::Checked => "in order",
            Self::Refused => "refused",
            Self::Failed(_) => "failed",
        }
    }

    /// The papers that are there now; none if the job gave none.
    pub fn papers(&self) -> &[PathBuf] {
        match self {
            Self::Written(papers) | Self::Unchanged(papers) => papers,
            _ => &[],
        }
    }

    /// False if the job was not done.
    pub fn is_good(&self) -> bool {
        !matches!(self, Self::Refused | Self::Failed(_))
    }
}

/// What is reported of a job.
#[derive(Debug)]
pub struct JobReport {
    /// Its number, or its folder.
    pub job: String,
    /// Its folder, as the run found it; empty if no run did.
    pub folder: PathBuf,
    /// What came of it.
    pub status: Status,
    /// Its problems.
    pub problems: Vec<Diagnostic>,
    /// How many errors it has.
    pub errors: usize,
    /// How many warnings it has.
    pub warnings: usize,
    /// Earlier visits of its unit, each in words.
    pub visits: Vec<String>,
    /// The prices that came from the workshop's list.
    pub priced: Vec<FromList>,
    /// How far its papers are; unknown if it was refused.
    pub progress: Option<Progress>,
}

impl JobReport {
    /// A job with its problems.
    pub fn new(job: String, status: Status, problems: Vec<Diagnostic>) -> Self {
        let errors = problems.iter().filter(|one| one.severity == Severity::Error).count();
        let warnings = problems.len() - errors;
        Self {
            job,
            folder: PathBuf::new(),
            status,
            problems,
            errors,
            warnings,
            progress: None,
            visits: Vec::new(),
            priced: Vec::new(),
        }
    }

    /// A job that the machine refused.
    pub fn failed(job: String, failure: Failure) -> Self {
        Self { errors: 1, ..Self::new(job, Status::Failed(failure), Vec::new()) }
    }
}

impl JobReport {
    /// Tells a script its problems, the machine's refusal, its result.
    pub fn to_script(&self, console: &Console) {
        for problem in &self.problems {
            console.problem(envelope::problem(&self.job, problem));
        }
        if let Status::Failed(failure) = &self.status {
            console.fail(&self.job, failure);
        }
        console.result(self.as_json());
    }

    /// The report as a result for scripts, without its problems.
    fn as_json(&self) -> Value {
        let papers: Vec<String> = self.status.papers().iter().map(|path| shown(path)).collect();
        let bags: Vec<Value> = match &self.status {
            Status::Sealed(bags) => bags.iter().map(bag_as_json).collect(),
            _ => Vec::new(),
        };
        json!({
            "job": self.job,
            "status": self.status.word().replace(' ', "-"),
            "errors": self.errors,
            "warnings": self.warnings,
            "papers": papers,
            "due": self.progress.as_ref().map(|progress| &progress.due),
            "next": self.progress.as_ref().and_then(|progress| progress.next.as_ref()),
            "bags": bags,
            "seen-before": self.visits,
            "prices-of-list": self.priced,
        })
    }
}

fn bag_as_json(bag: &Sealed) -> Value {
    json!({
        "path": shown(&bag.path),
        "version": bag.version,
        "sha256": bag.digest.hex(),
        "is-new": bag.is_new,
        "tar": bag.tar.as_ref().map(|tar| shown(tar)),
    })
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}
