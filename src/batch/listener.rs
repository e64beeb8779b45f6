//! Who is told what comes of the jobs of a run.

use super::job_report::JobReport;
use crate::console::RunOutcome;
use crate::diagnostic::Diagnostic;
use crate::failure::Failure;

/// Somebody who is told what comes of each job, from whichever thread worked on it.
pub trait Listener: Sync {
    /// How many jobs there are.
    fn start(&self, jobs: usize);
    /// The result of the job at a place in the order of the run.
    fn job_done(&self, at: usize, told: JobReport);
    /// The end of the run, with what concerns several jobs; returns how it ended.
    fn finish(&self, unreadable: &[Failure], of_several: &[Diagnostic]) -> RunOutcome;
}
