//! What the reader gave to judge by, looked at before anything else: whose signatures count, which
//! authority's time stamps. In: the contents of both files; out: what is of no use.
//!
//! Not here: judging a signature or a time stamp by them (seal).

use ssh_key::PublicKey;

use super::Against;
use crate::archive::timestamp;
use crate::failure::Failure;
use crate::photo::Digest;

/// Takes away what cannot be judged by, and says so: it must not pass for an answer where nothing
/// is signed, nor accuse each bag of an archive.
pub(super) fn usable<'a>(against: &Against<'a>) -> (Against<'a>, Vec<Failure>) {
    let mut usable = *against;
    let mut failures = Vec::new();
    if against.signers.is_some_and(|list| !holds_key(list)) {
        usable.signers = None;
        failures.push(
            Failure::new("judge whose signature it is", "no key is in the list of signers")
                .hint("`--signer` takes a `.pub` file or a list of allowed signers"),
        );
    }
    if against.authority.is_some_and(|file| !holds_certificate(file)) {
        usable.authority = None;
        let cause = "no certificate of an authority can be read there";
        failures.push(
            Failure::new("judge whose time stamp it is", cause)
                .hint("`--authority` takes its certificates as PEM, or one as DER"),
        );
    }
    (usable, failures)
}

/// True where some line holds a public key, with names and options before it or not.
fn holds_key(list: &str) -> bool {
    list.trim_start_matches('\u{feff}').lines().any(|line| {
        let words: Vec<&str> = line.split_whitespace().collect();
        let is_comment = words.first().is_some_and(|word| word.starts_with('#'));
        let is_key = |at: usize| PublicKey::from_openssh(&words[at..].join(" ")).is_ok();
        !is_comment && (0..words.len()).any(is_key)
    })
}

fn holds_certificate(file: &[u8]) -> bool {
    // Only what was given to judge by is asked about; there is no reply to it here.
    !timestamp::check_reply(&[], &Digest::of(&[]), Some(file)).could_not_check()
}
