//! `fetch.txt` (RFC 8493, 2.2.3): lines -> files that are to come from elsewhere.
//!
//! Nothing is ever fetched: a file that is not there yet is missing.

use std::collections::BTreeMap;

use super::manifest::{Manifest, Part};
use super::{Flaw, names, problems};

const FILE: &str = "fetch.txt";

/// Where each file of a `fetch.txt` is to come from, by path.
pub(super) fn read(
    lines: &[String],
    manifests: &[Manifest],
    is_strict: bool,
) -> (BTreeMap<String, String>, Vec<Flaw>) {
    let mut flaws = Vec::new();
    let mut places = BTreeMap::new();
    for (at, line) in lines.iter().enumerate() {
        let number = at + 1;
        let Some((url, path)) = parts(line) else {
            let message = "it is not an address, a length or `-`, and a path";
            flaws.push(problems::line(FILE, number, message));
            continue;
        };
        let path = if is_strict { path } else { path.strip_prefix("./").unwrap_or(path) };
        let path = names::decoded(path, is_strict);
        if let Some(what) = names::danger(&path) {
            flaws.push(problems::danger(FILE, number, &path, what));
        } else if !Part::Payload.holds(&path) {
            let message = format!("`{}` does not lie below `data/`", names::shown(&path));
            flaws.push(problems::line(FILE, number, &message));
        } else if places.insert(path.clone(), url.to_owned()).is_some() {
            flaws.push(problems::listed_twice(FILE, number, &path));
        }
    }
    for manifest in manifests {
        let listed: std::collections::BTreeSet<&str> =
            manifest.listed.iter().map(|one| one.path.as_str()).collect();
        let unlisted = places.keys().filter(|path| !listed.contains(path.as_str()));
        flaws.extend(unlisted.map(|path| problems::fetch_not_listed(path, &manifest.file)));
    }
    (places, flaws)
}

/// Address and path of a line; the length only has to be one.
fn parts(line: &str) -> Option<(&str, &str)> {
    let (url, rest) = line.split_once([' ', '\t'])?;
    let (length, path) = rest.trim_start_matches([' ', '\t']).split_once([' ', '\t'])?;
    let path = path.trim_start_matches([' ', '\t']);
    let is_length = length == "-" || length.bytes().all(|byte| byte.is_ascii_digit());
    (url.contains(':') && is_length && !length.is_empty() && !path.is_empty())
        .then_some((url, path))
}
