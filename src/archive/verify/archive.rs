//! A whole archive: its register, each bag that the register names, and whatever else is there.
//!
//! Not here: reading the register's lines (`archive::register`), judging one bag (bag).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::collections::{BTreeMap, BTreeSet};
use std::io::ErrorKind;
use std::path::Path;

use chrono::NaiveDate;

use super::bag::{self, Asked, Bag};
use super::heads::{self, Heads};
use super::judgement::{Against, Judgement};
use super::register_above::{self, Redacted, redacted_file};
use super::summary::Summary;
use super::words;
use super::words::vouchers::Voucher;
use super::{places, queries, source, times};
use crate::archive::bag::names;
use crate::archive::layout::{self, Part, REGISTER};
use crate::archive::problems::{self, Flaw, could_not};
use crate::archive::register::entry::{Entry, Event};
use crate::archive::register::read::{self, Register};
use crate::digest::Digest;

/// Fewest digits of a noted head: with fewer, a register with the same ones can be looked for.
const MIN_HEAD: usize = 32;
/// Most flaws that are collected of a register.
const MAX_FLAWS: usize = 1000;
/// Longest reply of a time-stamp authority in bytes.
const MAX_STAMP: u64 = 1 << 20;

/// Judges an archive.
pub(super) fn judge(archive: &Path, against: &Against<'_>) -> Judgement {
    let mut found = Judgement::default();
    let register = match register_above::register(archive) {
        Ok(register) => register,
        Err(failure) => {
            let state = archive.join(REGISTER).symlink_metadata();
            match state.is_err_and(|error| error.kind() == ErrorKind::NotFound) {
                true => found.flaws.push(problems::no_register()),
                false => found.could_not.push(failure),
            }
            Register::default()
        }
    };
    let (is_read, is_missing) = (found.could_not.is_empty(), !found.flaws.is_empty());
    check_register(&register, against, &mut found);
    if let Some(head) = against.head {
        check_head(&register, head, &mut found);
    } else if register.head().is_some() {
        found.not_shown.push(words::head_not_noted());
    }
    let mut lines = Lines::of(&register, against, &mut found);
    lines.is_read = is_read;
    let mut summary = Summary::default();
    let mut seen = BTreeSet::new();
    let mut closed = Vec::new();
    let top = places::top(archive, &mut closed, &mut found);
    let heads = heads::judge(archive, &top.heads, &register, against);
    for job in top.jobs {
        match places::parts(&archive.join(&job), &job) {
            Ok(parts) => {
                let folder = JobFolder {
                    archive,
                    job: &job,
                    parts: &parts,
                    lines: &lines,
                    heads: &heads,
                    against,
                };
                folder.judge(&mut summary, &mut seen, &mut found);
            }
            Err(failure) => {
                found.could_not.push(failure);
                closed.push(job);
            }
        }
    }
    let unseen = lines.sealed.iter().filter(|(path, _)| !seen.contains(**path));
    for (path, entry) in unseen.filter(|(path, _)| !source::lies_in(&closed, path)) {
        match lines.released(path) {
            _ if lines.erased.contains_key(path) => {
                let erased = lines.erased[path];
                let because = erased.because.as_deref().unwrap_or_default();
                found.not_shown.push(words::bag_erased(entry.line, erased.line, because));
            }
            Some(day) => found.not_shown.push(words::bag_gone(entry.line, day)),
            None if found.flaws.len() > MAX_FLAWS => {}
            None => found.flaws.push(problems::bag_missing(path, entry.line)),
        }
    }
    if lines.is_read && !is_missing && lines.sealed.is_empty() && seen.is_empty() {
        found.could_not.push(could_not::nothing_sealed(archive));
    }
    found.join(heads.judgement);
    let said = summary.statements(lines.sealed.len() - lines.erased.len());
    found.shown.splice(0..0, said.shown);
    found.not_shown.splice(0..0, said.not_shown);
    found.vouchers.splice(0..0, said.vouchers);
    found
}

fn check_register(register: &Register, against: &Against<'_>, found: &mut Judgement) {
    found.flaws.extend(times::of_register(register, against.now));
    for flaw in &register.flaws {
        found.flaws.push(match flaw {
            read::Flaw::Torn { .. } => problems::torn(flaw.to_string()),
            _ => problems::register(flaw.to_string()),
        });
    }
    if let (Some(head), true) = (register.head(), register.flaws.is_empty()) {
        found.shown.push(words::chained(register.whole_lines, &head.hex()));
    }
}

