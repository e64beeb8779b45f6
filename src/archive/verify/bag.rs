//! One bag (RFC 8493), whatever holds it: a source -> a judgement, and what the register must know.
//!
//! Not here: the register (chain), the reading of single files (declaration, manifest, …).

use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};

use super::bag_contents::Contents;
use super::judgement::{Against, Judgement};
use super::payload::Compared;
use super::register_above::{self, Redacted};
use super::source::tar::Tar;
use super::source::{Folder, Kind, Source};
use super::{papers_in_bag, payload, source, trust, words};
use crate::archive::bag::declaration::Declaration;
use crate::archive::bag::digests::Algorithm;
use crate::archive::bag::info::BagInfo;
use crate::archive::bag::manifest::{Manifest, Part};
use crate::archive::bag::{declaration, digests, manifest, names};
use crate::archive::layout::{DECLARATION, FETCH, INFO, REGISTER_HEAD, TAG_MANIFEST};
use crate::archive::problems::{self, could_not};
use crate::archive::register::head::{self, History};
use crate::digest::Digest;
use crate::failure::Failure;

/// Longest manifest or list in bytes: some 300 000 files.
const MAX_LIST: u64 = 32 << 20;
/// Longest `bag-info.txt` in bytes.
const MAX_INFO: u64 = 1 << 20;

/// Most pairs of names that are reported.
const MAX_CLASHES: usize = 8;

/// A judged bag.
#[derive(Debug, Default)]
pub(super) struct Bag {
    /// What was found; places are below the bag.
    pub judgement: Judgement,
    /// How many of its payload files are as sealed.
    pub files: usize,
    /// What papers are held against.
    pub contents: Contents,
    /// Digest of its tag manifest, if it has one.
    pub seal: Option<Digest>,
    /// What it says of itself.
    pub info: BagInfo,
    /// What it holds of the register before it.
    pub history: Option<History>,
    /// The time of a sound stamp beside it.
    pub stamped: Option<DateTime<Utc>>,
}

impl Bag {
    fn failed(failure: Failure) -> Self {
        let judgement = Judgement { could_not: vec![failure], ..Judgement::default() };
        Self { judgement, info: BagInfo::unread(), ..Self::default() }
    }
}

/// How a bag is asked about.
#[derive(Clone, Copy, Debug)]
pub(super) enum Asked<'a> {
    /// By itself.
    Alone,
    /// As part of an archive, whose register says what was taken out of it. Nothing may be in it that
    /// was not sealed.
    InArchive(&'a Redacted),
}

/// Judges a bag's folder.
pub(super) fn folder(path: &Path, against: &Against<'_>, asked: Asked<'_>) -> Bag {
    match Folder::list(path) {
        Ok(folder) => {
            let mut bag = judge(&folder, against, asked, stamp_beside(path).as_deref());
            bag.judgement.could_not.extend_from_slice(folder.failures());
            bag
        }
        Err(failure) => Bag::failed(failure),
    }
}

/// Judges a bag as tar.
pub(super) fn tar(path: &Path, against: &Against<'_>, asked: Asked<'_>) -> Bag {
    match Tar::list(path) {
        Ok(tar) => {
            let bag = path.with_extension("");
            judge(&tar, against, asked, stamp_beside(&bag).as_deref())
        }
        Err(failure) => Bag::failed(failure),
    }
}

/// The reply of a time-stamp authority beside a bag, if there is one.
fn stamp_beside(bag: &Path) -> Option<PathBuf> {
    let mut name = bag.file_name()?.to_owned();
    name.push(".tsr");
    let path = bag.with_file_name(name);
    let state = path.symlink_metadata();
    (!state.is_err_and(|error| error.kind() == ErrorKind::NotFound)).then_some(path)
}

