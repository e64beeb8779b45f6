//! What is around the jobs of a run: other jobs in the workshop's folder tree, and its archive.
//!
//! In: job folders and their workshops; out: earlier visits of the same units ([`visits`]), and photos of
//! other jobs that show the same picture ([`photos`]). Looked for once a run, never once a job; what
//! cannot be read is passed over. Not here: the jobs of the run themselves (batch), what is made of
//! the answers (assessment).

mod library;
pub mod neighbourhood;
pub mod photos;
pub mod problems;
pub mod visits;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::intake;
use crate::workshop::Workshop;
use neighbourhood::Neighbourhood;

/// The neighbourhoods of job folders, each once, in order of their paths; `open` opens a workshop by
/// one of its job folders.
pub fn around<'a>(
    jobs: impl Iterator<Item = &'a Path>,
    open: impl Fn(&Path) -> Option<Arc<Workshop>>,
    archive: Option<&Path>,
) -> Vec<Neighbourhood> {
    let mut profiles: BTreeMap<PathBuf, &Path> = BTreeMap::new();
    for job in jobs {
        if let Some(profile) = intake::find_profile(job) {
            profiles.entry(profile).or_insert(job);
        }
    }
    let opened = profiles.into_iter().filter_map(|(profile, job)| {
        let workshop = open(job)?;
        Some(Neighbourhood::of(&profile, workshop, archive))
    });
    opened.collect()
}
