//! Questions to an archive: its head, what may go, which bag a paper belongs to. Only answers.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeSet;
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use chrono::NaiveDate;

use super::bag_contents::MadeFor;
use super::source::tar::Tar;
use super::source::{Folder, Source};
use super::{bag_contents, papers_in_bag, places, register_above};
use crate::archive::bag::names;
use crate::archive::layout::{self, Part};
use crate::archive::register::entry::{Entry, Event, NO_LINE};
use crate::digest::Digest;
use crate::failure::Failure;

/// Fewest digits by which something is looked up.
const MIN_DIGITS: usize = 8;
/// Digits of a whole digest.
const DIGITS: usize = 64;

/// The end of a register, to be noted elsewhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// How many lines there are.
    pub lines: u64,
    /// SHA-256 of the last one, 64 digits; zeros if there is none.
    pub digest: String,
}

/// A bag that need not be kept any longer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// Its path below the archive, with `/`.
    pub bag: String,
    /// The last day that it had to be kept.
    pub keep_until: NaiveDate,
}

/// A paper that was looked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// Path of the bag or tar below the archive, with `/`.
    pub bag: String,
    /// Path of the paper in it.
    pub paper: String,
    /// The whole digest of the manifest that the paper carries.
    pub digest: String,
}

/// The register's head.
///
/// # Errors
/// There is no register, or it cannot be read or has flaws: such a head is not worth noting.
pub fn head(archive: &Path) -> Result<Head, Failure> {
    let register = register_above::register(archive)?;
    if let Some(flaw) = register.flaws.first() {
        return Err(Failure::on("read the head of the register of", archive, flaw)
            .hint("`verify` without `--head` says more"));
    }
    let digest = register.head().map_or_else(|| NO_LINE.to_owned(), |head| head.hex());
    Ok(Head { lines: register.whole_lines, digest })
}

/// The bags whose last day has passed on `today` and that are still there, by day and path. Nothing
/// is taken away.
///
/// # Errors
/// The register or the place of a bag cannot be read.
pub fn due(archive: &Path, today: NaiveDate) -> Result<Vec<Due>, Failure> {
    let register = register_above::register(archive)?;
    let mut due = Vec::new();
    for entry in register.entries.into_iter().filter(|entry| entry.event == Event::Sealed) {
        let keep_until = entry.keep_until.as_ref().and_then(|day| day.parse().ok());
        let Some(keep_until) = keep_until.filter(|day| *day < today) else { continue };
        if is_kept(archive, &entry)? {
            due.push(Due { bag: entry.bag, keep_until });
        }
    }
    due.sort_by(|a, b| (a.keep_until, &a.bag).cmp(&(b.keep_until, &b.bag)));
    Ok(due)
}

/// True if the bag of a line is still there, as folder or tar. A line that leads elsewhere than
/// to its bag's place is never followed.
fn is_kept(archive: &Path, entry: &Entry) -> Result<bool, Failure> {
    let Entry { job, version, bag, .. } = entry;
    if names::check_job(job).is_err() || *bag != layout::bag_path(job, *version) {
        return Ok(false);
    }
    for path in [archive.join(bag), archive.join(layout::tar_of(bag))] {
        match path.symlink_metadata() {
            Ok(_) => return Ok(true),
            Err(error)
                if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => {}
            Err(error) => return Err(Failure::on("look for", &path, error)),
        }
    }
    Ok(false)
}

/// The papers whose material has this digest, as printed on paper or read from its QR code: at
/// least 8 hexadecimal digits, in groups or not.
///
/// # Errors
/// The digits are too few or none, or the archive cannot be read.
pub fn find(archive: &Path, digest: &str) -> Result<Vec<Found>, Failure> {
    let (hits, unread) = hits(archive, digest)?;
    match unread.into_iter().next() {
        Some(failure) if hits.is_empty() => Err(failure),
        _ => Ok(hits.into_iter().map(|hit| hit.found).collect()),
    }
}

/// A paper that was found, with what separates its bags.
#[derive(Debug)]
pub(super) struct Hit {
    /// Where it is.
    pub found: Found,
    /// SHA-256 of the paper itself.
    pub sha256: Digest,
    /// True if its bag is a copy for the owner or for handing over.
    pub is_owners: bool,
}

