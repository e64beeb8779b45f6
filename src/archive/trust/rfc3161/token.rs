//! The reply's bytes -> token, read strictly: what RFC 3161 fixes is checked, signatures are not.
//!
//! Sources: RFC 3161, 2.4.2; RFC 5652, 5. Not here: which digest, whose signature.

use cms::content_info::CmsVersion;
use cms::signed_data::{SignerIdentifier, SignerInfo};
use der::asn1::OctetString;
use der::{Encode as _, Tag, Tagged as _};
use x509_cert::Certificate;

use super::algorithm::Hash;
use super::format::{
    PkiStatusInfo, SIGNED_DATA, SignedData, TST_INFO, TimeStampResp, TstInfo, exact,
};
use super::judgement::{Flaw, Moment, Uncovered, plain};

/// Replies are a few kilobytes; a longer one is none. In bytes.
const LONGEST: usize = 256 * 1024;
/// No reply carries more certificates.
pub const MOST_CERTIFICATES: usize = 16;

/// A reply whose form is right.
pub struct Token {
    pub info: TstInfo,
    /// The bytes of `info`, over which the message digest goes.
    pub info_bytes: Vec<u8>,
    pub time: Moment,
    pub signer: SignerInfo,
    /// The digest that the signer uses.
    pub digest: Hash,
    pub certificates: Vec<Certificate>,
    pub uncovered: Vec<Uncovered>,
}

/// Reads a reply.
///
/// # Errors
/// The flaw for which nothing more can be said.
pub fn read(reply: &[u8]) -> Result<Token, Flaw> {
    let malformed = |part| move |cause| Flaw::Malformed(part, cause);
    if reply.len() > LONGEST {
        return Err(Flaw::Malformed("the reply", "it is too long".to_owned()));
    }
    let reply: TimeStampResp = exact(reply).map_err(malformed("the reply"))?;
    granted(&reply.status)?;
    let token = reply.token.ok_or_else(|| unfit("it holds no time stamp"))?;
    require(token.content_type == SIGNED_DATA, "its content is not signed data")?;
    let bytes = token.content.to_der().map_err(|error| error.to_string());
    let body: SignedData =
        bytes.and_then(|bytes| exact(&bytes)).map_err(malformed("the time stamp"))?;
    let (signer, digest) = signer(&body)?;

    // RFC 3161, 2.4.2: the content is a DER `TSTInfo` in an octet string.
    require(body.content.econtent_type == TST_INFO, "what is signed is not a time")?;
    let content = body.content.econtent.ok_or_else(|| unfit("it holds no time"))?;
    let octets: OctetString = content
        .decode_as()
        .map_err(|error| Flaw::Malformed("the time stamp", error.to_string()))?;
    let info_bytes = octets.as_bytes().to_vec();
    let info: TstInfo = exact(&info_bytes).map_err(malformed("the signed time"))?;
    require(info.version == 1, "its version is not 1")?;
    require(
        !info.extensions.iter().flatten().any(|extension| extension.critical),
        "it has a condition that is not known here",
    )?;
    let time = (info.gen_time.tag() == Tag::GeneralizedTime)
        .then(|| std::str::from_utf8(info.gen_time.value()).ok())
        .flatten()
        .and_then(Moment::read)
        .ok_or_else(|| Flaw::Malformed("the signed time", "it is no moment in UTC".to_owned()))?;

    let mut uncovered = Vec::new();
    if reply.status.text.is_some() {
        uncovered.push(Uncovered::StatusText);
    }
    if signer.unsigned_attrs.is_some() {
        uncovered.push(Uncovered::UnsignedAttributes);
    }
    if body.revocations.is_some() {
        uncovered.push(Uncovered::RevocationLists);
    }
    let members = body.certificates.map(|set| set.0).unwrap_or_default();
    require(members.len() <= MOST_CERTIFICATES, "it carries too many certificates")?;
    let mut certificates = Vec::new();
    for member in members {
        require(member.tag() == Tag::Sequence, "it carries a certificate of another form")?;
        let bytes = member.to_der().map_err(|error| error.to_string());
        let read = bytes.and_then(|bytes| exact(&bytes));
        certificates.push(read.map_err(malformed("a certificate in the reply"))?);
    }
    Ok(Token { info, info_bytes, time, signer, digest, certificates, uncovered })
}

fn unfit(what: &str) -> Flaw {
    Flaw::Unfit(what.to_owned())
}

fn require(holds: bool, otherwise: &str) -> Result<(), Flaw> {
    if holds { Ok(()) } else { Err(unfit(otherwise)) }
}

/// RFC 3161, 2.4.2: only `granted` and `grantedWithMods` come with a token. Our query leaves nothing
/// to change, and no signature covers the status, so only `granted` passes.
fn granted(status: &PkiStatusInfo) -> Result<(), Flaw> {
    let words = status.text.iter().flatten().map(|text| plain(text)).collect::<Vec<_>>().join("; ");
    match status.status {
        0 => require(status.fail_info.is_none(), "it is granted and refused at once"),
        1 => Err(Flaw::Unsupported("it is granted with changes".to_owned())),
        other => Err(Flaw::Refused(other, words)),
    }
}

/// The one signer and its digest. RFC 5652, 5.1 and 5.3 fix the versions.
fn signer(body: &SignedData) -> Result<(SignerInfo, Hash), Flaw> {
    require(body.version == 3, "the version of its signed data is not 3")?;
    let [signer] = body.signers.as_slice() else {
        return Err(unfit("it must have one signer"));
    };
    let version = match signer.sid {
        SignerIdentifier::IssuerAndSerialNumber(_) => CmsVersion::V1,
        SignerIdentifier::SubjectKeyIdentifier(_) => CmsVersion::V3,
    };
    require(signer.version == version, "the version of its signer does not fit")?;
    let digest = Hash::named(&signer.digest_alg)
        .ok_or_else(|| Flaw::Unsupported(format!("digest {}", signer.digest_alg.oid)))?;
    let [listed] = body.digest_algorithms.as_slice() else {
        return Err(unfit("it must name one digest"));
    };
    require(Hash::named(listed) == Some(digest), "it names another digest than its signer")?;
    Ok((signer.clone(), digest))
}
