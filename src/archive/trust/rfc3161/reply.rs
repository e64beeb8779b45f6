//! A reply of an authority, from its bytes to a judgement.
//!
//! Not here: its form (token), its signature (signature), the way to a trusted certificate
//! (certificates).

use super::judgement::{Flaw, StampJudgement};
use super::{certificates, signature, token};
use crate::digest::Digest;

/// Judges a reply (a DER `TimeStampResp`) over `digest`.
///
/// `authority` holds certificates that the reader trusts, as PEM (one or more) or one as DER: the
/// authority's own, or one that it descends from. Without it the reply is judged by itself only.
pub fn check_reply(reply: &[u8], digest: &Digest, authority: Option<&[u8]>) -> StampJudgement {
    let trusted = authority.map(certificates::read_certificates);
    let mut judgement = StampJudgement::default();
    let trusted = match trusted {
        Some(Err(cause)) => {
            judgement.flaws.push(Flaw::Authority(cause));
            None
        }
        Some(Ok(found)) => Some(found),
        None => None,
    };
    match token::read(reply) {
        Ok(token) => signature::judge(&token, digest, trusted.as_deref(), &mut judgement),
        Err(flaw) => judgement.flaws.push(flaw),
    }
    judgement
}

/// True if a certificate can be read from a file as [`check_reply`] takes it.
pub fn holds_certificate(authority: &[u8]) -> bool {
    certificates::read_certificates(authority).is_ok()
}
