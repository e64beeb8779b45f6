//! Signatures in the form of OpenSSH: message and key file -> SSHSIG; SSHSIG -> judgement.
//!
//! Format: `PROTOCOL.sshsig` of OpenSSH. Not here: reading keys (key), whose are accepted (allowed).

use std::path::Path;

use rsa::signature::{SignatureEncoding as _, Signer as _, Verifier as _};
use ssh_key::private::{KeypairData, RsaKeypair};
use ssh_key::{Algorithm, HashAlg, LineEnding, PrivateKey, Signature, SshSig};

use super::judgement::{NAMESPACE, SignatureJudgement, Signer, Standing, Verdict};
use super::{allowed, key};
use crate::failure::Failure;

/// Signatures are below this length in bytes; a longer file is none.
const LONGEST: usize = 16 * 1024;

/// Signs `message` with the OpenSSH private key in `key_file`; gives an armoured SSHSIG.
///
/// # Errors
/// The file cannot be read, is not a private key, is locked and `passphrase` does not open it, or its
/// kind is not one of ed25519, ECDSA P-256 or P-384, RSA of 2048 to 4096 bits. The hint says
/// what to do.
pub fn sign(key_file: &Path, passphrase: Option<&str>, message: &[u8]) -> Result<Vec<u8>, Failure> {
    let key = key::read(key_file, passphrase)?;
    let damaged = |cause: &str| {
        Failure::on("sign with the key", key_file, cause)
            .hint("make a new key with `ssh-keygen -t ed25519`, or take the key from its backup")
    };
    let armour = raw_signature(&key, message)
        .and_then(|made| SshSig::new(key.public_key().into(), NAMESPACE, HashAlg::Sha512, made))
        .and_then(|signature| signature.to_pem(LineEnding::LF))
        .map_err(|error| damaged(&format!("it cannot sign: {error}")))?
        .into_bytes();
    // A wrong signature would also betray an RSA key, so none leaves here unchecked.
    if !check(message, &armour, None).is_good() {
        return Err(damaged("its private and its public half do not belong together"));
    }
    Ok(armour)
}

/// The signature over what `PROTOCOL.sshsig` lays around the message.
fn raw_signature(key: &PrivateKey, message: &[u8]) -> Result<Signature, ssh_key::Error> {
    let signed = SshSig::signed_data(NAMESPACE, HashAlg::Sha512, message)?;
    match key.key_data() {
        KeypairData::Rsa(pair) => rsa_signature(pair, &signed),
        _ => Ok(key.try_sign(&signed)?),
    }
}

/// `ssh-key` 0.6 takes one prime twice for RSA, so the key is put together here.
fn rsa_signature(pair: &RsaKeypair, signed: &[u8]) -> Result<Signature, ssh_key::Error> {
    let number = |value: &ssh_key::Mpint| rsa::BigUint::try_from(value);
    let (public, private) = (&pair.public, &pair.private);
    let key = rsa::RsaPrivateKey::from_components(
        number(&public.n)?,
        number(&public.e)?,
        number(&private.d)?,
        vec![number(&private.p)?, number(&private.q)?],
    )?;
    let with_key = rsa::pkcs1v15::SigningKey::<rsa::sha2::Sha512>::new(key);
    // RFC 8332: `rsa-sha2-512`; `PROTOCOL.sshsig` forbids `ssh-rsa`.
    let algorithm = Algorithm::Rsa { hash: Some(HashAlg::Sha512) };
    Signature::new(algorithm, with_key.try_sign(signed)?.to_vec())
}

/// Judges a signature over `message`.
///
/// `allowed` is a public key line as in a `.pub` file, or an `allowed_signers` list (manual page of
/// `ssh-keygen`, ALLOWED SIGNERS). Without it, whose key it was stays open.
pub fn check(message: &[u8], signature: &[u8], allowed: Option<&str>) -> SignatureJudgement {
    let read = match read(signature) {
        Ok(read) => read,
        Err(cause) => return SignatureJudgement::without_signer(Verdict::Malformed(cause)),
    };
    let key = read.public_key();
    let standing = allowed.map_or(Standing::NotAsked, |list| allowed::standing(key, list));
    let signer = Signer {
        fingerprint: key.fingerprint(HashAlg::Sha256).to_string(),
        kind: key.algorithm().to_string(),
    };
    // Every byte counts: what is not as it would be written again was not written by a signer.
    let is_exact = read.to_pem(LineEnding::LF).is_ok_and(|again| again.as_bytes() == signature);
    SignatureJudgement {
        verdict: verdict(&read, message),
        signer: Some(signer),
        standing,
        is_exact,
    }
}

fn read(signature: &[u8]) -> Result<SshSig, String> {
    if signature.len() > LONGEST {
        return Err("it is too long".to_owned());
    }
    SshSig::from_pem(signature).map_err(|error| error.to_string())
}

fn verdict(read: &SshSig, message: &[u8]) -> Verdict {
    let kind = read.public_key().algorithm();
    if !key::is_supported(&kind) || !key::is_supported(&read.algorithm()) {
        return Verdict::Unsupported(kind.to_string());
    }
    if read.namespace() != NAMESPACE {
        return Verdict::OtherNamespace(read.namespace().to_owned());
    }
    // `signed_data` takes the reserved part as empty, which `PROTOCOL.sshsig` has it be.
    let fits = SshSig::signed_data(NAMESPACE, read.hash_alg(), message)
        .is_ok_and(|signed| read.public_key().verify(&signed, read.signature()).is_ok());
    if fits { Verdict::Good } else { Verdict::Bad }
}
