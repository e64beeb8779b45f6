//! Who signed a token, and whether the signature holds: token, digest, trusted -> judgement filled.
//!
//! Sources: RFC 3161, 2.4.2; RFC 5652, 5.4 and 11; RFC 5035 and RFC 5816 for the signer's name.

use cms::signed_data::{SignerIdentifier, SignerInfo};
use der::asn1::{ObjectIdentifier, OctetString};
use der::{Any, Encode as _};
use sha1::{Digest as _, Sha1};
use x509_cert::Certificate;
use x509_cert::ext::pkix::SubjectKeyIdentifier;
use x509_cert::ext::pkix::name::GeneralName;

use super::algorithm::{self, Hash, Refusal};
use super::certificates::{self, Chain};
use super::format::{
    CONTENT_TYPE, IssuerSerial, MESSAGE_DIGEST, SIGNING_V1, SIGNING_V2, SigningV1, SigningV2,
    TST_INFO, TstInfo, exact,
};
use super::judgement::{Anchor, Flaw, Stamp, StampJudgement, plain};
use super::token::Token;
use crate::digest::{Digest, hex};

/// Judges a token whose form is right; all that is wrong goes into the judgement.
pub fn judge(
    token: &Token,
    digest: &Digest,
    trusted: Option<&[Certificate]>,
    judgement: &mut StampJudgement,
) {
    let flaws = &mut judgement.flaws;
    judgement.uncovered.clone_from(&token.uncovered);
    flaws.extend(imprint(&token.info, digest));
    let given = trusted.unwrap_or_default();
    let mut all = token.certificates.iter().chain(given);
    let signer = all.find(|certificate| is_named(&token.signer.sid, certificate));
    judgement.stamp = Some(stamp(token, signer));
    let Some(signer) = signer else {
        flaws.push(Flaw::NoSigner);
        return;
    };
    flaws.extend(attributes(token, signer));
    flaws.extend(signature(token, signer));
    flaws.extend(
        certificates::of_signer(signer, token.time.since_1970()).into_iter().map(Flaw::Signer),
    );

    let chain = Chain { carried: &token.certificates, trusted: given, time: &token.time };
    chain.look_over(signer, flaws, &mut judgement.uncovered);
    if trusted.is_some() {
        judgement.anchor = match chain.anchor(signer) {
            Ok(name) => Anchor::Anchored(name),
            Err(found) => {
                flaws.extend(found);
                Anchor::NotAnchored
            }
        };
    }
}

/// RFC 3161, 2.4.2: the imprint is the one that was sent.
fn imprint(info: &TstInfo, digest: &Digest) -> Option<Flaw> {
    let imprint = &info.message_imprint;
    if Hash::named(&imprint.hash_algorithm) != Some(Hash::Sha256) {
        let kind = imprint.hash_algorithm.oid;
        return Some(Flaw::Unsupported(format!("a digest of the kind {kind}, not SHA-256")));
    }
    let own = imprint.hashed_message.as_bytes();
    (own != digest.bytes()).then(|| Flaw::OtherDigest(hex(own)))
}

fn stamp(token: &Token, signer: Option<&Certificate>) -> Stamp {
    let info = &token.info;
    let own = info.tsa.as_ref().map(|name| match name {
        GeneralName::DirectoryName(name) => plain(&name.to_string()),
        _ => "a name of another form".to_owned(),
    });
    let certified = signer.map(certificates::name);
    let accuracy = info.accuracy.as_ref().map(|accuracy| {
        let seconds = u64::from(accuracy.seconds.unwrap_or(0));
        let millis = u64::from(accuracy.millis.unwrap_or(0));
        (seconds * 1000 + millis) * 1000 + u64::from(accuracy.micros.unwrap_or(0))
    });
    Stamp {
        time: token.time.clone(),
        accuracy,
        serial: hex(info.serial_number.as_bytes()),
        policy: info.policy.to_string(),
        other_name: own.clone().filter(|own| certified.as_ref().is_some_and(|name| name != own)),
        authority: certified.or(own).unwrap_or_else(|| "an authority without a name".to_owned()),
    }
}

