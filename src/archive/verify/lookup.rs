//! Questions to an archive: its head, what may go, which bag a paper belongs to. Only answers.

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use chrono::NaiveDate;

use super::folder::Folder;
use super::holder::Holder;
use super::job_folder::{self, Part};
use super::tar::Tar;
use super::{chain, paper_check};
use crate::archive::entry::{Event, NO_LINE};
use crate::archive::names;
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
    /// SHA-256 of the last one, 64 digits; zeros where there is none.
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
    let register = chain::register(archive)?;
    if let Some(flaw) = register.flaws.first() {
        return Err(Failure::on("tell the head of the register of", archive, flaw)
            .hint("`verify` without `--head` says more"));
    }
    let digest = register.head().map_or_else(|| NO_LINE.to_owned(), |head| head.hex());
    Ok(Head { lines: register.whole_lines, digest })
}

/// The bags whose last day has passed on `today`, by day and path. Nothing is taken away.
///
/// # Errors
/// The register cannot be read.
pub fn due(archive: &Path, today: NaiveDate) -> Result<Vec<Due>, Failure> {
    let register = chain::register(archive)?;
    let sealed = register.entries.into_iter().filter(|entry| entry.event == Event::Sealed);
    let mut due: Vec<Due> = sealed
        .filter_map(|entry| {
            let keep_until = entry.keep_until?.parse().ok()?;
            (keep_until < today).then_some(Due { bag: entry.bag, keep_until })
        })
        .collect();
    due.sort_by(|a, b| (a.keep_until, &a.bag).cmp(&(b.keep_until, &b.bag)));
    Ok(due)
}

/// The papers whose material has this digest, as printed on paper or read from its QR code: at
/// least 8 hexadecimal digits, in groups or not.
///
/// # Errors
/// The digits are too few or none, or the archive cannot be read.
pub fn find(archive: &Path, digest: &str) -> Result<Vec<Found>, Failure> {
    let wanted = digits(digest)?;
    let mut found = Vec::new();
    for job in jobs(archive)? {
        let parts = job_folder::list(&archive.join(&job), &job)?;
        for (name, part) in &parts {
            let path = archive.join(&job).join(name);
            let bag = format!("{job}/{name}");
            match part {
                Part::Bag(_) => search(&Folder::list(&path)?, &bag, &wanted, &mut found),
                Part::Tar(version) if !parts.contains_key(&format!("{job}-v{version}")) => {
                    search(&Tar::list(&path)?, &bag, &wanted, &mut found);
                }
                _ => {}
            }
        }
    }
    Ok(found)
}

fn search(holder: &dyn Holder, bag: &str, wanted: &str, found: &mut Vec<Found>) {
    for paper in paper_check::papers(holder) {
        // A paper that cannot be read is told of when its bag is verified.
        let Ok(Ok(carried)) = paper_check::carried(holder, paper) else { continue };
        let digest = carried.digest.hex();
        if digest.starts_with(wanted) {
            found.push(Found { bag: bag.to_owned(), paper: paper.to_owned(), digest });
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
    if words.first() == Some(&"splitcase") && words.len() == 3 {
        words.drain(..2);
    }
    let digits = words.concat().to_ascii_lowercase();
    let is_digest = (MIN_DIGITS..=DIGITS).contains(&digits.len())
        && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
    if is_digest {
        return Ok(digits);
    }
    let action = format!("look for {:?}", super::names::shown(typed));
    Err(Failure::new(action, "a digest is given by 8 to 64 hexadecimal digits")
        .hint("spaces between groups do no harm: `1a2b 3c4d 5e6f`"))
}
