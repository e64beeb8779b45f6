//! Certificates: the way from a signer to a trusted one, and whether each on it may do what it does.
//!
//! Certificates, time -> name of the trusted one, or flaws. Sources: RFC 5280, 4.2 and 6.1; RFC 3161,
//! 2.3 for the signer. Every given certificate is trusted as it is, the signer's own too. Not here:
//! whether one was revoked.

use std::time::Duration;

use der::asn1::ObjectIdentifier;
use der::{DecodePem as _, Encode as _};
use x509_cert::Certificate;
use x509_cert::ext::pkix::{
    AuthorityKeyIdentifier, BasicConstraints, ExtendedKeyUsage, KeyUsage, SubjectKeyIdentifier,
};

use super::algorithm::{self, Refusal};
use super::format::exact;
use super::judgement::{Flaw, Moment, Uncovered, plain};
use super::token::MOST_CERTIFICATES;

/// Certificates from signer to trusted one, at most.
const LONGEST: usize = 8;
/// Signatures looked at on the search for a way, so that no reply makes it long.
const MOST_STEPS: usize = 64;

/// The certificates at hand.
pub struct Chain<'a> {
    /// Those in the reply.
    pub carried: &'a [Certificate],
    /// Those that the reader trusts.
    pub trusted: &'a [Certificate],
    /// The time of the stamp.
    pub time: &'a Moment,
}

/// The certificates in a file: one as DER, or one or more as PEM with any text between.
///
/// # Errors
/// There is none, there are more than 16, or one cannot be read; the cause.
pub fn read_certificates(file: &[u8]) -> Result<Vec<Certificate>, String> {
    const BEGIN: &str = "-----BEGIN CERTIFICATE-----";
    const END: &str = "-----END CERTIFICATE-----";
    if file.first() == Some(&0x30) {
        return exact(file).map(|one| vec![one]);
    }
    let text = std::str::from_utf8(file).map_err(|_| "it is neither PEM nor DER".to_owned())?;
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(start) = rest.find(BEGIN) {
        let length = rest[start..].find(END).ok_or("a certificate in it has no end")? + END.len();
        let one = &rest[start..start + length];
        found.push(Certificate::from_pem(one).map_err(|error| error.to_string())?);
        rest = &rest[start + length..];
        if found.len() > MOST_CERTIFICATES {
            return Err("it holds too many certificates".to_owned());
        }
    }
    if found.is_empty() { Err("no certificate is in it".to_owned()) } else { Ok(found) }
}

/// The name of a certificate's owner as in RFC 4514.
pub fn name(certificate: &Certificate) -> String {
    plain(&certificate.tbs_certificate.subject.to_string())
}

/// Whether `issuer` signed `certificate`.
fn is_issued(certificate: &Certificate, issuer: &Certificate) -> Result<(), Refusal> {
    let own = &certificate.tbs_certificate;
    let key = &issuer.tbs_certificate.subject_public_key_info;
    // RFC 5280, 4.1.1.2: both places name the same algorithm.
    if own.signature != certificate.signature_algorithm {
        return Err(Refusal::Wrong);
    }
    let message = own.to_der().map_err(|_| Refusal::Wrong)?;
    let signature = certificate.signature.as_bytes().ok_or(Refusal::Wrong)?;
    algorithm::verify(key, &own.signature, None, &message, signature)
}

