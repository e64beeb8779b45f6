//! What of a bag its papers are held against: a holder, what was read of it and its own words ->
//! digests by name, and which kind of bag it is.
//!
//! Not here: holding papers against it (`paper_check`).

use std::collections::{BTreeMap, BTreeSet};

use super::algorithm::{Algorithm, Sums};
use super::bag_info::BagInfo;
use super::holder::{self, Holder, Kind};
use super::manifest::Manifest;
use super::paper::There;
use super::payload::Compared;

/// Where a bag keeps the files of the job folder.
pub(super) const ORIGINALS: &str = "data/originals/";
/// Where the owner's copy of a bag keeps its photos, whose metadata were taken out.
const COPIES: &str = "data/photos/";
/// The sheet in a bag.
const SHEET: &str = "data/findings.yaml";
/// The part of the profile that bears on the job; the owner's copy alone lacks it.
const PROFILE: &str = "data/workshop.yaml";
/// What the job number of an owner's copy ends with.
const OWNERS: &str = "-owner";
/// Label and value by which a bag says that its papers are older than its sheet.
const EARLIER: (&str, &str) =
    ("Internal-Sender-Description", "papers as issued earlier than this sheet");

/// Length and SHA-256 digits of files by path.
pub(super) type Digests = BTreeMap<String, (u64, String)>;

/// What papers are held against.
#[derive(Debug, Default)]
pub(super) struct Contents {
    /// Of the payload files that could be read.
    pub digests: Digests,
    /// True for a bag that was made as the owner's copy, with photos or without.
    pub is_owners: bool,
    /// True where the bag itself says that its papers were issued before its sheet was changed.
    pub has_earlier_papers: bool,
    unread: BTreeSet<String>,
    closed: Vec<String>,
    jobs: Vec<String>,
}

impl Contents {
    /// Takes together what is known of a bag.
    pub(super) fn of(
        holder: &dyn Holder,
        payload: &Compared,
        manifests: &[Manifest],
        info: &BagInfo,
    ) -> Self {
        let one = |(path, sums): (&String, &Sums)| {
            let Some(Kind::File(bytes)) = holder.items().get(path) else { return None };
            Some((path.clone(), (*bytes, sums.by(Algorithm::Sha256)?.to_owned())))
        };
        let digests: Digests = payload.sums.iter().filter_map(one).collect();
        let files = holder.items().iter().filter(|(_, kind)| matches!(kind, Kind::File(_)));
        let unread = files.map(|(path, _)| path).filter(|path| !digests.contains_key(*path));
        Self {
            is_owners: is_owners_copy(holder, manifests),
            has_earlier_papers: info.all(EARLIER.0).any(|value| value == EARLIER.1),
            unread: unread.cloned().collect(),
            closed: holder.closed().to_vec(),
            jobs: info.all("External-Identifier").map(str::to_owned).collect(),
            digests,
        }
    }

    /// What is there of a file of the job folder.
    pub(super) fn there(&self, name: &str) -> There {
        match name {
            "findings.yaml" => self.at(SHEET),
            "workshop.yaml" => self.at(PROFILE),
            _ => self.at(&format!("{ORIGINALS}{name}")),
        }
    }

    fn at(&self, path: &str) -> There {
        match self.digests.get(path) {
            Some((_, sha256)) => There::Is(sha256.clone()),
            None if self.unread.contains(path) || holder::lies_in(&self.closed, path) => {
                There::Unread
            }
            None => There::Not,
        }
    }

    /// True where something below a folder, named with `/` at its end, could not be read.
    pub(super) fn has_unread(&self, folder: &str) -> bool {
        self.unread.iter().chain(&self.closed).any(|path| path.starts_with(folder))
            || holder::lies_in(&self.closed, folder.trim_end_matches('/'))
    }

    /// True where photos without metadata lie in it.
    pub(super) fn has_copies(&self) -> bool {
        self.digests.keys().any(|path| path.starts_with(COPIES))
    }

    /// True where the bag says which job it is of, and it is another.
    pub(super) fn is_of_other_job(&self, job: &str) -> bool {
        let is_same = |own: &String| {
            let plain = own.strip_suffix(OWNERS).filter(|_| self.is_owners);
            own == job || plain == Some(job)
        };
        !self.jobs.is_empty() && !self.jobs.iter().any(is_same)
    }
}

/// A sheet without a profile and without any original, neither there nor listed as sealed.
pub(super) fn is_owners_copy(holder: &dyn Holder, manifests: &[Manifest]) -> bool {
    let listed = manifests.iter().flat_map(|manifest| &manifest.listed);
    let mut names = BTreeSet::new();
    names.extend(listed.map(|one| one.path.as_str()));
    names.extend(holder.items().keys().map(String::as_str));
    let is_closed = |path: &str| holder::lies_in(holder.closed(), path);
    names.contains(SHEET)
        && !names.contains(PROFILE)
        && !names.iter().any(|path| path.starts_with(ORIGINALS))
        && !is_closed(PROFILE)
        && !is_closed(ORIGINALS.trim_end_matches('/'))
}
