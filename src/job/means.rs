//! What a job may use of the machine.

use crate::album;
use crate::document;
use crate::photo::PixelBudget;

/// What a job may use of the machine.
#[derive(Debug, Clone, Copy)]
pub struct Means<'a> {
    /// Number of threads for its photos, at least 1.
    pub threads: usize,
    /// The pixels that all jobs of a run may hold at once.
    pub budget: &'a PixelBudget,
}

impl<'a> Means<'a> {
    pub(super) fn of_photos(&self) -> album::Means<'a> {
        album::Means { threads: self.threads, budget: self.budget, print: document::print_size() }
    }
}