impl<'a> Chain<'a> {
    /// The trusted certificates and then those of the reply that may have issued this one, by name.
    fn issuers(&self, certificate: &Certificate) -> impl Iterator<Item = &'a Certificate> {
        let issuer = certificate.tbs_certificate.issuer.clone();
        let all = self.trusted.iter().chain(self.carried);
        all.filter(move |other| other.tbs_certificate.subject == issuer)
    }

    /// The name of the trusted certificate that `signer` is or descends from.
    ///
    /// # Errors
    /// What is wrong on the first way found, or that there is none.
    pub fn anchor(&self, signer: &'a Certificate) -> Result<String, Vec<Flaw>> {
        let mut faults = None;
        let mut steps = MOST_STEPS;
        self.climb(&mut vec![signer], &mut steps, &mut faults)
            .ok_or_else(|| faults.unwrap_or_else(|| vec![Flaw::NotAnchored]))
    }

    fn climb(
        &self,
        way: &mut Vec<&'a Certificate>,
        steps: &mut usize,
        faults: &mut Option<Vec<Flaw>>,
    ) -> Option<String> {
        let last = *way.last()?;
        if self.trusted.contains(last) {
            let found = self.faults(way);
            if found.is_empty() {
                return Some(name(last));
            }
            faults.get_or_insert(found);
        }
        if way.len() >= LONGEST {
            return None;
        }
        for issuer in self.issuers(last) {
            if *steps == 0 || way.contains(&issuer) {
                continue;
            }
            *steps -= 1;
            if is_issued(last, issuer).is_ok() {
                way.push(issuer);
                if let Some(name) = self.climb(way, steps, faults) {
                    return Some(name);
                }
                way.pop();
            }
        }
        None
    }

    fn faults(&self, way: &[&Certificate]) -> Vec<Flaw> {
        let above = way.iter().skip(1).enumerate();
        above
            .flat_map(|(between, issuer)| {
                let against = of_issuer(issuer, self.time.since_1970(), between);
                against.into_iter().map(|why| Flaw::Issuer(name(issuer), why))
            })
            .collect()
    }

    /// Looks at the certificates beside the signer's, which its signature does not cover: each must
    /// bear its issuer's signature, or is reported as uncovered if the issuer is not at hand.
    pub fn look_over(
        &self,
        signer: &Certificate,
        flaws: &mut Vec<Flaw>,
        uncovered: &mut Vec<Uncovered>,
    ) {
        for certificate in self.carried {
            if certificate == signer || self.trusted.contains(certificate) {
                continue;
            }
            let verdicts: Vec<_> =
                self.issuers(certificate).map(|issuer| is_issued(certificate, issuer)).collect();
            if verdicts.contains(&Ok(())) {
                continue;
            }
            let is_stray = !self.is_above_another(certificate) || self.is_altered_copy(certificate);
            let is_unknown = |one| matches!(one, &Err(Refusal::Unsupported(_)));
            let is_changed = !verdicts.is_empty() || is_own_issuer(certificate);
            if is_stray || (is_changed && !verdicts.iter().any(is_unknown)) {
                flaws.push(Flaw::Damaged(name(certificate)));
            } else {
                uncovered.push(Uncovered::Certificate(name(certificate)));
            }
        }
    }

    /// True for what was a trusted certificate before something in it was changed.
    fn is_altered_copy(&self, certificate: &Certificate) -> bool {
        let own = &certificate.tbs_certificate;
        self.trusted.iter().map(|one| &one.tbs_certificate).any(|one| {
            one.serial_number == own.serial_number
                && one.subject_public_key_info == own.subject_public_key_info
        })
    }

    /// True if another certificate of the reply names this one as its issuer.
    fn is_above_another(&self, certificate: &Certificate) -> bool {
        let subject = &certificate.tbs_certificate.subject;
        self.carried
            .iter()
            .any(|other| other != certificate && other.tbs_certificate.issuer == *subject)
    }
}

/// True if the key numbers say that a certificate issued itself (RFC 5280, 4.2.1.1).
fn is_own_issuer(certificate: &Certificate) -> bool {
    let own = &certificate.tbs_certificate;
    let (Ok(Some((_, key))), Ok(Some((_, issuer)))) =
        (own.get::<SubjectKeyIdentifier>(), own.get::<AuthorityKeyIdentifier>())
    else {
        return false;
    };
    issuer.key_identifier.is_some_and(|issuer| issuer == key.0)
}

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

/// What is against a signer at `time` since 1970.
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

/// What is against an issuer at `time` with `between` certificates between it and the signer.
fn of_issuer(certificate: &Certificate, time: Duration, between: usize) -> Vec<String> {
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
