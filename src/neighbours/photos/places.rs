//! Where photos are: digest -> jobs and files, of this run, of the tree and of the archive.

use std::collections::BTreeMap;

use super::learning::Learnt;
use super::shapes::{OwnPhoto, Place, below, digest, is_one_job};
use crate::digest::Digest;
use crate::intake::{self, SHEET};
use crate::neighbours::neighbourhood::Neighbourhood;

/// Every place of each file.
pub(super) struct Places(BTreeMap<Digest, Vec<Place>>);

impl Places {
    /// The places of all photos that are known.
    pub(super) fn of(own: &[OwnPhoto], around: &[Neighbourhood], learnt: &Learnt) -> Self {
        let mut places: BTreeMap<Digest, Vec<Place>> = BTreeMap::new();
        let mut add = |sha256: Digest, place: Place| places.entry(sha256).or_default().push(place);
        for photo in own {
            add(
                digest(photo),
                Place {
                    is_own: true,
                    job: photo.job.clone(),
                    name: photo.name.clone(),
                    file: photo.folder.join(&photo.name),
                    sheet: photo.folder.join(SHEET),
                    is_sealed: false,
                },
            );
        }
        for (one, stored) in around.iter().zip(&learnt.stored) {
            let of_run: Vec<String> =
                own.iter().filter_map(|photo| below(&one.root, &photo.folder)).collect();
            let of_run = |folder: &String| of_run.binary_search(folder).is_ok();
            for ((folder, name), (job, mark)) in &stored.files {
                let file = one.root.join(folder).join(name);
                if !of_run(folder)
                    && intake::file::state_of(&file) == Some((mark.bytes, mark.changed))
                {
                    let sheet = one.root.join(folder).join(SHEET);
                    let (job, name) = (job.clone(), name.clone());
                    let is_sealed = false;
                    add(mark.sha256, Place { is_own: false, job, name, file, sheet, is_sealed });
                }
            }
        }
        for holding in &learnt.sealed {
            add(
                holding.sha256,
                Place {
                    is_own: false,
                    job: holding.job.clone(),
                    name: holding.name.clone(),
                    file: holding.path(),
                    sheet: holding.bag.join("data").join(SHEET),
                    is_sealed: true,
                },
            );
        }
        for list in places.values_mut() {
            list.sort();
        }
        Self(places)
    }

    /// Job, file name and digest of every place.
    pub(super) fn all(&self) -> Vec<(&str, &str, Digest)> {
        let all = self.0.iter().flat_map(|(sha256, places)| {
            places.iter().map(|place| (place.job.as_str(), place.name.as_str(), *sha256))
        });
        all.collect()
    }

    /// The places of a file that are of other jobs than this one.
    pub(super) fn of_others(&self, sha256: &Digest, job: &str) -> Vec<&Place> {
        let places = self.0.get(sha256).into_iter().flatten();
        places.filter(|place| !is_one_job(&place.job, job)).collect()
    }

    /// The place of another job to hold a photo of this run against. Of two photos of this run the
    /// later one is held against the earlier, so that one pair is reported once.
    pub(super) fn other(&self, sha256: &Digest, own: &[OwnPhoto], at: usize) -> Option<&Place> {
        let others = self.of_others(sha256, &own[at].job);
        let is_before = || own[..at].iter().any(|photo| digest(photo) == *sha256);
        others.into_iter().find(|place| !place.is_own || is_before())
    }
}
