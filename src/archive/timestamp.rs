//! The time stamp of a seal (RFC 3161): digest -> query; reply, digest, certificate -> judgement.
//!
//! An authority for time signs digest and time, so that the seal is known to have been there then.
//! Nothing is sent from here: a person carries query and reply.
//! Not here: the disk, the clock, whether a certificate was revoked.

mod algorithm;
mod chain;
mod fitness;
mod format;
mod judgement;
mod moment;
mod problems;
mod token;
mod witness;

use der::Encode as _;
use der::asn1::{Null, OctetString};

pub use self::judgement::{Anchor, Stamp, StampJudgement};
pub use self::problems::{Flaw, Uncovered};
use crate::photo::Digest;

/// The query for a time stamp over the digest of a bag: a DER `TimeStampReq` (RFC 3161, 2.4.1).
///
/// Version 1, SHA-256, certificate asked for, no policy, no nonce: the same digest gives the same
/// bytes. Without a nonce an old reply could be played back, but only one over this very digest.
pub fn query(tagmanifest: &Digest) -> Vec<u8> {
    let imprint =
        der::Any::encode_from(&Null).ok().zip(OctetString::new(*tagmanifest.bytes()).ok());
    let request = imprint.map(|(null, hashed_message)| format::TimeStampReq {
        version: 1,
        message_imprint: format::MessageImprint {
            // With NULL, as most authorities expect it; RFC 5754 has both forms accepted.
            hash_algorithm: format::Algorithm { oid: format::SHA_256, parameters: Some(null) },
            hashed_message,
        },
        cert_req: true,
    });
    // All lengths are fixed, so encoding cannot fail; a test compares the bytes.
    request.and_then(|request| request.to_der().ok()).unwrap_or_default()
}

/// Judges a reply (a DER `TimeStampResp`) over `digest`.
///
/// `authority` holds certificates that the reader trusts, as PEM (one or more) or one as DER: the
/// authority's own, or one that it descends from. Without it the reply is judged by itself only.
pub fn check_reply(reply: &[u8], digest: &Digest, authority: Option<&[u8]>) -> StampJudgement {
    let trusted = authority.map(chain::read_certificates);
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
        Ok(token) => witness::judge(&token, digest, trusted.as_deref(), &mut judgement),
        Err(flaw) => judgement.flaws.push(flaw),
    }
    judgement
}