/// Judges what a source holds.
fn judge(
    source: &dyn Source,
    against: &Against<'_>,
    asked: Asked<'_>,
    stamp: Option<&Path>,
) -> Bag {
    let is_in_archive = matches!(asked, Asked::InArchive(_));
    let redacted = match asked {
        Asked::Alone => register_above::redacted_of(source.path()),
        Asked::InArchive(redacted) => redacted.clone(),
    };
    let mut found = Judgement::default();
    found.flaws.extend_from_slice(source.flaws());
    let declared = declared(source, &mut found);
    let reader = Reader { source, declared: &declared };
    let payload_manifests = reader.manifests(Part::Payload, &mut found);
    let tag_manifests = reader.manifests(Part::Tags, &mut found);
    let info = reader.info(&mut found);
    let fetched = reader.fetched(&payload_manifests, &mut found);

    let none = Redacted::new();
    let tags = payload::compare(source, Part::Tags, &tag_manifests, &BTreeMap::new(), &none);
    let mut payload =
        payload::compare(source, Part::Payload, &payload_manifests, &fetched, &redacted);
    if source.closed().is_empty() {
        let taken_out = payload.redacted.len();
        check_data(source, &info, &payload_manifests, taken_out, &mut found);
    }
    if payload_manifests.is_empty() && reader.has_manifest(Part::Payload) {
        // The only list could not be read: what it names is not known, so nothing is too much.
        payload.flaws.clear();
    }
    report_payload(&payload, &payload_manifests, &mut found);
    let is_ours = is_in_archive
        || info.value("Bag-Software-Agent").is_some_and(|agent| agent.starts_with("splitcase"));
    if !tag_manifests.is_empty() || !reader.has_manifest(Part::Tags) {
        report_tags(&tags, &tag_manifests, is_ours, &mut found);
    }
    let files = payload.good;
    let contents = Contents::of(source, &payload, &payload_manifests, &info);
    for part in [payload, tags] {
        found.flaws.extend(part.flaws);
        found.could_not.extend(part.could_not);
        found.not_shown.extend(part.remarks);
    }
    found.join(papers_in_bag::papers_of(source, &contents, against));
    let has_seal = source::has_file(source, TAG_MANIFEST);
    // Why it cannot be read was reported with the other manifests.
    let sealed = has_seal.then(|| source::read(source, TAG_MANIFEST, MAX_LIST).ok()).flatten();
    if is_in_archive && !has_seal {
        found.flaws.push(problems::no_tag_manifest());
    }
    let mut stamped = None;
    if sealed.is_some() || !has_seal {
        let bagging = info.value("Bagging-Date");
        let asked = trust::witnesses(source, sealed.as_deref(), stamp, bagging, against);
        found.join(asked.judgement);
        stamped = asked.stamped;
    }
    report_names(source, &mut found);
    let seal = sealed.map(|bytes| Digest::of(&bytes));
    let history = source::has_file(source, REGISTER_HEAD)
        .then(|| source::read(source, REGISTER_HEAD, head::MAX_BYTES).ok())
        .flatten()
        .and_then(|text| History::read(&text));
    Bag { judgement: found, files, contents, seal, info, history, stamped }
}

fn declared(source: &dyn Source, found: &mut Judgement) -> Declaration {
    if !source::has_file(source, DECLARATION) {
        found.flaws.push(problems::no_declaration());
        return Declaration::default();
    }
    match source::read(source, DECLARATION, declaration::MAX_BYTES) {
        Ok(bytes) => {
            let (declared, flaws) = declaration::read(&bytes);
            found.flaws.extend(flaws);
            if declared.encoding.is_none() {
                let name = &declared.encoding_name;
                found.could_not.push(could_not::unknown_encoding(source.path(), name));
            }
            declared
        }
        Err(failure) => {
            found.could_not.push(failure);
            Declaration::default()
        }
    }
}

/// Reads the tag files of a bag by what it declares.
struct Reader<'a> {
    source: &'a dyn Source,
    declared: &'a Declaration,
}

impl Reader<'_> {
    /// The lines of a tag file; nothing if it is not there or cannot be read.
    fn lines(&self, file: &str, most: u64, found: &mut Judgement) -> Option<Vec<String>> {
        // In an encoding that is not known, what is plain ASCII can still be read.
        let encoding = self.declared.encoding.unwrap_or_default();
        if !source::has_file(self.source, file) {
            return None;
        }
        match source::read(self.source, file, most) {
            Ok(bytes) => {
                let needs_end = self.declared.is_strict;
                let (lines, flaws) = declaration::lines(file, &bytes, encoding, needs_end);
                found.flaws.extend(flaws);
                Some(lines)
            }
            Err(failure) => {
                found.could_not.push(failure);
                None
            }
        }
    }

    fn manifests(&self, part: Part, found: &mut Judgement) -> Vec<Manifest> {
        let mut manifests = Vec::new();
        for file in self.source.items().keys() {
            let Some(name) = part.algorithm_of(file) else { continue };
            let Some(algorithm) = Algorithm::by_name(name) else {
                let path = self.source.path().join(file);
                found.could_not.push(could_not::unknown_algorithm(&path, name));
                continue;
            };
            let Some(lines) = self.lines(file, MAX_LIST, found) else { continue };
            let is_strict = self.declared.is_strict;
            let (manifest, flaws) = manifest::read(file, algorithm, part, &lines, is_strict);
            if lines.is_empty() {
                found.flaws.push(problems::empty_manifest(file));
            }
            found.flaws.extend(flaws);
            manifests.push(manifest);
        }
        if part == Part::Payload && !self.has_manifest(part) {
            found.flaws.push(problems::no_manifest());
        }
        manifests
    }

    /// True if a manifest of a part is there, whether it could be read or not.
    fn has_manifest(&self, part: Part) -> bool {
        self.source.items().keys().any(|file| part.algorithm_of(file).is_some())
    }

    fn info(&self, found: &mut Judgement) -> BagInfo {
        let lines = self.lines(INFO, MAX_INFO, found);
        let is_unread = lines.is_none() && source::has_file(self.source, INFO);
        let lines = lines.unwrap_or_default();
        let (mut info, flaws) = BagInfo::read(&lines, self.declared.is_strict);
        info.is_unread = is_unread;
        found.flaws.extend(flaws);
        info
    }

    fn fetched(&self, manifests: &[Manifest], found: &mut Judgement) -> BTreeMap<String, String> {
        let lines = self.lines(FETCH, MAX_LIST, found).unwrap_or_default();
        let (fetched, flaws) = manifest::read_fetch(&lines, manifests, self.declared.is_strict);
        found.flaws.extend(flaws);
        fetched
    }
}

