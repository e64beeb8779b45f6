//! An authority for time that lives in the tests: digest, time -> a reply as RFC 3161 has it.
//!
//! Put together here byte by byte in DER, by RFC 3161, 2.4.2, RFC 5652, 5 and RFC 5035, 3, so that it
//! owes nothing to the code that judges it. `stamps/clock.pem` was made once by `openssl ca -selfsign`
//! for 2020 to 2060; the key to it is below, and worth nothing anywhere else.

use der::{DecodePem as _, Encode as _};
use p256::ecdsa::signature::Signer as _;
use p256::ecdsa::{Signature, SigningKey};
use splitcase::digest::Digest;
use x509_cert::Certificate;

/// The certificate, to be trusted or not.
pub const CERTIFICATE: &str = include_str!("stamps/clock.pem");
const KEY: &str = "8b7c78aa539bcc9d44d7a90aab536372c9883616a0f7ff490bf04601a03a7d03";

/// A reply over a digest for a time in the form `20260311140508Z`.
pub fn reply(digest: &Digest, time: &str) -> Vec<u8> {
    let certificate = Certificate::from_pem(CERTIFICATE).unwrap();
    let whole = certificate.to_der().unwrap();
    let info = sequence(&[
        &integer(&[1]),
        &oid(&[0x2b, 0x06, 0x01, 0x04, 0x01, 0x82, 0x37]),
        &sequence(&[&sha256(), &octets(digest.bytes())]),
        &integer(&[7]),
        &tlv(0x18, &[time.as_bytes()]),
    ]);
    let of = |bytes: &[u8]| octets(Digest::of(bytes).bytes());
    let content_type = attribute(&[9, 3], &oid(TST_INFO));
    let message_digest = attribute(&[9, 4], &of(&info));
    let signer = sequence(&[&sequence(&[&sequence(&[&of(&whole)])])]);
    let signing_certificate = attribute(&[9, 16, 2, 47], &signer);
    let mut attributes = [content_type, message_digest, signing_certificate];
    attributes.sort();
    let attributes = attributes.concat();
    // RFC 5652, 5.4: signed as a SET, carried as [0].
    let key: Vec<u8> =
        (0..32).map(|at| u8::from_str_radix(&KEY[2 * at..2 * at + 2], 16).unwrap()).collect();
    let key = SigningKey::from_slice(&key).unwrap();
    let signature: Signature = key.sign(&tlv(0x31, &[&attributes]));
    let own = &certificate.tbs_certificate;
    let signer = sequence(&[
        &integer(&[1]),
        &sequence(&[&own.issuer.to_der().unwrap(), &own.serial_number.to_der().unwrap()]),
        &sha256(),
        &tlv(0xa0, &[&attributes]),
        &sequence(&[&oid(&[0x2a, 0x86, 0x48, 0xce, 0x3d, 0x04, 0x03, 0x02])]),
        &octets(signature.to_der().as_bytes()),
    ]);
    let content = sequence(&[
        &integer(&[3]),
        &tlv(0x31, &[&sha256()]),
        &sequence(&[&oid(TST_INFO), &tlv(0xa0, &[&octets(&info)])]),
        &tlv(0xa0, &[&whole]),
        &tlv(0x31, &[&signer]),
    ]);
    let signed_data = oid(&[0x2a, 0x86, 0x48, 0x86, 0xf7, 0x0d, 0x01, 0x07, 0x02]);
    let token = sequence(&[&signed_data, &tlv(0xa0, &[&content])]);
    sequence(&[&sequence(&[&integer(&[0])]), &token])
}

/// id-ct-TSTInfo, 1.2.840.113549.1.9.16.1.4.
const TST_INFO: &[u8] = &[0x2a, 0x86, 0x48, 0x86, 0xf7, 0x0d, 0x01, 0x09, 0x10, 0x01, 0x04];

/// An attribute of PKCS #9: the arcs after 1.2.840.113549.1, and its one value.
fn attribute(arcs: &[u8], value: &[u8]) -> Vec<u8> {
    let kind = [&[0x2a, 0x86, 0x48, 0x86, 0xf7, 0x0d, 0x01][..], arcs].concat();
    sequence(&[&oid(&kind), &tlv(0x31, &[value])])
}

/// id-sha256, 2.16.840.1.101.3.4.2.1.
fn sha256() -> Vec<u8> {
    sequence(&[&oid(&[0x60, 0x86, 0x48, 0x01, 0x65, 0x03, 0x04, 0x02, 0x01])])
}

fn integer(bytes: &[u8]) -> Vec<u8> {
    tlv(0x02, &[bytes])
}

fn octets(bytes: &[u8]) -> Vec<u8> {
    tlv(0x04, &[bytes])
}

fn oid(bytes: &[u8]) -> Vec<u8> {
    tlv(0x06, &[bytes])
}

fn sequence(parts: &[&[u8]]) -> Vec<u8> {
    tlv(0x30, parts)
}

/// Tag, length and content (X.690, 8.1).
fn tlv(tag: u8, parts: &[&[u8]]) -> Vec<u8> {
    let content = parts.concat();
    let length = u16::try_from(content.len()).unwrap().to_be_bytes();
    let length: &[u8] = match content.len() {
        0..128 => &length[1..],
        128..256 => &[0x81, length[1]],
        _ => &[0x82, length[0], length[1]],
    };
    [&[tag][..], length, &content].concat()
}