fn is_named(sid: &SignerIdentifier, certificate: &Certificate) -> bool {
    let own = &certificate.tbs_certificate;
    match sid {
        SignerIdentifier::IssuerAndSerialNumber(name) => {
            name.issuer == own.issuer && name.serial_number == own.serial_number
        }
        SignerIdentifier::SubjectKeyIdentifier(id) => own
            .get::<SubjectKeyIdentifier>()
            .is_ok_and(|found| found.is_some_and(|(_, found)| found == *id)),
    }
}

/// The signed attributes: each there once, with the value that the rest has.
fn attributes(token: &Token, signer: &Certificate) -> Vec<Flaw> {
    let mut flaws = Vec::new();
    let mut demand = |holds: bool, name| {
        if !holds {
            flaws.push(Flaw::Attribute(name));
        }
    };
    let content = attribute(&token.signer, CONTENT_TYPE).ok().flatten();
    let content = content.and_then(|any| any.decode_as::<ObjectIdentifier>().ok());
    demand(content == Some(TST_INFO), "content type");
    let digest = attribute(&token.signer, MESSAGE_DIGEST).ok().flatten();
    let digest = digest.and_then(|any| any.decode_as::<OctetString>().ok());
    let expected = token.digest.of(&token.info_bytes);
    demand(digest.is_some_and(|found| found.as_bytes() == expected), "message digest");
    demand(names_signer(&token.signer, signer) == Some(true), "signing certificate");
    flaws
}

/// The one value of an attribute; absent is not an error, twice is one.
fn attribute(signer: &SignerInfo, kind: ObjectIdentifier) -> Result<Option<&Any>, ()> {
    let mut found = signer.signed_attrs.iter().flat_map(|all| all.iter()).filter(|a| a.oid == kind);
    match (found.next(), found.next()) {
        (None, _) => Ok(None),
        (Some(one), None) => match one.values.as_slice() {
            [value] => Ok(Some(value)),
            _ => Err(()),
        },
        _ => Err(()),
    }
}

/// RFC 5816: version 1 or 2 of the signing certificate must be there; the first that each names is
/// the signer's. The digest goes over the whole certificate.
fn names_signer(info: &SignerInfo, signer: &Certificate) -> Option<bool> {
    let bytes = signer.to_der().ok()?;
    let first = attribute(info, SIGNING_V1).ok()?;
    let second = attribute(info, SIGNING_V2).ok()?;
    let mut fits = first.is_some() || second.is_some();
    if let Some(value) = first {
        let read: SigningV1 = exact(&value.to_der().ok()?).ok()?;
        let named = read.certificates.first()?;
        fits &= named.digest.as_bytes() == Sha1::digest(&bytes).as_slice();
        fits &= is_issuer(named.issuer_serial.as_ref(), signer);
    }
    if let Some(value) = second {
        let read: SigningV2 = exact(&value.to_der().ok()?).ok()?;
        let named = read.certificates.first()?;
        let hash = named.algorithm.as_ref().map_or(Some(Hash::Sha256), Hash::named)?;
        fits &= named.digest.as_bytes() == hash.of(&bytes);
        fits &= is_issuer(named.issuer_serial.as_ref(), signer);
    }
    Some(fits)
}

fn is_issuer(named: Option<&IssuerSerial>, signer: &Certificate) -> bool {
    let own = &signer.tbs_certificate;
    named.is_none_or(|named| {
        let is_same =
            |name: &GeneralName| matches!(name, GeneralName::DirectoryName(n) if *n == own.issuer);
        named.issuer.iter().any(is_same) && named.serial.as_bytes() == own.serial_number.as_bytes()
    })
}

/// RFC 5652, 5.4: the signature goes over the attributes as a SET.
fn signature(token: &Token, signer: &Certificate) -> Option<Flaw> {
    let Some(Ok(attributes)) = token.signer.signed_attrs.as_ref().map(der::Encode::to_der) else {
        return Some(Flaw::Signature);
    };
    let key = &signer.tbs_certificate.subject_public_key_info;
    let (kind, made) = (&token.signer.signature_algorithm, token.signer.signature.as_bytes());
    match algorithm::verify(key, kind, Some(token.digest), &attributes, made) {
        Ok(()) => None,
        Err(Refusal::Wrong) => Some(Flaw::Signature),
        Err(Refusal::Unsupported(what) | Refusal::OddKey(what)) => Some(Flaw::Unsupported(what)),
    }
}
