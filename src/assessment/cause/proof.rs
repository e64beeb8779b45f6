//! Signs that are claimed in a finding without a photo or a reading.
//!
//! In: weighed signs; out: the claims, for the warning `cause/no-evidence`. Reported and logged signs
//! are not asked for a photo: their proof is a date.

use std::ops::Range;

use super::evidence::{Evidence, Origin};
use super::scored_sign::ScoredSign;
use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::SignKind;

/// A sign that counts but rests on words alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Unproven {
    /// The sign.
    pub sign: Sign,
    /// Where it is first claimed, bytes of the sheet's text.
    pub span: Range<usize>,
}

/// Every sign that counts and has neither a photo on one of its findings nor a reading.
///
/// A sign of kind `measured` is proved by a bench reading as found, whichever check it is of.
pub fn unproven(signs: &[ScoredSign], evidence: &Evidence) -> Vec<Unproven> {
    let claims = signs.iter().filter(|one| one.seen && one.counted);
    let claims = claims.filter(|one| match one.sign.0.kind {
        SignKind::Told | SignKind::Logged => false,
        SignKind::Measured => !evidence.has_readings,
        _ => true,
    });
    claims.filter_map(|one| first_bare(one.sign, &one.origins)).collect()
}

/// The first place of a sign that nothing proves; `None` if some origin is proved.
fn first_bare(sign: Sign, origins: &[Origin]) -> Option<Unproven> {
    let mut first = None;
    for origin in origins {
        match origin {
            Origin::Finding { has_photo: false, span, .. }
            | Origin::Arrival { has_photo: false, span } => {
                first = first.or_else(|| Some(Unproven { sign, span: span.clone() }));
            }
            _ => return None,
        }
    }
    first
}
