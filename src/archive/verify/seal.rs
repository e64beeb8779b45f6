//! What stands behind a seal: signature and time stamp. The one place where their findings join.
//!
//! In: the bytes of `tagmanifest-sha256.txt` and what lies beside it; out: statements and flaws. The
//! register is another witness (chain).

use std::path::Path;

use chrono::{DateTime, Utc};

use super::holder::{self, Holder};
use super::{Against, Flaw, Judgement, Statement, Voucher, folder, problems, statement, times};
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

/// What the witnesses of a seal say.
#[derive(Default)]
pub(super) struct Witnesses {
    /// Statements, vouchers and flaws.
    pub judgement: Judgement,
    /// The time of a sound stamp.
    pub stamped: Option<DateTime<Utc>>,
}

/// Asks every witness of a seal. `sealed` are the bytes of the tag manifest, where it is there;
/// `stamp` is where the reply of a time-stamp authority lies, where there is one; `bagging` the day
/// that the bag tells of itself.
pub(super) fn witnesses(
    bag: &dyn Holder,
    sealed: Option<&[u8]>,
    stamp: Option<&Path>,
    bagging: Option<&str>,
    against: &Against<'_>,
) -> Witnesses {
    let mut found = Judgement::default();
    let Some(sealed) = sealed else {
        let there = BESIDE.iter().filter(|name| holder::has_file(bag, name));
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
fn signed(bag: &dyn Holder, sealed: &[u8], against: &Against<'_>) -> Judgement {
    if !holder::has_file(bag, SIGNATURE) {
        return no_signature(against);
    }
    match holder::read(bag, SIGNATURE, MAX_BYTES) {
        Ok(bytes) => {
            signature_over(sealed, &bytes, SIGNATURE, &bag.path().join(SIGNATURE), against)
        }
        Err(failure) => Judgement { could_not: vec![failure], ..Judgement::default() },
    }
}

/// A signature over a text, by the keys that the reader accepts. `name` is the place that flaws name.
pub(super) fn signature_over(
    sealed: &[u8],
    bytes: &[u8],
    name: &str,
    place: &Path,
    against: &Against<'_>,
) -> Judgement {
    let judged = signature::check(sealed, bytes, against.signers);
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
        found.vouchers.push(Voucher::signer(key, name));
    }
    found
}

/// No signature: a flaw only where somebody asked whose it is.
fn no_signature(against: &Against<'_>) -> Judgement {
    let flaws = against.signers.map(|_| problems::no_signature(SIGNATURE)).into_iter().collect();
    Judgement { not_shown: vec![statement::unsigned()], flaws, ..Judgement::default() }
}

/// No time stamp: a flaw only where somebody asked whose it is.
fn no_stamp(against: &Against<'_>) -> Judgement {
    let flaws = against.authority.map(|_| problems::no_stamp()).into_iter().collect();
    let not_shown = vec![statement::clock_of_the_workshop()];
    Judgement { not_shown, flaws, ..Judgement::default() }
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

/// The reply of a time-stamp authority beside the bag, and its time where it is sound.
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
    match folder::read(path, MAX_BYTES) {
        Ok(bytes) => stamp_over(sealed, &bytes, &name, path, bagging, against),
        Err(failure) => (Judgement { could_not: vec![failure], ..Judgement::default() }, None),
    }
}

/// A time stamp over a text, by the authority that the reader accepts.
pub(super) fn stamp_over(
    sealed: &[u8],
    bytes: &[u8],
    name: &str,
    place: &Path,
    bagging: Option<&str>,
    against: &Against<'_>,
) -> (Judgement, Option<DateTime<Utc>>) {
    let judged = timestamp::check_reply(bytes, &Digest::of(sealed), against.authority);
    let (wrong, open) = (judged.wrong(), judged.open());
    let words = (judged.shown(), judged.not_shown(), wrong, open);
    let mut found = witness("archive/stamp", (name, place), words);
    let stamp = judged.stamp.as_ref().filter(|_| judged.is_good());
    let time = stamp.and_then(|stamp| stamp.time.utc());
    let late = time.map(|at| times::of_stamp(name, at, bagging, against.now));
    let late = late.unwrap_or_default();
    if let (true, Some(stamp), timestamp::Anchor::Anchored(_)) =
        (late.is_empty(), stamp, &judged.anchor)
    {
        found.vouchers.push(Voucher::authority(&stamp.authority, &stamp.time.to_string()));
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