/// The folder `data/`, and its count in `bag-info.txt`.
fn check_data(
    source: &dyn Source,
    info: &BagInfo,
    manifests: &[Manifest],
    taken_out: usize,
    found: &mut Judgement,
) {
    let is_file = |(path, kind): &(&String, &Kind)| {
        matches!(kind, Kind::File(_)) && Part::Payload.holds(path)
    };
    let (mut files, mut bytes) = (0, 0_u64);
    for (_, kind) in source.items().iter().filter(is_file) {
        let Kind::File(length) = kind else { continue };
        files += 1;
        bytes = bytes.saturating_add(*length);
    }
    let has_folder = source.items().get("data") == Some(&Kind::Folder) || files > 0;
    if !has_folder {
        found.flaws.push(problems::no_data());
    }
    // Without a file the counts only repeat that all are missing.
    if has_folder || manifests.is_empty() {
        found.flaws.extend(info.check_oxum(bytes, files, taken_out));
    }
}

fn report_payload(payload: &Compared, manifests: &[Manifest], found: &mut Judgement) {
    let mut algorithms: Vec<Algorithm> = manifests.iter().map(|one| one.algorithm).collect();
    algorithms.sort_unstable();
    let names = digests::list(&algorithms);
    let is_whole = payload.good == payload.listed && payload.flaws.is_empty();
    if payload.good > 0 {
        found.shown.push(match is_whole {
            true => words::whole(payload.good, &names),
            false => words::partly(payload.good, payload.listed, &names),
        });
        if !algorithms.iter().any(|one| one.is_strong()) {
            found.not_shown.push(words::weak(&names));
        }
    }
}

fn report_tags(tags: &Compared, manifests: &[Manifest], is_ours: bool, found: &mut Judgement) {
    let is_beside = |path: &&str| trust::BESIDE.contains(path);
    if manifests.is_empty() {
        found.not_shown.push(words::no_tag_manifest());
        return;
    }
    if tags.good > 0 && tags.good == tags.listed && tags.flaws.is_empty() {
        found.shown.push(words::tags(tags.good));
    }
    let unlisted: Vec<&str> =
        tags.unlisted.iter().map(String::as_str).filter(|path| !is_beside(path)).collect();
    if is_ours {
        found.flaws.extend(unlisted.iter().map(|path| problems::added(path)));
    } else if !unlisted.is_empty() {
        found.not_shown.push(words::unlisted(&unlisted));
    }
}

/// True for a name that the list writes with percent codes (RFC 8493, 2.1.3), which the usual tools
/// do not take out.
fn is_odd(path: &str) -> bool {
    path.contains(['%', '\r', '\n'])
}

/// What names alone can bring about: clashes on other disks, folders that no manifest can hold.
fn report_names(source: &dyn Source, found: &mut Judgement) {
    let items = source.items();
    let odd: Vec<&str> = items.keys().map(String::as_str).filter(|path| is_odd(path)).collect();
    if !odd.is_empty() {
        found.not_shown.push(words::names_for_tools(&odd));
    }
    let clashes = names::clashes(items.keys().map(String::as_str), MAX_CLASHES);
    found.not_shown.extend(clashes.iter().map(|(one, other)| words::clash(one, other)));
    let is_empty = |path: &str| {
        let inside = format!("{path}/");
        let next = items.range(inside.clone()..).next();
        !next.is_some_and(|(next, _)| next.starts_with(&inside))
    };
    let empty: Vec<&str> = items
        .iter()
        .filter(|(path, kind)| **kind == Kind::Folder && path.as_str() != "data")
        .filter(|(path, _)| is_empty(path) && !source::lies_in(source.closed(), path))
        .map(|(path, _)| path.as_str())
        .collect();
    if !empty.is_empty() {
        found.not_shown.push(words::empty_folders(&empty));
    }
}