/// Whether a head that was noted earlier is in the chain.
fn check_head(register: &Register, noted: &str, found: &mut Judgement) {
    let noted = match queries::digits(noted) {
        Ok(noted) if noted.len() < MIN_HEAD => {
            return found.could_not.push(could_not::short_head(&noted, MIN_HEAD));
        }
        Ok(noted) => noted,
        Err(failure) => return found.could_not.push(failure),
    };
    // The digest of each line is in the next one; that of the last is the head.
    let following = register.entries.iter().skip(1).map(|entry| entry.previous.clone());
    let digests = following.chain(register.head().map(|head| head.hex()));
    let at = digests.zip(1..).find(|(digest, _)| digest.starts_with(&noted)).map(|(_, line)| line);
    match at {
        // Up to the line after it, which holds its digest, nothing may be wrong.
        Some(line) if register.flaws.iter().all(|flaw| flaw.line() > line + 1) => {
            found.shown.push(words::head_found(line, register.whole_lines));
            found.vouchers.push(Voucher::head(line, register.whole_lines));
        }
        _ => found.flaws.push(problems::head_unknown(&noted)),
    }
}

/// What the register says of each path.
struct Lines<'a> {
    sealed: BTreeMap<&'a str, &'a Entry>,
    stamped: BTreeMap<&'a str, &'a Entry>,
    erased: BTreeMap<&'a str, &'a Entry>,
    redacted: BTreeMap<String, Redacted>,
    register: &'a Register,
    /// Day of the latest line, or of the reader's clock if that is earlier.
    latest: Option<NaiveDate>,
    /// False if the register is there and could not be read: then it accuses nothing.
    is_read: bool,
}

impl<'a> Lines<'a> {
    fn of(register: &'a Register, against: &Against<'_>, found: &mut Judgement) -> Self {
        let times = register.entries.iter().filter_map(|entry| times::parse(&entry.time));
        let latest = times.max().map(|time| time.date_naive());
        // A line from the future releases nothing.
        let latest = latest.min(against.now.map(|now| now.date_naive()));
        let mut lines = Self {
            sealed: BTreeMap::new(),
            stamped: BTreeMap::new(),
            erased: BTreeMap::new(),
            redacted: register_above::redacted(register),
            register,
            latest,
            is_read: true,
        };
        for entry in &register.entries {
            if found.flaws.len() > MAX_FLAWS {
                break;
            }
            let Entry { line, job, version, bag: path, .. } = entry;
            let bag = layout::bag_path(job, *version);
            let is_safe = names::check_job(job).is_ok();
            match entry.event {
                Event::Sealed if !is_safe || *path != bag => {
                    found.flaws.push(problems::register_path(*line, path));
                }
                Event::Sealed => {
                    if lines.sealed.insert(path, entry).is_some() {
                        found.flaws.push(problems::registered_twice(*line, path));
                    }
                }
                Event::Erased => match lines.sealed.get(path.as_str()) {
                    Some(sealed) if *path == bag && sealed.sha256 == entry.sha256 => {
                        lines.erased.insert(path, entry);
                    }
                    _ => found.flaws.push(problems::erased_unsealed(*line, path)),
                },
                Event::Redacted => match redacted_file(entry) {
                    Some((bag, _)) if lines.sealed.contains_key(bag.as_str()) => {}
                    _ => found.flaws.push(problems::register_path(*line, path)),
                },
                Event::Stamped if !is_safe || *path != layout::stamp_of(&bag) => {
                    found.flaws.push(problems::register_path(*line, path));
                }
                Event::Stamped => {
                    if !lines.sealed.contains_key(bag.as_str()) {
                        found.flaws.push(problems::stamped_unsealed(*line, path));
                    }
                    lines.stamped.insert(path, entry);
                }
            }
        }
        lines
    }

    /// The last day of a bag, if it had passed before the register's latest line was written.
    fn released(&self, bag: &str) -> Option<NaiveDate> {
        let day = self.sealed.get(bag)?.keep_until.as_ref()?.parse().ok()?;
        (day < self.latest?).then_some(day)
    }
}

/// The folder of one job, beside what the register says.
struct JobFolder<'a> {
    archive: &'a Path,
    job: &'a str,
    parts: &'a BTreeMap<String, Part>,
    lines: &'a Lines<'a>,
    heads: &'a Heads,
    against: &'a Against<'a>,
}

