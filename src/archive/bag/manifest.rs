//! Manifests (RFC 8493, 2.1.3 and 2.2.1) and `fetch.txt` (2.2.3): lines -> paths with digests or
//! addresses, and what is wrong; path and digest -> a line.
//!
//! Nothing is ever fetched: a file that is not there yet is missing.

use std::collections::{BTreeMap, BTreeSet};

use super::digests::Algorithm;
use super::names;
use crate::archive::layout::{DATA, DECLARATION, FETCH, INFO};
use crate::archive::problems::{self, Flaw};

/// A line as this program writes it.
pub fn line(sha256: &str, path: &str) -> String {
    format!("{sha256}  {}\n", names::encode(path))
}

/// True for a name that only bags have at their top.
pub fn is_sign_of_bag(name: &str) -> bool {
    matches!(name, DECLARATION | INFO)
        || [Part::Payload, Part::Tags].iter().any(|part| part.algorithm_of(name).is_some())
}

/// A payload or tag manifest.
#[derive(Debug)]
pub struct Manifest {
    /// Its file name.
    pub file: String,
    /// The algorithm of its digests.
    pub algorithm: Algorithm,
    /// The files that it lists, in order; only paths that stay in the bag.
    pub listed: Vec<Listed>,
}

/// A file that a manifest lists.
#[derive(Debug)]
pub struct Listed {
    /// Its path in the bag, percent codes decoded.
    pub path: String,
    /// Its digest in lower case digits.
    pub digest: String,
}

/// Which files a manifest lists.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Those below `data/`.
    Payload,
    /// Those beside it.
    Tags,
}

impl Part {
    /// How the names of its manifests begin.
    fn prefix(self) -> &'static str {
        match self {
            Self::Payload => "manifest-",
            Self::Tags => "tagmanifest-",
        }
    }

    /// The algorithm's name in a manifest's file name; nothing for other files.
    pub fn algorithm_of(self, file: &str) -> Option<&str> {
        file.strip_prefix(self.prefix())?.strip_suffix(".txt").filter(|name| !name.contains('/'))
    }

    /// True for a path that belongs here.
    pub fn holds(self, path: &str) -> bool {
        path.starts_with(DATA) == (self == Self::Payload)
    }
}

/// Reads the lines of a manifest.
pub fn read(
    file: &str,
    algorithm: Algorithm,
    part: Part,
    lines: &[String],
    is_strict: bool,
) -> (Manifest, Vec<Flaw>) {
    let mut flaws = Vec::new();
    let mut listed: Vec<Listed> = Vec::new();
    let mut digests: BTreeMap<String, String> = BTreeMap::new();
    let mut twice: BTreeSet<String> = BTreeSet::new();
    for (at, line) in lines.iter().enumerate() {
        let number = at + 1;
        let (digest, path) = match parts(line, algorithm) {
            Ok(parts) => parts,
            Err(message) => {
                flaws.push(problems::line(file, number, &message));
                continue;
            }
        };
        let path = if is_strict { path } else { plain(path) };
        let path = names::decoded(path, is_strict);
        if let Some(what) = names::danger(&path) {
            flaws.push(problems::danger(file, number, &path, what));
            continue;
        }
        if !part.holds(&path) {
            let message = match part {
                Part::Payload => format!("`{}` is not below `data/`", names::shown(&path)),
                Part::Tags => format!("`{}` is not a tag file", names::shown(&path)),
            };
            flaws.push(problems::line(file, number, &message));
            continue;
        }
        if part == Part::Tags && Part::Tags.algorithm_of(&path).is_some() {
            flaws.push(problems::line(file, number, "a tag manifest must not list tag manifests"));
            continue;
        }
        match digests.get(&path) {
            // Before version 1.0 the same line twice is only untidy.
            Some(known) if !is_strict && *known == digest => {}
            Some(_) => {
                if twice.insert(path.clone()) {
                    flaws.push(problems::listed_twice(file, number, &path));
                }
            }
            None => {
                digests.insert(path.clone(), digest.clone());
                listed.push(Listed { path, digest });
            }
        }
    }
    (Manifest { file: file.to_owned(), algorithm, listed }, flaws)
}

/// Digest in lower case and path of a line.
fn parts(line: &str, algorithm: Algorithm) -> Result<(String, &str), String> {
    let Some((digest, rest)) = line.split_once([' ', '\t']) else {
        return Err("it is not a digest, a space and a path".to_owned());
    };
    let path = rest.trim_start_matches([' ', '\t']);
    if digest.len() != algorithm.digits() || !digest.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        let (name, digits) = (algorithm.name(), algorithm.digits());
        return Err(format!("a digest of {name} has {digits} hexadecimal digits, this has not"));
    }
    if path.is_empty() {
        return Err("it names no file".to_owned());
    }
    Ok((digest.to_ascii_lowercase(), path))
}

/// A path as tools before version 1.0 wrote it: with the mark of `md5sum`, from `./`.
fn plain(path: &str) -> &str {
    let path = path.strip_prefix('*').unwrap_or(path);
    path.strip_prefix("./").unwrap_or(path)
}

/// Where each file of a `fetch.txt` is to come from, by path.
pub fn read_fetch(
    lines: &[String],
    manifests: &[Manifest],
    is_strict: bool,
) -> (BTreeMap<String, String>, Vec<Flaw>) {
    let mut flaws = Vec::new();
    let mut places = BTreeMap::new();
    for (at, line) in lines.iter().enumerate() {
        let number = at + 1;
        let Some((url, path)) = fetch_parts(line) else {
            let message = "it is not an address, a length or `-`, and a path";
            flaws.push(problems::line(FETCH, number, message));
            continue;
        };
        let path = if is_strict { path } else { path.strip_prefix("./").unwrap_or(path) };
        let path = names::decoded(path, is_strict);
        if let Some(what) = names::danger(&path) {
            flaws.push(problems::danger(FETCH, number, &path, what));
        } else if !Part::Payload.holds(&path) {
            let message = format!("`{}` is not below `data/`", names::shown(&path));
            flaws.push(problems::line(FETCH, number, &message));
        } else if places.insert(path.clone(), url.to_owned()).is_some() {
            flaws.push(problems::listed_twice(FETCH, number, &path));
        }
    }
    for manifest in manifests {
        let listed: BTreeSet<&str> = manifest.listed.iter().map(|one| one.path.as_str()).collect();
        let unlisted = places.keys().filter(|path| !listed.contains(path.as_str()));
        flaws.extend(unlisted.map(|path| problems::fetch_not_listed(path, &manifest.file)));
    }
    (places, flaws)
}

/// Address and path of a line; the length only has to be one.
fn fetch_parts(line: &str) -> Option<(&str, &str)> {
    let (url, rest) = line.split_once([' ', '\t'])?;
    let (length, path) = rest.trim_start_matches([' ', '\t']).split_once([' ', '\t'])?;
    let path = path.trim_start_matches([' ', '\t']);
    let is_length = length == "-" || length.bytes().all(|byte| byte.is_ascii_digit());
    (url.contains(':') && is_length && !length.is_empty() && !path.is_empty())
        .then_some((url, path))
}
