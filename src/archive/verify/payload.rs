//! Files held against manifests: what is changed, missing, added, renamed.
//!
//! In: a source, its manifests of one part and its files; out: flaws, digests, counts. Each file is
//! read once, for all its digests at the same time.

use std::collections::{BTreeMap, BTreeSet};

use super::register_above::Redacted;
use super::source::{Kind, Source};
use super::words::Statement;
use super::{source, words};
use crate::archive::bag::digests::{Algorithm, Sums};
use crate::archive::bag::manifest::{Manifest, Part};
use crate::archive::bag::{digests, names};
use crate::archive::problems;
use crate::archive::problems::Flaw;
use crate::failure::Failure;

/// What came of a comparison.
#[derive(Debug, Default)]
pub(super) struct Compared {
    /// How many files the manifests list.
    pub listed: usize,
    /// How many of them are as listed.
    pub good: usize,
    /// Digests of the files that are there, by path.
    pub sums: BTreeMap<String, Sums>,
    /// Files that no manifest lists and nothing else explains; flaws in the payload only.
    pub unlisted: Vec<String>,
    /// What is wrong.
    pub flaws: Vec<Flaw>,
    /// What is worth knowing.
    pub remarks: Vec<Statement>,
    /// What could not be read.
    pub could_not: Vec<Failure>,
    /// Files that were taken out for a reason, with the SHA-256 that the list keeps of them.
    pub redacted: BTreeMap<String, String>,
}

