//! What of a bag its papers are held against: a source, what was read of it and its own words ->
//! digests by name, and which kind of bag it is.
//!
//! Not here: holding papers against it (`papers_in_bag`).

use std::collections::{BTreeMap, BTreeSet};

use super::paper::{self, There};
use super::payload::Compared;
use super::source;
use super::source::{Kind, Source};
use crate::archive::bag::digests::{Algorithm, Sums};
use crate::archive::bag::info::BagInfo;
use crate::archive::bag::manifest::Manifest;
use crate::archive::layout::{
    self, COPIES, HANDOVER, ISSUED_EARLIER, JOB_LABEL, ORIGINALS, OWNER, PROFILE, SHEET, VISITS,
};

/// Length and SHA-256 digits of files by path.
pub(super) type Digests = BTreeMap<String, (u64, String)>;

/// Whom a bag was made for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum MadeFor {
    /// The workshop itself: all that there is.
    #[default]
    Workshop,
    /// The owner, with photos without metadata or with none.
    Owner,
    /// An assessor: the originals whole, the sheet as the customer has it.
    Handover,
}

/// What papers are held against.
#[derive(Debug, Default)]
pub(super) struct Contents {
    /// Of the payload files that could be read.
    pub digests: Digests,
    /// Whom it was made for.
    pub made_for: MadeFor,
    /// True if the bag itself says that its papers were issued before its sheet was changed.
    pub has_earlier_papers: bool,
    redacted: BTreeMap<String, String>,
    unread: BTreeSet<String>,
    closed: Vec<String>,
    jobs: Vec<String>,
}

impl Contents {
    /// Takes together what is known of a bag.
    pub(super) fn of(
        source: &dyn Source,
        payload: &Compared,
        manifests: &[Manifest],
        info: &BagInfo,
    ) -> Self {
        let one = |(path, sums): (&String, &Sums)| {
            let Some(Kind::File(bytes)) = source.items().get(path) else { return None };
            Some((path.clone(), (*bytes, sums.by(Algorithm::Sha256)?.to_owned())))
        };
        let jobs: Vec<String> = info.all(JOB_LABEL).map(str::to_owned).collect();
        let digests: Digests = payload.sums.iter().filter_map(one).collect();
        let files = source.items().iter().filter(|(_, kind)| matches!(kind, Kind::File(_)));
        let unread = files.map(|(path, _)| path).filter(|path| !digests.contains_key(*path));
        Self {
            made_for: made_for(source, manifests, &jobs),
            has_earlier_papers: info.all(ISSUED_EARLIER.0).any(|value| value == ISSUED_EARLIER.1),
            redacted: payload.redacted.clone(),
            unread: unread.cloned().collect(),
            closed: source.closed().to_vec(),
            jobs,
            digests,
        }
    }

    /// What is there of a file of the job folder.
    pub(super) fn there(&self, name: &str) -> There {
        match name {
            "findings.yaml" => self.at(SHEET),
            "workshop.yaml" => self.at(PROFILE),
            paper::VISITS => self.at(VISITS),
            _ => self.at(&layout::original(name)),
        }
    }

    fn at(&self, path: &str) -> There {
        match self.digests.get(path) {
            Some((_, sha256)) => There::Is(sha256.clone()),
            // Its digest is still on the list, and that can be compared.
            None if self.redacted.contains_key(path) => There::Is(self.redacted[path].clone()),
            None if self.unread.contains(path) || source::lies_in(&self.closed, path) => {
                There::Unread
            }
            None => There::Not,
        }
    }

    /// True if something below a folder, named with `/` at its end, could not be read.
    pub(super) fn has_unread(&self, folder: &str) -> bool {
        self.unread.iter().chain(&self.closed).any(|path| path.starts_with(folder))
            || source::lies_in(&self.closed, folder.trim_end_matches('/'))
    }

    /// True if photos without metadata are in it.
    pub(super) fn has_copies(&self) -> bool {
        self.digests.keys().any(|path| path.starts_with(COPIES))
    }

    /// True if the bag says which job it is of, and it is another.
    pub(super) fn is_of_other_job(&self, job: &str) -> bool {
        let is_same = |own: &String| {
            let ending = match self.made_for {
                MadeFor::Workshop => None,
                MadeFor::Owner => Some(OWNER),
                MadeFor::Handover => Some(HANDOVER),
            };
            let plain = ending.and_then(|ending| own.strip_suffix(ending));
            own == job || plain == Some(job)
        };
        !self.jobs.is_empty() && !self.jobs.iter().any(is_same)
    }
}

/// Whom a bag was made for. A copy has a sheet and no profile, neither there nor listed: one for the
/// owner has no original either, one for handing over says so in its number.
pub(super) fn made_for(source: &dyn Source, manifests: &[Manifest], jobs: &[String]) -> MadeFor {
    let listed = manifests.iter().flat_map(|manifest| &manifest.listed);
    let mut names = BTreeSet::new();
    names.extend(listed.map(|one| one.path.as_str()));
    names.extend(source.items().keys().map(String::as_str));
    let is_closed = |path: &str| source::lies_in(source.closed(), path);
    let is_copy = names.contains(SHEET) && !names.contains(PROFILE) && !is_closed(PROFILE);
    let has_originals = names.iter().any(|path| path.starts_with(ORIGINALS))
        || is_closed(ORIGINALS.trim_end_matches('/'));
    match is_copy {
        true if jobs.iter().any(|job| job.ends_with(HANDOVER)) => MadeFor::Handover,
        true if !has_originals => MadeFor::Owner,
        _ => MadeFor::Workshop,
    }
}