/// The papers of a digest, by job and version, and those that could not be read.
///
/// # Errors
/// The digits are too few or none, or the archive cannot be read.
pub(super) fn hits(archive: &Path, digest: &str) -> Result<(Vec<Hit>, Vec<Failure>), Failure> {
    let mut search = Search { wanted: digits(digest)?, hits: Vec::new(), unread: Vec::new() };
    for job in jobs(archive)? {
        let parts = places::parts(&archive.join(&job), &job)?;
        let mut in_order: Vec<(&String, &Part)> = parts.iter().collect();
        in_order.sort_by_key(|(_, part)| part.version());
        for (name, part) in in_order {
            let path = archive.join(&job).join(name);
            let bag = format!("{job}/{name}");
            match part {
                Part::Bag(_) => {
                    let folder = Folder::list(&path)?;
                    search.unread.extend_from_slice(folder.failures());
                    search.look_in(&folder, &bag);
                }
                Part::Tar(version) if !parts.contains_key(&layout::bag_name(&job, *version)) => {
                    search.look_in(&Tar::list(&path)?, &bag);
                }
                _ => {}
            }
        }
    }
    Ok((search.hits, search.unread))
}

/// Path below the archive of the newest bag or tar of a job, if there is one.
///
/// # Errors
/// The job's folder cannot be read.
pub(super) fn newest_bag(archive: &Path, job: &str) -> Result<Option<String>, Failure> {
    let folder = archive.join(job);
    if names::check_job(job).is_err() || folder.symlink_metadata().is_err() {
        return Ok(None);
    }
    let parts = places::parts(&folder, job)?;
    let bags = parts.iter().filter(|(_, part)| matches!(part, Part::Bag(_) | Part::Tar(_)));
    let newest = bags.max_by_key(|(_, part)| part.version());
    Ok(newest.map(|(name, _)| format!("{job}/{name}")))
}

/// A search for papers.
struct Search {
    wanted: String,
    hits: Vec<Hit>,
    unread: Vec<Failure>,
}

impl Search {
    fn look_in(&mut self, source: &dyn Source, bag: &str) {
        let job = bag.split('/').next().unwrap_or_default().to_owned();
        let made_for = bag_contents::made_for(source, &[], &[job]);
        let is_owners = made_for != MadeFor::Workshop;
        for paper in papers_in_bag::papers(source) {
            match papers_in_bag::carried(source, paper) {
                Ok(Ok(own)) if own.carried.digest.hex().starts_with(&self.wanted) => {
                    let (digest, sha256) = (own.carried.digest.hex(), own.sha256);
                    let found = Found { bag: bag.to_owned(), paper: paper.to_owned(), digest };
                    self.hits.push(Hit { found, sha256, is_owners });
                }
                // A paper of another form is reported when its bag is verified.
                Ok(_) => {}
                Err(failure) => self.unread.push(failure),
            }
        }
    }
}

/// Folders of an archive that may be jobs, sorted.
fn jobs(archive: &Path) -> Result<BTreeSet<String>, Failure> {
    let failed = |error| Failure::on("look into", archive, error);
    let mut jobs = BTreeSet::new();
    for entry in fs::read_dir(archive).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        let is_folder = entry.file_type().map_err(failed)?.is_dir();
        if let Ok(name) = entry.file_name().into_string()
            && is_folder
            && names::check_job(&name).is_ok()
        {
            jobs.insert(name);
        }
    }
    Ok(jobs)
}

/// The digits of a digest as somebody typed it, or the text of a QR code.
///
/// # Errors
/// There are fewer than 8 or more than 64, or other signs among them.
pub(super) fn digits(typed: &str) -> Result<String, Failure> {
    let mut words: Vec<&str> = typed.split_whitespace().collect();
    // The text of a QR code says what it is; the digest is its last word.
    if words.first() == Some(&"splitcase") {
        words.drain(..words.len() - 1);
    }
    let digits = words.concat().to_ascii_lowercase();
    let is_digest = (MIN_DIGITS..=DIGITS).contains(&digits.len())
        && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
    if is_digest {
        return Ok(digits);
    }
    let action = format!("look for {:?}", names::shown(typed));
    Err(Failure::new(action, "a digest is given by 8 to 64 hexadecimal digits")
        .hint("spaces between groups do no harm: `1a2b 3c4d 5e6f`"))
}