/// Listed digests of one path, by manifest.
type Wanted<'a> = BTreeMap<&'a str, Vec<(Algorithm, &'a str)>>;

/// Holds the files of a part against all its manifests.
pub(super) fn compare(
    source: &dyn Source,
    part: Part,
    manifests: &[Manifest],
    fetched: &BTreeMap<String, String>,
    redacted: &Redacted,
) -> Compared {
    let mut out = Compared::default();
    let files = files_of(source, part);
    // By SHA-256 a bag's files are held against papers, whatever the manifests use.
    let mut algorithms = vec![Algorithm::Sha256];
    algorithms.extend(manifests.iter().map(|one| one.algorithm));
    algorithms.sort_unstable();
    algorithms.dedup();
    let (wanted, mut missing) = resolved(manifests, &files, source, &mut out);
    // What is where nothing could be looked at may be there or not: it is not reported as missing.
    let mut unseen = missing.clone();
    missing.retain(|path, _| !source::lies_in(source.closed(), path));
    unseen.retain(|path, _| !missing.contains_key(path));
    out.listed = wanted.len() + missing.len() + unseen.len();
    for &path in &files {
        if source::lies_in(source.closed(), path) {
            continue;
        }
        // A tag file that nobody sealed is read only if it could be one that is missing.
        if part == Part::Tags && missing.is_empty() && !wanted.contains_key(path) {
            out.unlisted.push(path.to_owned());
            continue;
        }
        let sums = match source.open(path).and_then(|stream| Sums::of(stream, &algorithms)) {
            Ok(sums) => sums,
            Err(error) => {
                out.could_not.push(source::failed(source, path, error));
                continue;
            }
        };
        match wanted.get(path) {
            Some(digests) => match differing(digests, &sums) {
                differing if differing.is_empty() => out.good += 1,
                differing => {
                    out.flaws.push(problems::changed(path, &digests::list(&differing)));
                }
            },
            None => out.unlisted.push(path.to_owned()),
        }
        out.sums.insert(path.to_owned(), sums);
    }
    if part == Part::Payload {
        for manifest in manifests {
            let listed: BTreeSet<String> =
                manifest.listed.iter().map(|one| names::composed(&one.path)).collect();
            let lacks = wanted.keys().chain(missing.keys()).chain(unseen.keys());
            let lacks = lacks.filter(|path| !listed.contains(&names::composed(path)));
            out.flaws.extend(lacks.map(|path| problems::not_in_manifest(path, &manifest.file)));
        }
    }
    find_redacted(&mut out, &mut missing, &wanted, redacted);
    find_renamed(&mut out, &mut missing);
    for path in missing.keys() {
        out.flaws.push(match fetched.get(*path) {
            Some(url) => problems::not_fetched(path, url),
            None => problems::missing(path),
        });
    }
    if part == Part::Payload {
        out.flaws.extend(out.unlisted.iter().map(|path| problems::added(path)));
    }
    out
}

/// The files of a part; tag manifests are in no manifest.
fn files_of(source: &dyn Source, part: Part) -> Vec<&str> {
    let items = source.items().iter();
    let files = items.filter(|(path, kind)| {
        matches!(kind, Kind::File(_)) && part.holds(path) && Part::Tags.algorithm_of(path).is_none()
    });
    files.map(|(path, _)| path.as_str()).collect()
}

/// Listed paths that are there, by the name they have here, and those that are not.
///
/// A name that is there in another Unicode form is the same file (RFC 8493, 6.1.1.3).
fn resolved<'a>(
    manifests: &'a [Manifest],
    files: &[&'a str],
    source: &dyn Source,
    out: &mut Compared,
) -> (Wanted<'a>, Wanted<'a>) {
    let own: BTreeSet<&str> = files.iter().copied().collect();
    let forms: BTreeMap<String, &str> =
        files.iter().map(|path| (names::composed(path), *path)).collect();
    let (mut wanted, mut missing) = (Wanted::new(), Wanted::new());
    let mut told = BTreeSet::new();
    for manifest in manifests {
        for one in &manifest.listed {
            let path = one.path.as_str();
            let digest = (manifest.algorithm, one.digest.as_str());
            let there = own.get(path).or_else(|| forms.get(&names::composed(path)));
            match there {
                Some(there) => {
                    if *there != path && told.insert(*there) {
                        out.remarks.push(words::other_form(there));
                    }
                    wanted.entry(there).or_default().push(digest);
                }
                None if matches!(source.items().get(path), Some(Kind::Other)) => {}
                None => missing.entry(path).or_default().push(digest),
            }
        }
    }
    (wanted, missing)
}

/// The algorithms by which a file is not the listed one.
fn differing(wanted: &[(Algorithm, &str)], sums: &Sums) -> Vec<Algorithm> {
    let differs = wanted.iter().filter(|(one, digest)| sums.by(*one) != Some(digest));
    differs.map(|(one, _)| *one).collect()
}

/// Takes missing files that the register says were taken out for what they are.
fn find_redacted(
    out: &mut Compared,
    missing: &mut Wanted<'_>,
    wanted: &Wanted<'_>,
    redacted: &Redacted,
) {
    for (path, entry) in redacted {
        let sum = (Algorithm::Sha256, entry.sha256.as_str());
        if missing.get(path.as_str()).is_some_and(|digests| digests.contains(&sum)) {
            missing.remove(path.as_str());
            let because = entry.because.as_deref().unwrap_or_default();
            out.remarks.push(words::redacted(path, entry.line, because));
            out.redacted.insert(path.clone(), entry.sha256.clone());
        } else if out.sums.contains_key(path) {
            out.flaws.push(problems::redacted_and_there(path, entry.line));
        } else if !wanted.contains_key(path.as_str()) {
            out.flaws.push(problems::redacted_unlisted(path, entry.line));
        }
    }
}

/// Reports a missing and an added file with the same bytes as one renamed file.
fn find_renamed(out: &mut Compared, missing: &mut Wanted<'_>) {
    let algorithms: BTreeSet<Algorithm> = missing.values().flatten().map(|one| one.0).collect();
    let mut by_sum: BTreeMap<(Algorithm, String), Vec<String>> = BTreeMap::new();
    for path in out.unlisted.iter().rev() {
        for &one in &algorithms {
            if let Some(sum) = out.sums.get(path).and_then(|sums| sums.by(one)) {
                by_sum.entry((one, sum.to_owned())).or_default().push(path.clone());
            }
        }
    }
    let mut taken: BTreeSet<String> = BTreeSet::new();
    missing.retain(|old, digests| {
        let new = digests.iter().find_map(|(one, digest)| {
            let paths = by_sum.get_mut(&(*one, (*digest).to_owned()))?;
            while let Some(path) = paths.pop() {
                let all =
                    out.sums.get(&path).is_some_and(|sums| differing(digests, sums).is_empty());
                if all && !taken.contains(&path) {
                    return Some(path);
                }
            }
            None
        });
        let Some(new) = new else { return true };
        out.flaws.push(problems::renamed(old, &new));
        taken.insert(new);
        false
    });
    out.unlisted.retain(|path| !taken.contains(path));
}
