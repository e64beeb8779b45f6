//! Whether a certificate may do what it does: certificate, time -> reasons against it.
//!
//! Sources: RFC 3161, 2.3 for the signer; RFC 5280, 4.2 and 6.1 for those above it.

use std::time::Duration;

use der::asn1::ObjectIdentifier;
use x509_cert::Certificate;
use x509_cert::ext::pkix::{BasicConstraints, ExtendedKeyUsage, KeyUsage};

/// id-kp-timeStamping (RFC 5280, 4.2.1.12).
const TIME_STAMPING: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.3.6.1.5.5.7.3.8");

/// Conditions that may be critical: looked at here, or naming only (RFC 5280, 4.2.1).
const KNOWN: [ObjectIdentifier; 7] = [
    ObjectIdentifier::new_unwrap("2.5.29.14"),
    ObjectIdentifier::new_unwrap("2.5.29.15"),
    ObjectIdentifier::new_unwrap("2.5.29.17"),
    ObjectIdentifier::new_unwrap("2.5.29.19"),
    ObjectIdentifier::new_unwrap("2.5.29.32"),
    ObjectIdentifier::new_unwrap("2.5.29.35"),
    ObjectIdentifier::new_unwrap("2.5.29.37"),
];

/// What speaks against a signer at `time` since 1970.
pub fn of_signer(certificate: &Certificate, time: Duration) -> Vec<String> {
    let own = &certificate.tbs_certificate;
    let mut against = of_any(certificate, time);
    // RFC 3161, 2.3: this purpose alone, and critical.
    match own.get::<ExtendedKeyUsage>() {
        Ok(Some((true, purposes))) if purposes.0 == [TIME_STAMPING] => {}
        Ok(Some((false, purposes))) if purposes.0 == [TIME_STAMPING] => {
            against.push("its purpose, stamping times, is not marked as critical".to_owned());
        }
        Ok(Some(_)) => {
            against.push("it is for other purposes than stamping times alone".to_owned());
        }
        Ok(None) => against.push("it is not made out for stamping times".to_owned()),
        Err(error) => against.push(format!("its purpose cannot be read: {error}")),
    }
    match own.get::<KeyUsage>() {
        Ok(None) => {}
        Ok(Some((_, usage))) if usage.digital_signature() || usage.non_repudiation() => {}
        _ => against.push("its key is not meant for signing".to_owned()),
    }
    against
}

/// What speaks against an issuer at `time` with `between` certificates between it and the signer.
pub fn of_issuer(certificate: &Certificate, time: Duration, between: usize) -> Vec<String> {
    let own = &certificate.tbs_certificate;
    let mut against = of_any(certificate, time);
    match own.get::<BasicConstraints>() {
        Ok(Some((_, limits))) if limits.ca => {
            if limits.path_len_constraint.is_some_and(|most| between > usize::from(most)) {
                against.push("it may not have so many certificates below it".to_owned());
            }
        }
        _ => against.push("it may not issue certificates".to_owned()),
    }
    match own.get::<KeyUsage>() {
        Ok(None) => {}
        Ok(Some((_, usage))) if usage.key_cert_sign() => {}
        _ => against.push("its key is not meant for certificates".to_owned()),
    }
    against
}

fn of_any(certificate: &Certificate, time: Duration) -> Vec<String> {
    let own = &certificate.tbs_certificate;
    let mut against = Vec::new();
    let (from, to) = (own.validity.not_before, own.validity.not_after);
    if time < from.to_unix_duration() || time > to.to_unix_duration() {
        let (from, to) = (from.to_date_time(), to.to_date_time());
        against.push(format!("it held from {from} to {to}, not at the time of the stamp"));
    }
    for extension in own.extensions.iter().flatten() {
        if extension.critical && !KNOWN.contains(&extension.extn_id) {
            let kind = extension.extn_id;
            against.push(format!("it sets a condition that is not known here, {kind}"));
        }
    }
    against
}
