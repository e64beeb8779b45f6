//! Whose signature is accepted: public key or `allowed_signers` text, a key -> its standing.
//!
//! Source: manual page of `ssh-keygen`, section ALLOWED SIGNERS. A line is `names [options] kind
//! base64 [comment]`; a line of a `.pub` file lacks the names.
//! Not here: the time limits of a line, which need a clock (judgement).

use ssh_key::PublicKey;
use ssh_key::public::KeyData;

use super::judgement::{NAMESPACE, Standing};

/// How `key` is in `list`.
pub(super) fn standing(key: &KeyData, list: &str) -> Standing {
    let mut outcome = None;
    let mut fault = None;
    let mut lines = 0;
    for (number, line) in list.trim_start_matches('\u{feff}').lines().enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        lines += 1;
        match entry(line) {
            Ok(entry) if entry.key.key_data() == key => match entry.standing() {
                allowed @ Standing::Allowed { .. } => return allowed,
                other => outcome = Some(other),
            },
            Ok(_) => {}
            Err(cause) => {
                fault.get_or_insert(format!("line {}: {cause}", number + 1));
            }
        }
    }
    match (outcome, fault) {
        (Some(outcome), _) => outcome,
        (None, Some(fault)) => Standing::ListUnreadable(fault),
        (None, None) if lines == 0 => Standing::ListUnreadable("no key is in it".to_owned()),
        (None, None) => Standing::NotAllowed(None),
    }
}

struct Entry {
    key: PublicKey,
    names: Option<String>,
    options: Vec<String>,
}

impl Entry {
    fn standing(&self) -> Standing {
        let has = |name: &str| self.options.iter().any(|option| option.eq_ignore_ascii_case(name));
        if has("cert-authority") {
            let reason = "the list has it as an authority for certificates, not as a signer";
            return Standing::NotAllowed(Some(reason.to_owned()));
        }
        if let Some(purposes) = self.value("namespaces")
            && !matches_list(purposes, NAMESPACE)
        {
            let reason = format!("the list allows it only for `{purposes}`");
            return Standing::NotAllowed(Some(reason));
        }
        let limits: Vec<String> = ["valid-after", "valid-before"]
            .iter()
            .filter_map(|name| Some(format!("{name} {}", self.value(name)?)))
            .collect();
        let comment = Some(self.key.comment().to_owned()).filter(|text| !text.is_empty());
        Standing::Allowed {
            name: self.names.clone().or(comment),
            limits: (!limits.is_empty()).then(|| limits.join(", ")),
        }
    }

    fn value(&self, name: &str) -> Option<&str> {
        self.options.iter().find_map(|option| {
            let (own, value) = option.split_once('=')?;
            own.eq_ignore_ascii_case(name).then(|| value.trim_matches('"'))
        })
    }
}

fn entry(line: &str) -> Result<Entry, String> {
    let words = split(line, char::is_whitespace);
    let is_kind = |word: &&str| ["ssh-", "ecdsa-", "sk-"].iter().any(|kind| word.starts_with(kind));
    let (names, options, from) = match words.iter().take(3).position(is_kind) {
        Some(0) => (None, None, 0),
        Some(1) => (Some(words[0]), None, 1),
        Some(2) => (Some(words[0]), Some(words[1]), 2),
        _ => return Err("it names no kind of key".to_owned()),
    };
    let key = PublicKey::from_openssh(&words[from..].join(" ")).map_err(|e| e.to_string())?;
    let names = names.map(|names| names.trim_matches('"').to_owned());
    let options = options.map(|options| split(options, |c| c == ',')).unwrap_or_default();
    Ok(Entry { key, names, options: options.into_iter().map(str::to_owned).collect() })
}

/// Splits outside of double quotes; empty parts are left out.
fn split(text: &str, at: impl Fn(char) -> bool) -> Vec<&str> {
    let mut quoted = false;
    text.split(|c: char| {
        quoted ^= c == '"';
        !quoted && at(c)
    })
    .filter(|part| !part.is_empty())
    .collect()
}

/// A list of patterns as in `ssh_config`, PATTERNS: one that fits allows, `!` before it forbids.
fn matches_list(patterns: &str, word: &str) -> bool {
    let mut allowed = false;
    for pattern in patterns.split(',').map(str::trim) {
        match pattern.strip_prefix('!') {
            Some(pattern) if fits(pattern.as_bytes(), word.as_bytes()) => return false,
            Some(_) => {}
            None => allowed |= fits(pattern.as_bytes(), word.as_bytes()),
        }
    }
    allowed
}

/// `*` is any bytes, `?` for one. Steps are bounded by the product of the lengths.
fn fits(pattern: &[u8], word: &[u8]) -> bool {
    let (mut at, mut start, mut back) = (0, 0, None);
    while start < word.len() {
        if at < pattern.len() && pattern[at] == b'*' {
            back = Some((at + 1, start));
            at += 1;
        } else if at < pattern.len() && (pattern[at] == b'?' || pattern[at] == word[start]) {
            (at, start) = (at + 1, start + 1);
        } else if let Some((after, from)) = back {
            (at, start) = (after, from + 1);
            back = Some((after, from + 1));
        } else {
            return false;
        }
    }
    pattern[at..].iter().all(|byte| *byte == b'*')
}

/// True if some line holds a public key, with names and options before it or not.
pub fn holds_key(list: &str) -> bool {
    list.trim_start_matches('\u{feff}').lines().any(|line| {
        let words: Vec<&str> = line.split_whitespace().collect();
        let is_comment = words.first().is_some_and(|word| word.starts_with('#'));
        let is_key = |at: usize| PublicKey::from_openssh(&words[at..].join(" ")).is_ok();
        !is_comment && (0..words.len()).any(is_key)
    })
}
