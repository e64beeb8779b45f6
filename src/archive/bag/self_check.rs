//! Whether a folder is a whole bag of ours: a folder -> its digest, or what it lacks.
//!
//! For sealing only: strict on the form in which this program writes.
//! Not here: telling a person every difference, signatures, time stamps (verify).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::path::Path;

use chrono::NaiveDate;
use walkdir::WalkDir;

use super::declaration::{self, Encoding};
use super::digests::Algorithm;
use super::info::BagInfo;
use super::manifest::{self, Part};
use crate::archive::layout::{
    DATA, DECLARATION, HOW_TO_CHECK, INFO, MANIFEST, REGISTER_HEAD, TAG_MANIFEST,
};
use crate::archive::problems::Flaw;
use crate::digest::{self, Digest};
use crate::failure::Failure;

/// A bag that was found whole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// SHA-256 of the list of tag files.
    pub digest: Digest,
    /// Until which day it is to be kept, as it says itself.
    pub keep_until: Option<NaiveDate>,
}

/// Reads a bag through.
///
/// # Errors
/// The first thing that it lacks, in words.
pub fn check(bag: &Path) -> Result<Checked, String> {
    let is_folder = fs::symlink_metadata(bag).is_ok_and(|state| state.is_dir());
    if !is_folder {
        return Err("it is not there".to_owned());
    }
    let tag_manifest = text(bag, TAG_MANIFEST)?;
    let tags = listed_in(&tag_manifest, TAG_MANIFEST, Part::Tags)?;
    let names = [INFO, DECLARATION, HOW_TO_CHECK, MANIFEST, REGISTER_HEAD];
    if !tags.keys().eq(names.iter()) {
        return Err(format!("`{TAG_MANIFEST}` does not name the files that it should"));
    }
    if text(bag, DECLARATION)? != declaration::TEXT {
        return Err(format!("`{DECLARATION}` does not say `BagIt` 1.0"));
    }
    let files = listed_in(&text(bag, MANIFEST)?, MANIFEST, Part::Payload)?;
    check_listed(bag, &files)?;
    for (path, sha256) in tags.iter().chain(&files) {
        check_digest(bag, path, sha256)?;
    }
    let (lines, _) = lines(&text(bag, INFO)?, INFO);
    let (info, _) = BagInfo::read(&lines, true);
    let keep_until = info.value("Keep-Until").and_then(|day| day.parse().ok());
    Ok(Checked { digest: Digest::of(tag_manifest.as_bytes()), keep_until })
}

/// True if two files hold the same bytes.
///
/// # Errors
/// One of them cannot be read.
pub fn are_alike(one: &Path, other: &Path) -> Result<bool, Failure> {
    let digest = |path: &Path| {
        let failed = |error| Failure::on("read", path, error);
        let file = File::open(path).map_err(failed)?;
        digest::pass(file, failed, |_| Ok(()))
    };
    Ok(digest(one)? == digest(other)?)
}

/// True if a file holds just these bytes.
pub fn holds(path: &Path, bytes: &[u8]) -> bool {
    fs::read(path).is_ok_and(|own| own == bytes)
}

/// Digests of the payload files by path, as their list has it.
pub fn listed(bag: &Path) -> Option<BTreeMap<String, String>> {
    listed_in(&manifest(bag)?, MANIFEST, Part::Payload).ok()
}

/// How one list differs from another, in words: what was changed, added, left out.
pub fn changes(before: &BTreeMap<String, String>, now: &BTreeMap<String, String>) -> String {
    const SHOWN: usize = 8;
    let short = |path: &String| path.strip_prefix(DATA).unwrap_or(path).escape_debug().to_string();
    let changed = before.iter().filter(|(path, sum)| now.get(*path).is_some_and(|own| own != *sum));
    let added = now.keys().filter(|path| !before.contains_key(*path));
    let left_out = before.keys().filter(|path| !now.contains_key(*path));
    let part = |word: &str, paths: Vec<String>| {
        let named: Vec<String> = paths.iter().take(SHOWN).map(|path| format!("`{path}`")).collect();
        let more = paths.len().saturating_sub(SHOWN);
        let more = if more == 0 { String::new() } else { format!(" and {more} more") };
        (!paths.is_empty()).then(|| format!("{word} {}{more}", named.join(", ")))
    };
    let parts = [
        part("changed:", changed.map(|(path, _)| short(path)).collect()),
        part("added:", added.map(short).collect()),
        part("left out:", left_out.map(short).collect()),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() { "no file differs".to_owned() } else { parts.join("; ") }
}

/// The list of payload files as it is, unread if it cannot be read.
pub fn manifest(bag: &Path) -> Option<String> {
    text(bag, MANIFEST).ok()
}

/// What a bag holds of the register before it, as it is written there.
pub fn history(bag: &Path) -> Option<Vec<u8>> {
    text(bag, REGISTER_HEAD).ok().map(String::into_bytes)
}

fn text(bag: &Path, name: &str) -> Result<String, String> {
    let path = bag.join(name);
    if !fs::symlink_metadata(&path).is_ok_and(|state| state.is_file()) {
        return Err(format!("`{name}` is missing"));
    }
    fs::read_to_string(path).map_err(|error| format!("could not read `{name}`: {error}"))
}

fn lines(text: &str, name: &str) -> (Vec<String>, Vec<Flaw>) {
    declaration::lines(name, text.as_bytes(), Encoding::Utf8, true)
}

/// Path -> digest of the lines of a manifest.
fn listed_in(text: &str, name: &str, part: Part) -> Result<BTreeMap<String, String>, String> {
    let (lines, mut flaws) = lines(text, name);
    let (manifest, more) = manifest::read(name, Algorithm::Sha256, part, &lines, true);
    flaws.extend(more);
    match flaws.first() {
        Some(flaw) => Err(format!("`{name}`: {}", flaw.message)),
        None => Ok(manifest.listed.into_iter().map(|one| (one.path, one.digest)).collect()),
    }
}

/// Holds the files below `data/` against the manifest; links and the like are none.
fn check_listed(bag: &Path, listed: &BTreeMap<String, String>) -> Result<(), String> {
    let mut found = 0;
    for entry in WalkDir::new(bag.join(DATA)).follow_links(false) {
        let entry = entry.map_err(|error| format!("could not read `data`: {error}"))?;
        if entry.file_type().is_dir() {
            continue;
        }
        let below = entry.path().strip_prefix(bag).ok();
        let steps: Option<Vec<&str>> =
            below.and_then(|path| path.iter().map(|step| step.to_str()).collect());
        let path = steps.map(|steps| steps.join("/")).unwrap_or_default();
        if !entry.file_type().is_file() || !listed.contains_key(&path) {
            let shown = entry.path().display().to_string();
            return Err(format!("`{}` does not belong to it", shown.escape_debug()));
        }
        found += 1;
    }
    if found == listed.len() { Ok(()) } else { Err("files of its manifest are missing".to_owned()) }
}

fn check_digest(bag: &Path, path: &str, sha256: &str) -> Result<(), String> {
    let shown = path.escape_debug();
    let failed = |error| format!("could not read `{shown}`: {error}");
    let file = File::open(bag.join(path)).map_err(failed)?;
    let passed = digest::pass(file, failed, |_| Ok(()))?;
    if passed.sha256 == sha256 { Ok(()) } else { Err(format!("`{shown}` was changed")) }
}
