//! Signatures and digests of certificates and stamps: key, algorithm, bytes -> fits or not.
//!
//! RSA with PKCS#1 v1.5 and PSS (RFC 8017, RFC 4055), ECDSA on P-256 and P-384 (RFC 5758), each
//! with SHA-256, SHA-384 or SHA-512 (RFC 5754). SHA-1 signs nothing here.

use der::asn1::ObjectIdentifier;
use der::{Decode as _, Encode as _};
use p256::ecdsa::signature::hazmat::PrehashVerifier as _;
use rsa::pkcs1::{DecodeRsaPublicKey as _, RsaPssParams};
use rsa::sha2::{Digest as _, Sha256, Sha384, Sha512};
use rsa::{Pkcs1v15Sign, Pss, RsaPublicKey};
use x509_cert::spki::SubjectPublicKeyInfoOwned;

use super::format::{Algorithm, SHA_256};

const SHA_384: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.16.840.1.101.3.4.2.2");
const SHA_512: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.16.840.1.101.3.4.2.3");
const RSA: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.1");
const MGF_1: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.8");
const RSA_PSS: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.10");
const EC_KEY: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.10045.2.1");
const P_256: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.10045.3.1.7");
const P_384: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.3.132.0.34");
const P_521: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.3.132.0.35");
/// The arc of the curves of RFC 5639.
const BRAINPOOL: &str = "1.3.36.3.3.2.8.1.1.";

