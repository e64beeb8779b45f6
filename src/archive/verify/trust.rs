//! What is behind a seal: signature and time stamp. The one place where their findings join.
//!
//! In: the bytes of `tagmanifest-sha256.txt`, what is beside it, and what the reader trusts; out:
//! statements and flaws. The register is another witness (`archive`).

use std::path::Path;

use chrono::{DateTime, Utc};

use super::judgement::{Against, Judgement};
use super::source::{self, Source};
use super::times;
use super::words::vouchers::Voucher;
use super::words::{self, Statement};
use crate::archive::layout::{SIGNATURE, STAMP_QUERY};
use crate::archive::problems::{self, Flaw};
use crate::archive::trust::rfc3161::judgement::Anchor;
use crate::archive::trust::{rfc3161, ssh};
use crate::digest::Digest;
use crate::failure::Failure;

/// Files that belong to a seal and are in no manifest.
pub(super) const BESIDE: &[&str] = &[SIGNATURE, STAMP_QUERY];

/// Longest signature, query or reply in bytes.
pub(super) const MAX_BYTES: u64 = 1 << 20;

/// What the witnesses of a seal say.
#[derive(Default)]
pub(super) struct Witnesses {
    /// Statements, vouchers and flaws.
    pub judgement: Judgement,
    /// The time of a sound stamp.
    pub stamped: Option<DateTime<Utc>>,
}

/// Asks every witness of a seal. `sealed` are the bytes of the tag manifest, if it is there;
/// `stamp` is where the reply of a time-stamp authority is, if there is one; `bagging` the day
/// that the bag states of itself.
pub(super) fn witnesses(
    bag: &dyn Source,
    sealed: Option<&[u8]>,
    stamp: Option<&Path>,
    bagging: Option<&str>,
    against: &Against<'_>,
) -> Witnesses {
    let mut found = Judgement::default();
    let Some(sealed) = sealed else {
        let there = BESIDE.iter().filter(|name| source::has_file(bag, name));
        found.flaws.extend(there.map(|name| problems::seal_file_alone(name)));
        found.join(no_signature(against));
        found.join(no_stamp(against));
        return Witnesses { judgement: found, stamped: None };
    };
    found.join(signed(bag, sealed, against));
    found.join(asked(bag, sealed));
    let (stamps, stamped) = stamped(stamp, sealed, bagging, against);
    found.join(stamps);
    Witnesses { judgement: found, stamped }
}

/// The signature beside the seal.
fn signed(bag: &dyn Source, sealed: &[u8], against: &Against<'_>) -> Judgement {
    if !source::has_file(bag, SIGNATURE) {
        return no_signature(against);
    }
    match source::read(bag, SIGNATURE, MAX_BYTES) {
        Ok(bytes) => signature_over(
            Covers::Bag,
            sealed,
            &bytes,
            SIGNATURE,
            &bag.path().join(SIGNATURE),
            against,
        ),
        Err(failure) => Judgement { could_not: vec![failure], ..Judgement::default() },
    }
}

/// What a signature or a time stamp is over, and so what it vouches for.
#[derive(Clone, Copy, Debug)]
pub(super) enum Covers {
    /// One bag.
    Bag,
    /// A register of this many lines up to a line.
    Register {
        /// The line, from 1.
        line: u64,
        /// How many lines the register has.
        lines: u64,
    },
}

/// A signature over a text, by the keys that the reader accepts. `name` is the place that flaws name.
pub(super) fn signature_over(
    covers: Covers,
    sealed: &[u8],
    bytes: &[u8],
    name: &str,
    place: &Path,
    against: &Against<'_>,
) -> Judgement {
    let judged = ssh::check(sealed, bytes, against.signers);
    let outside = against.now.and_then(|now| judged.outside_limits(now));
    let (mut wrong, mut open) = (judged.flaws(), Vec::new());
    if judged.could_not_check() && wrong.len() == 1 {
        open.append(&mut wrong);
    }
    wrong.extend(outside);
    let is_good = wrong.is_empty() && open.is_empty();
    let words = (judged.shown(), judged.not_shown(), wrong, open);
    let mut found = witness("archive/signature", (name, place), words);
    if let (true, Some((key, name))) = (is_good, judged.accepted()) {
        found.vouchers.push(match covers {
            Covers::Bag => Voucher::signer(key, name),
            Covers::Register { line, lines } => Voucher::signer_of_register(key, name, line, lines),
        });
    }
    found
}

/// No signature: a flaw only if somebody asked whose it is.
fn no_signature(against: &Against<'_>) -> Judgement {
    let flaws = against.signers.map(|_| problems::no_signature(SIGNATURE)).into_iter().collect();
    Judgement { not_shown: vec![words::unsigned()], flaws, ..Judgement::default() }
}

