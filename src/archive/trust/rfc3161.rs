//! The time stamp of a seal (RFC 3161): digest -> query; reply, digest, certificate -> judgement.
//!
//! An authority for time signs digest and time, so that the seal is known to have been there then.
//! Nothing is sent from here: a person carries query and reply.
//! Not here: the disk, the clock, whether a certificate was revoked.

#[cfg(feature = "timestamp")]
mod algorithm;
#[cfg(feature = "timestamp")]
mod certificates;
#[cfg(feature = "timestamp")]
mod format;
pub mod judgement;
#[cfg(feature = "timestamp")]
mod reply;
#[cfg(feature = "timestamp")]
mod signature;
#[cfg(feature = "timestamp")]
mod token;
#[cfg(not(feature = "timestamp"))]
mod without;

#[cfg(feature = "timestamp")]
pub use self::reply::{check_reply, holds_certificate};
#[cfg(not(feature = "timestamp"))]
pub use self::without::{check_reply, holds_certificate};
use crate::digest::Digest;

/// A DER `TimeStampReq` (RFC 3161, 2.4.1) up to the digest: version 1, SHA-256 with NULL parameters, as
/// most authorities expect it.
const BEFORE_DIGEST: [u8; 24] = [
    0x30, 0x39, 0x02, 0x01, 0x01, 0x30, 0x31, 0x30, 0x0d, 0x06, 0x09, 0x60, 0x86, 0x48, 0x01, 0x65,
    0x03, 0x04, 0x02, 0x01, 0x05, 0x00, 0x04, 0x20,
];
/// What follows the digest: the certificate is asked for.
const AFTER_DIGEST: [u8; 3] = [0x01, 0x01, 0xff];

/// The query for a time stamp over a digest: no policy, no nonce, so that the same digest gives the
/// same bytes. Without a nonce an old reply could be played back, but only one over this very digest.
pub fn query(digest: &Digest) -> Vec<u8> {
    [&BEFORE_DIGEST[..], digest.bytes(), &AFTER_DIGEST].concat()
}
