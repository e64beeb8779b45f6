//! How a run ended.

/// How a run ended, as the exit code says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunOutcome {
    /// Every job is done.
    AllGood,
    /// A job was refused; the others are done.
    SomeRefused,
    /// Nothing could be run.
    CouldNotRun,
}
