//! What lies around the jobs of a run: other jobs in the workshop's folder tree, and its archive.
//!
//! In: job folders and their workshops; out: earlier visits of the same units ([`visits`]), and photos of
//! other jobs that show the same picture ([`photos`]). Looked for once a run, never once a job; what
//! cannot be read is passed over. Not here: the jobs of the run themselves (batch), what is made of
//! the answers (assessment).

mod library;
pub mod photos;
pub mod problems;
pub mod visits;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::intake;
use crate::workshop::Workshop;

/// A workshop with its folder tree.
pub struct Neighbourhood {
    /// The folder of the profile.
    pub root: PathBuf,
    /// The workshop.
    pub workshop: Arc<Workshop>,
    /// Its archive, if there is one.
    pub archive: Option<PathBuf>,
}

impl Neighbourhood {
    /// The workshop of a profile; an archive that was named on the command line goes before the
    /// profile's own.
    pub fn of(profile: &Path, workshop: Arc<Workshop>, named: Option<&Path>) -> Self {
        let root = profile.parent().unwrap_or(Path::new(".")).to_owned();
        let policy = workshop.profile.fields.evidence.as_ref();
        let own = policy.and_then(|policy| policy.archive.as_ref());
        let own = own.map(|archive| root.join(&archive.0));
        let archive = named.map(Path::to_owned).or(own).filter(|archive| archive.is_dir());
        Self { root, workshop, archive }
    }
}

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