/// No time stamp: a flaw only if somebody asked whose it is.
fn no_stamp(against: &Against<'_>) -> Judgement {
    let flaws = against.authority.map(|_| problems::no_stamp()).into_iter().collect();
    let not_shown = vec![words::clock_of_the_workshop()];
    Judgement { not_shown, flaws, ..Judgement::default() }
}

/// The query must ask for this seal and for nothing else: its bytes follow from the digest alone.
fn asked(bag: &dyn Source, sealed: &[u8]) -> Judgement {
    let mut found = Judgement::default();
    if !source::has_file(bag, STAMP_QUERY) {
        return found;
    }
    match source::read(bag, STAMP_QUERY, MAX_BYTES) {
        Ok(bytes) if bytes == rfc3161::query(&Digest::of(sealed)) => {}
        Ok(_) => found.flaws.push(problems::query(STAMP_QUERY)),
        Err(failure) => found.could_not.push(failure),
    }
    found
}

/// The reply of a time-stamp authority beside the bag, and its time if it is sound.
fn stamped(
    stamp: Option<&Path>,
    sealed: &[u8],
    bagging: Option<&str>,
    against: &Against<'_>,
) -> (Judgement, Option<DateTime<Utc>>) {
    let Some(path) = stamp else {
        return (no_stamp(against), None);
    };
    let name = format!("../{}", path.file_name().unwrap_or_default().to_string_lossy());
    match source::read_file(path, MAX_BYTES) {
        Ok(bytes) => stamp_over(Covers::Bag, sealed, &bytes, &name, path, bagging, against),
        Err(failure) => (Judgement { could_not: vec![failure], ..Judgement::default() }, None),
    }
}

/// A time stamp over a text, by the authority that the reader accepts.
pub(super) fn stamp_over(
    covers: Covers,
    sealed: &[u8],
    bytes: &[u8],
    name: &str,
    place: &Path,
    bagging: Option<&str>,
    against: &Against<'_>,
) -> (Judgement, Option<DateTime<Utc>>) {
    let judged = rfc3161::check_reply(bytes, &Digest::of(sealed), against.authority);
    let (wrong, open) = (judged.wrong(), judged.open());
    let words = (judged.shown(), judged.not_shown(), wrong, open);
    let mut found = witness("archive/stamp", (name, place), words);
    let stamp = judged.stamp.as_ref().filter(|_| judged.is_good());
    let time = stamp.map(|stamp| stamp.time.utc());
    let late = time.map(|at| times::of_stamp(name, at, bagging, against.now));
    let late = late.unwrap_or_default();
    if let (true, Some(stamp), Anchor::Anchored(_)) = (late.is_empty(), stamp, &judged.anchor) {
        let (name, at) = (stamp.authority.as_str(), stamp.time.to_string());
        found.vouchers.push(match covers {
            Covers::Bag => Voucher::authority(name, &at),
            Covers::Register { line, lines } => {
                Voucher::authority_of_register(name, &at, line, lines)
            }
        });
    }
    found.flaws.extend(late);
    (found, time)
}

/// The words of a witness, as (shown, not shown, wrong, open), put into a judgement.
fn witness(
    code: &'static str,
    (name, path): (&str, &Path),
    (shown, not_shown, wrong, open): (Vec<String>, Vec<String>, Vec<String>, Vec<String>),
) -> Judgement {
    let statements =
        |texts: Vec<String>| texts.into_iter().map(|text| Statement::new(code, text)).collect();
    Judgement {
        shown: statements(shown),
        not_shown: statements(not_shown),
        flaws: wrong.into_iter().map(|message| Flaw::new(code, name, message)).collect(),
        could_not: open.into_iter().map(|cause| Failure::on("judge", path, cause)).collect(),
        ..Judgement::default()
    }
}

/// Drops keys and certificates that cannot be used, and says so: it must not pass for an answer if nothing
/// is signed, nor accuse each bag of an archive.
pub(super) fn usable<'a>(against: &Against<'a>) -> (Against<'a>, Vec<Failure>) {
    let mut usable = *against;
    let mut failures = Vec::new();
    if against.signers.is_some_and(|list| !ssh::holds_key(list)) {
        usable.signers = None;
        failures.push(
            Failure::new("judge whose signature it is", "no key is in the list of signers")
                .hint("`--signer` takes a `.pub` file or a list of allowed signers"),
        );
    }
    if against.authority.is_some_and(|file| !rfc3161::holds_certificate(file)) {
        usable.authority = None;
        let cause = "no certificate of an authority can be read there";
        failures.push(
            Failure::new("judge whose time stamp it is", cause)
                .hint("`--authority` takes its certificates as PEM, or one as DER"),
        );
    }
    (usable, failures)
}
