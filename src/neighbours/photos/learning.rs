//! What is known of the photos around: read from the library, added to by this run, kept again.
//!
//! An archive whose photos are not known yet is learnt a part a run, as each has to be unpacked.

use std::collections::{BTreeMap, BTreeSet};

use super::shapes::{Means, OwnPhoto, below, digest};
use crate::archive::holdings::{self, Holding};
use crate::assessment::recognition::{Look, Stored};
use crate::diagnostic::Diagnostic;
use crate::digest::Digest;
use crate::document;
use crate::intake;
use crate::neighbours::{library, problems};
use crate::photo;
use crate::workers;

/// Most photos of an archive that one run gets to know: some seconds.
const MOST_LEARNT: usize = 256;

/// What is known.
pub(super) struct Learnt {
    /// The library of each workshop.
    pub stored: Vec<Stored>,
    /// The photos of the archives.
    pub sealed: Vec<Holding>,
    /// How many photos of the archives are not known yet.
    unknown: usize,
}

impl Learnt {
    /// Reads what is known, and learns more of the archives if the run may keep it.
    pub(super) fn of(own: &[OwnPhoto], means: &Means<'_>) -> Self {
        let mut stored: Vec<Stored> =
            means.around.iter().map(|one| library::read(&one.root)).collect();
        let archives: BTreeSet<_> =
            means.around.iter().filter_map(|one| one.archive.as_deref()).collect();
        let held = archives.into_iter().filter_map(|archive| holdings::holdings(archive).ok());
        let sealed: Vec<Holding> =
            held.flatten().filter(|one| intake::is_called_photo(&one.name)).collect();
        let is_known = |sha256: &Digest| {
            stored.iter().any(|one| one.looks.contains_key(sha256))
                || own.iter().any(|photo| digest(photo) == *sha256)
        };
        let unknown: BTreeMap<Digest, &Holding> = sealed
            .iter()
            .filter(|one| !is_known(&one.sha256))
            .map(|one| (one.sha256, one))
            .collect();
        let unknown: Vec<&Holding> = unknown.into_values().collect();
        let n = if means.keeps { unknown.len().min(MOST_LEARNT) } else { 0 };
        let looks = workers::map(means.threads, n, |at| look(unknown[at], means));
        let n_unknown = unknown.len() - n;
        if let Some(first) = stored.first_mut() {
            first.looks.extend(looks.into_iter().map(|look| (look.sha256, look)));
        }
        Self { stored, sealed, unknown: n_unknown }
    }

    /// The look of every photo that is known, each once, in order of digests.
    pub(super) fn looks(&self, own: &[OwnPhoto]) -> Vec<Look> {
        let mut all: BTreeMap<Digest, &Look> = BTreeMap::new();
        let stored = self.stored.iter().flat_map(|one| one.looks.values());
        for look in stored.chain(own.iter().filter_map(|photo| photo.look.as_ref())) {
            all.insert(look.sha256, look);
        }
        all.into_values().cloned().collect()
    }

    /// Keeps what is known now, without files that are gone; what cannot be kept is reported.
    pub(super) fn keep(&mut self, own: &[OwnPhoto], means: &Means<'_>) -> Vec<Diagnostic> {
        let mut found = Vec::new();
        if 0 < self.unknown {
            let archive = means.around.iter().find_map(|one| one.archive.as_deref());
            let archive = archive.map(|path| path.display().to_string()).unwrap_or_default();
            found.push(problems::not_compared(&archive, self.unknown, MOST_LEARNT));
        }
        if !means.keeps {
            return found;
        }
        for (one, stored) in means.around.iter().zip(&mut self.stored) {
            let before = stored.clone();
            for photo in own {
                let Some(folder) = below(&one.root, &photo.folder) else { continue };
                let place = (folder, photo.name.clone());
                stored.files.insert(place, (photo.job.clone(), photo.mark));
                stored.looks.extend(photo.look.clone().map(|look| (look.sha256, look)));
            }
            stored.files.retain(|(folder, name), (_, mark)| {
                let state = intake::file::state_of(&one.root.join(folder).join(name));
                state == Some((mark.bytes, mark.changed))
            });
            // What was erased from the archive is forgotten with it.
            if one.archive.is_some() {
                let mut held: BTreeSet<Digest> = self.sealed.iter().map(|one| one.sha256).collect();
                held.extend(stored.files.values().map(|(_, mark)| mark.sha256));
                stored.looks.retain(|sha256, _| held.contains(sha256));
            }
            if *stored != before
                && let Err(failure) = library::keep(&one.root, stored)
            {
                found.push(problems::not_kept(&one.root.display().to_string(), &failure));
            }
        }
        found
    }
}

/// The look of a sealed photo; an empty one if it cannot be read, so that it is not tried again.
fn look(holding: &Holding, means: &Means<'_>) -> Look {
    let bytes = intake::file::read_photo(&holding.path()).ok();
    let photo =
        bytes.and_then(|bytes| photo::prepare(&bytes, document::print_size(), means.budget).ok());
    match photo {
        // A file that is not what its bag says is of no use for anything.
        Some(photo) if photo.facts.sha256 == holding.sha256 => Look::of(&photo),
        _ => Look::blank(holding.sha256),
    }
}
