//! One photo in the jobs of two units: photos of many jobs -> those that more than one job uses.

use std::collections::{BTreeMap, BTreeSet};

use crate::digest::Digest;

/// Most places that a message names.
const MOST: usize = 4;

/// One picture, by its bytes, in more than one job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shared<'a> {
    /// Its digest.
    pub sha256: Digest,
    /// Where it is: job and file name, in order and each once; two jobs or more.
    pub places: Vec<(&'a str, &'a str)>,
}

impl Shared<'_> {
    /// One file in the jobs of several units.
    pub const CODE: &'static str = "photo/two-jobs";

    /// What is wrong.
    pub fn message(&self) -> String {
        let place = |(job, file): &(&str, &str)| format!("`{file}` of job `{job}`");
        let mut places: Vec<String> = self.places.iter().take(MOST).map(place).collect();
        if let more @ 1.. = self.places.len().saturating_sub(MOST) {
            places.push(format!("and {more} more"));
        }
        format!("one photo is in several jobs: {}", places.join(", "))
    }

    /// What to do about it.
    pub fn hint() -> &'static str {
        "a photo proves something about one unit: leave it in the job that it belongs to"
    }
}

/// Finds the photos that more than one job uses, from job, file name and digest of each. The answer
/// is in order of job and file name, whatever the order of `photos`.
pub fn shared<'a>(photos: &[(&'a str, &'a str, Digest)]) -> Vec<Shared<'a>> {
    let mut places: BTreeMap<Digest, BTreeSet<(&str, &str)>> = BTreeMap::new();
    for (job, file, sha256) in photos {
        places.entry(*sha256).or_default().insert((*job, *file));
    }
    let mut shared: Vec<Shared<'_>> = places
        .into_iter()
        .map(|(sha256, places)| Shared { sha256, places: places.into_iter().collect() })
        .filter(|one| one.places.iter().any(|(job, _)| *job != one.places[0].0))
        .collect();
    shared.sort_by(|one, other| one.places.cmp(&other.places));
    shared
}
