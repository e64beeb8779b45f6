//! What is left of signatures in a program that was built without them: it says so.

use std::path::Path;

use super::judgement::{NOT_BUILT, SignatureJudgement, Verdict};
use crate::failure::Failure;

/// Refuses to sign.
///
/// # Errors
/// Always.
pub fn sign(key_file: &Path, _: Option<&str>, _: &[u8]) -> Result<Vec<u8>, Failure> {
    Err(Failure::on("sign with the key", key_file, NOT_BUILT)
        .hint("build it with its default features"))
}

/// Says that a signature was not checked.
pub fn check(_: &[u8], _: &[u8], _: Option<&str>) -> SignatureJudgement {
    SignatureJudgement::without_signer(Verdict::NotBuilt)
}

/// Lets any list pass, as no signature is held against it.
pub fn holds_key(_: &str) -> bool {
    true
}
