//! A workshop with its folder tree and its archive.

use std::path::{Path, PathBuf};
use std::sync::Arc;

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