/// Names of signatures that fix their digest.
const RSA_WITH: [(ObjectIdentifier, Hash); 3] = [
    (ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.11"), Hash::Sha256),
    (ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.12"), Hash::Sha384),
    (ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.13"), Hash::Sha512),
];
const ECDSA_WITH: [(ObjectIdentifier, Hash); 3] = [
    (ObjectIdentifier::new_unwrap("1.2.840.10045.4.3.2"), Hash::Sha256),
    (ObjectIdentifier::new_unwrap("1.2.840.10045.4.3.3"), Hash::Sha384),
    (ObjectIdentifier::new_unwrap("1.2.840.10045.4.3.4"), Hash::Sha512),
];

/// Why a signature is not accepted.
#[derive(Debug, PartialEq, Eq)]
pub enum Refusal {
    /// It does not fit.
    Wrong,
    /// It is made in a way not known here; which.
    Unsupported(String),
    /// The key does not go with the algorithm, as no issuer would have it; how.
    OddKey(String),
}

/// A digest of the SHA-2 family.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hash {
    Sha256,
    Sha384,
    Sha512,
}

impl Hash {
    /// The digest that an algorithm names; its parameters must be NULL or absent (RFC 5754, 2).
    pub fn named(algorithm: &Algorithm) -> Option<Self> {
        let hash = match algorithm.oid {
            SHA_256 => Self::Sha256,
            SHA_384 => Self::Sha384,
            SHA_512 => Self::Sha512,
            _ => return None,
        };
        is_plain(algorithm).then_some(hash)
    }

    /// The digest of `bytes`.
    pub fn of(self, bytes: &[u8]) -> Vec<u8> {
        match self {
            Self::Sha256 => Sha256::digest(bytes).to_vec(),
            Self::Sha384 => Sha384::digest(bytes).to_vec(),
            Self::Sha512 => Sha512::digest(bytes).to_vec(),
        }
    }

    fn pkcs1(self) -> Pkcs1v15Sign {
        match self {
            Self::Sha256 => Pkcs1v15Sign::new::<Sha256>(),
            Self::Sha384 => Pkcs1v15Sign::new::<Sha384>(),
            Self::Sha512 => Pkcs1v15Sign::new::<Sha512>(),
        }
    }

    fn pss(self, salt: usize) -> Pss {
        match self {
            Self::Sha256 => Pss::new_with_salt::<Sha256>(salt),
            Self::Sha384 => Pss::new_with_salt::<Sha384>(salt),
            Self::Sha512 => Pss::new_with_salt::<Sha512>(salt),
        }
    }
}

fn is_plain(algorithm: &Algorithm) -> bool {
    algorithm.parameters.as_ref().is_none_or(|any| any.is_null() && any.value().is_empty())
}

fn look_up(table: &[(ObjectIdentifier, Hash)], algorithm: &Algorithm) -> Option<Hash> {
    table.iter().find(|(oid, _)| *oid == algorithm.oid).map(|(_, hash)| *hash)
}

/// Checks `signature` over `message`.
///
/// `digest` is used if the algorithm says only `RSA`, as CMS allows (RFC 3370, 3.2).
///
/// # Errors
/// The signature does not fit, or is made in a way not known here.
pub fn verify(
    key: &SubjectPublicKeyInfoOwned,
    algorithm: &Algorithm,
    digest: Option<Hash>,
    message: &[u8],
    signature: &[u8],
) -> Result<(), Refusal> {
    let unsupported = || Refusal::Unsupported(format!("algorithm {}", algorithm.oid));
    if let Some(hash) = look_up(&ECDSA_WITH, algorithm) {
        // RFC 5758, 3.2: no parameters.
        return match algorithm.parameters {
            None => ecdsa(key, &hash.of(message), signature),
            Some(_) => Err(unsupported()),
        };
    }
    if algorithm.oid == RSA_PSS {
        let (hash, salt) = pss_parameters(algorithm).ok_or_else(unsupported)?;
        let key = rsa_key(key, &[RSA, RSA_PSS])?;
        return key
            .verify(hash.pss(salt), &hash.of(message), signature)
            .map_err(|_| Refusal::Wrong);
    }
    let hash = match look_up(&RSA_WITH, algorithm) {
        None if algorithm.oid == RSA => digest,
        found => found,
    };
    let hash = hash.filter(|_| is_plain(algorithm)).ok_or_else(unsupported)?;
    let key = rsa_key(key, &[RSA])?;
    key.verify(hash.pkcs1(), &hash.of(message), signature).map_err(|_| Refusal::Wrong)
}

/// Digest and length of the salt; the mask must use the same digest (RFC 4055, 3.1).
fn pss_parameters(algorithm: &Algorithm) -> Option<(Hash, usize)> {
    let bytes = algorithm.parameters.as_ref()?.to_der().ok()?;
    let read = RsaPssParams::from_der(&bytes).ok()?;
    let named = |oid: ObjectIdentifier, parameters: Option<der::AnyRef<'_>>| {
        Hash::named(&Algorithm { oid, parameters: parameters.map(Into::into) })
    };
    let hash = named(read.hash.oid, read.hash.parameters)?;
    let mask = read.mask_gen.parameters?;
    let is_same = read.mask_gen.oid == MGF_1 && named(mask.oid, mask.parameters) == Some(hash);
    is_same.then_some((hash, usize::from(read.salt_len)))
}

fn rsa_key(
    key: &SubjectPublicKeyInfoOwned,
    kinds: &[ObjectIdentifier],
) -> Result<RsaPublicKey, Refusal> {
    if !kinds.contains(&key.algorithm.oid) {
        return Err(odd("the key is of another kind than the signature"));
    }
    let bytes = key.subject_public_key.as_bytes().ok_or(Refusal::Wrong)?;
    let numbers = rsa::pkcs1::RsaPublicKey::from_der(bytes).map_err(|_| Refusal::Wrong)?;
    let bits = numbers.modulus.as_bytes().len() * 8;
    if !(2048..=4096).contains(&bits) {
        return Err(Refusal::Unsupported(format!("an RSA key of about {bits} bits")));
    }
    RsaPublicKey::from_pkcs1_der(bytes).map_err(|_| odd("an RSA key that cannot be"))
}

fn odd(how: &str) -> Refusal {
    Refusal::OddKey(how.to_owned())
}

fn ecdsa(key: &SubjectPublicKeyInfoOwned, digest: &[u8], made: &[u8]) -> Result<(), Refusal> {
    if key.algorithm.oid != EC_KEY {
        return Err(odd("the key is of another kind than the signature"));
    }
    let curve = key.algorithm.parameters.as_ref().and_then(|any| any.decode_as().ok());
    let curve: ObjectIdentifier = curve.ok_or_else(|| odd("an elliptic curve without a name"))?;
    let point = key.subject_public_key.as_bytes().ok_or(Refusal::Wrong)?;
    let fits = match curve {
        P_256 => p256::ecdsa::VerifyingKey::from_sec1_bytes(point)
            .and_then(|key| key.verify_prehash(digest, &p256::ecdsa::Signature::from_der(made)?)),
        P_384 => p384::ecdsa::VerifyingKey::from_sec1_bytes(point)
            .and_then(|key| key.verify_prehash(digest, &p384::ecdsa::Signature::from_der(made)?)),
        _ if curve == P_521 || curve.to_string().starts_with(BRAINPOOL) => {
            return Err(Refusal::Unsupported(format!("the elliptic curve {curve}")));
        }
        _ => return Err(odd("an elliptic curve that is not known here")),
    };
    fits.map_err(|_| Refusal::Wrong)
}
