//! How a run ended.

/// How a run ended, as the exit code says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunOutcome {
    /// Everything is done.
    AllGood,
    /// A job was refused; the others are done.
    SomeRefused,
    /// Nothing could be run.
    CouldNotRun,
}

impl RunOutcome {
    /// The exit code: 0, 1 or 2.
    pub fn code(self) -> u8 {
        match self {
            Self::AllGood => 0,
            Self::SomeRefused => 1,
            Self::CouldNotRun => 2,
        }
    }
}
