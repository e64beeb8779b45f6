//! Which job of a run has which number, so that no two papers ever meet in one folder.
//!
//! A sheet may be saved while the run goes on: a number is claimed again when its job is worked on,
//! by the bytes that go to paper. Not here: how two jobs of one number are reported.

use std::collections::BTreeMap;

/// Jobs by their number in lower case: some file systems take `a` and `A` for one name.
#[derive(Debug, Default)]
pub struct Claims {
    by_number: BTreeMap<String, Vec<usize>>,
}

impl Claims {
    /// The claims at the start of a run, by the order of the jobs; `None` is a sheet without a number.
    pub fn of(numbers: &[Option<String>]) -> Self {
        let mut claims = Self::default();
        for (at, number) in numbers.iter().enumerate() {
            if let Some(number) = number {
                claims.by_number.entry(number.to_lowercase()).or_default().push(at);
            }
        }
        claims
    }

    /// Claims a number for a job; returns another job that has it, and nobody may use it then.
    pub fn claim(&mut self, number: &str, at: usize) -> Option<usize> {
        let holders = self.by_number.entry(number.to_lowercase()).or_default();
        if !holders.contains(&at) {
            holders.push(at);
        }
        holders.iter().copied().find(|&other| other != at)
    }
}