impl JobFolder<'_> {
    fn judge(&self, summary: &mut Summary, seen: &mut BTreeSet<String>, found: &mut Judgement) {
        let none = Redacted::new();
        let asked = |bag: &str| Asked::InArchive(self.lines.redacted.get(bag).unwrap_or(&none));
        for (name, part) in self.parts {
            let below = format!("{}/{name}", self.job);
            let path = self.archive.join(self.job).join(name);
            match part {
                Part::Bag(_) => {
                    let bag = bag::folder(&path, self.against, asked(&below));
                    self.judge_bag(&below, &below, bag, summary, found);
                    seen.insert(below);
                }
                Part::Tar(version) => {
                    let folder = layout::bag_path(self.job, *version);
                    let is_alone = !self.parts.contains_key(&layout::bag_name(self.job, *version));
                    let bag = bag::tar(&path, self.against, asked(&folder));
                    if is_alone {
                        found.not_shown.push(words::tar_alone(&below));
                        self.judge_bag(&folder, &below, bag, summary, found);
                    } else {
                        // The bag is counted by its folder.
                        self.judge_bag(&folder, &below, bag, &mut Summary::default(), found);
                    }
                    seen.insert(folder);
                }
                Part::Stamp(_) if !self.lines.stamped.contains_key(below.as_str()) => {
                    found.not_shown.push(words::stamp_not_registered(&below));
                }
                Part::Stamp(_) => {}
                Part::Staging => found.not_shown.push(words::staging(&below)),
                Part::Foreign => found.flaws.push(problems::foreign(&below)),
            }
        }
        let begin = format!("{}/", self.job);
        let stamped = self.lines.stamped.iter().filter(|(path, _)| path.starts_with(&begin));
        for (path, entry) in stamped {
            self.judge_stamp(path, entry, found);
        }
    }

    /// Holds a bag against its line. `bag` names it in the register, `place` is where it is.
    fn judge_bag(
        &self,
        bag: &str,
        place: &str,
        judged: Bag,
        summary: &mut Summary,
        found: &mut Judgement,
    ) {
        let mut judged = judged;
        let flaws = &mut judged.judgement.flaws;
        match self.lines.sealed.get(bag) {
            None if !self.lines.is_read => {}
            None => flaws.push(problems::not_registered("")),
            Some(entry) => {
                if let Some(erased) = self.lines.erased.get(bag) {
                    flaws.push(problems::erased_and_there(erased.line));
                }
                let seal = judged.seal.map(|seal| seal.hex());
                let is_registered = seal.as_ref() == Some(&entry.sha256);
                if let Some(seal) = seal.filter(|seal| *seal != entry.sha256) {
                    flaws.push(problems::other_seal("", entry.line, &seal));
                }
                let bagging = judged.info.value("Bagging-Date");
                flaws.extend(times::of_seal(entry.line, &entry.time, bagging));
                if let Some(at) = judged.stamped {
                    let stamp = layout::stamp_of(bag);
                    let came = self.lines.stamped.get(stamp.as_str());
                    let came = came.map(|entry| entry.time.as_str());
                    let (more, late) = times::of_stamp_in_register("", at, &entry.time, came);
                    flaws.extend(more);
                    judged.judgement.not_shown.extend(late);
                }
                let flaws = &mut judged.judgement.flaws;
                match &judged.history {
                    Some(history)
                        if history.line < entry.line && history.is_in(self.lines.register) =>
                    {
                        judged.judgement.shown.push(words::history(history.line));
                    }
                    Some(history) => flaws.push(problems::history("", history.line)),
                    None => {}
                }
                if is_registered {
                    // A signed or stamped head covers the line, and the line the bag's digest.
                    let is_covered = |flaw: &Flaw| match flaw.code {
                        "archive/no-signature" => entry.line <= self.heads.signed,
                        "archive/no-stamp" => entry.line <= self.heads.stamped,
                        _ => false,
                    };
                    flaws.retain(|flaw| !is_covered(flaw));
                }
                let says = judged.info.value("Keep-Until");
                if !judged.info.is_unread && says != entry.keep_until.as_deref() {
                    let there = entry.keep_until.as_deref().unwrap_or("nothing");
                    let says = says.unwrap_or("missing");
                    flaws.push(problems::disagrees("Keep-Until", says, entry.line, there));
                }
            }
        }
        summary.add(place, judged.files, &judged.judgement);
        found.flaws.extend(judged.judgement.flaws.into_iter().map(|flaw| flaw.below(place)));
        found.could_not.extend(judged.judgement.could_not);
    }

    fn judge_stamp(&self, path: &str, entry: &Entry, found: &mut Judgement) {
        let name = path.rsplit('/').next().unwrap_or_default();
        if !matches!(self.parts.get(name), Some(Part::Stamp(_))) {
            let bag = path.trim_end_matches(".tsr");
            let bag_name = bag.rsplit('/').next().unwrap_or_default();
            let is_kept = [bag_name.to_owned(), format!("{bag_name}.tar")]
                .iter()
                .any(|name| self.parts.contains_key(name));
            // With a bag whose last day has passed its time stamp may go too.
            let may_go = self.lines.erased.contains_key(bag) || self.lines.released(bag).is_some();
            if is_kept || !may_go {
                found.flaws.push(problems::stamp_missing(path, entry.line));
            }
            return;
        }
        match source::read_file(&self.archive.join(self.job).join(name), MAX_STAMP) {
            Ok(bytes) if Digest::of(&bytes).hex() == entry.sha256 => {}
            Ok(_) => found.flaws.push(problems::stamp_changed(path, entry.line)),
            Err(failure) => found.could_not.push(failure),
        }
    }
}
