//! What stands behind a seal: signature and time stamp. The one place where their findings join.
//!
//! In: the bytes of `tagmanifest-sha256.txt` and what lies beside it; out: statements and flaws. The
//! register is another witness (chain).

use std::path::Path;

use super::holder::{self, Holder};
use super::{Against, Flaw, Judgement, Statement, folder, problems, statement};
use crate::archive::{signature, timestamp};
use crate::failure::Failure;
use crate::photo::Digest;

/// The file whose digest is a bag's digest.
pub(super) const SEALED: &str = "tagmanifest-sha256.txt";
/// The signature over it.
const SIGNATURE: &str = "tagmanifest-sha256.txt.sig";
/// The query for a time stamp of it.
const QUERY: &str = "tagmanifest-sha256.txt.tsq";

/// Files that belong to a seal and stand in no manifest.
pub(super) const BESIDE: &[&str] = &[SIGNATURE, QUERY];

/// Longest signature, query or reply in bytes.
const MAX_BYTES: u64 = 1 << 20;

/// Asks every witness of a seal. `sealed` are the bytes of the tag manifest, where it is there;
/// `stamp` is where the reply of a time-stamp authority lies, where there is one.
pub(super) fn witnesses(
    bag: &dyn Holder,
    sealed: Option<&[u8]>,
    stamp: Option<&Path>,
    against: &Against<'_>,
) -> Judgement {
    let mut found = Judgement::default();
    let Some(sealed) = sealed else {
        let there = BESIDE.iter().filter(|name| holder::has_file(bag, name));
        found.flaws.extend(there.map(|name| problems::seal_file_alone(name)));
        found.join(no_signature(against));
        found.join(no_stamp(against));
        return found;
    };
    found.join(signed(bag, sealed, against));
    found.join(asked(bag, sealed));
    found.join(stamped(stamp, sealed, against));
    found
}

/// The signature beside the seal.
fn signed(bag: &dyn Holder, sealed: &[u8], against: &Against<'_>) -> Judgement {
    if !holder::has_file(bag, SIGNATURE) {
        return no_signature(against);
    }
    let bytes = match holder::read(bag, SIGNATURE, MAX_BYTES) {
        Ok(bytes) => bytes,
        Err(failure) => return Judgement { could_not: vec![failure], ..Judgement::default() },
    };
    let judged = signature::check(sealed, &bytes, against.signers);
    let place = bag.path().join(SIGNATURE);
    witness(
        "archive/signature",
        (SIGNATURE, &place),
        (judged.proved(), judged.not_proved(), judged.flaws()),
        judged.could_not_check(),
    )
}

/// No signature: a flaw only where somebody asked whose it is.
fn no_signature(against: &Against<'_>) -> Judgement {
    let flaws = against.signers.map(|_| problems::no_signature(SIGNATURE)).into_iter().collect();
    Judgement { not_proved: vec![statement::unsigned()], flaws, ..Judgement::default() }
}

/// No time stamp: a flaw only where somebody asked whose it is.
fn no_stamp(against: &Against<'_>) -> Judgement {
    let flaws = against.authority.map(|_| problems::no_stamp()).into_iter().collect();
    let not_proved = vec![statement::clock_of_the_workshop()];
    Judgement { not_proved, flaws, ..Judgement::default() }
}

/// The query must ask for this seal and for nothing else: its bytes follow from the digest alone.
fn asked(bag: &dyn Holder, sealed: &[u8]) -> Judgement {
    let mut found = Judgement::default();
    if !holder::has_file(bag, QUERY) {
        return found;
    }
    match holder::read(bag, QUERY, MAX_BYTES) {
        Ok(bytes) if bytes == timestamp::query(&Digest::of(sealed)) => {}
        Ok(_) => found.flaws.push(problems::query(QUERY)),
        Err(failure) => found.could_not.push(failure),
    }
    found
}

/// The reply of a time-stamp authority beside the bag.
fn stamped(stamp: Option<&Path>, sealed: &[u8], against: &Against<'_>) -> Judgement {
    let Some(path) = stamp else {
        return no_stamp(against);
    };
    let bytes = match folder::read(path, MAX_BYTES) {
        Ok(bytes) => bytes,
        Err(failure) => return Judgement { could_not: vec![failure], ..Judgement::default() },
    };
    let judged = timestamp::check_reply(&bytes, &Digest::of(sealed), against.authority);
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    witness(
        "archive/stamp",
        (&format!("../{name}"), path),
        (judged.proved(), judged.not_proved(), judged.flaws()),
        judged.could_not_check(),
    )
}

/// The words of a witness, as (proved, not proved, wrong), put into a judgement.
fn witness(
    code: &'static str,
    (name, path): (&str, &Path),
    (proved, not_proved, mut wrong): (Vec<String>, Vec<String>, Vec<String>),
    could_not: bool,
) -> Judgement {
    let statements =
        |texts: Vec<String>| texts.into_iter().map(|text| Statement::new(code, text)).collect();
    let mut judged = Judgement {
        proved: statements(proved),
        not_proved: statements(not_proved),
        ..Judgement::default()
    };
    // What was given to judge by cannot be read: then that is the only thing told as wrong.
    if could_not && wrong.len() == 1 {
        judged.could_not.extend(wrong.drain(..).map(|cause| Failure::on("judge", path, cause)));
    }
    judged.flaws.extend(wrong.into_iter().map(|message| Flaw::new(code, name, message)));
    judged
}
