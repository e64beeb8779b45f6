//! All words of the time stamp's judgement about what is wrong or left open.

use std::fmt;

/// What is wrong with a reply or with what it is judged by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// The file with trusted certificates cannot be used; the cause.
    Authority(String),
    /// A part of the reply cannot be read; the part and the cause.
    Malformed(&'static str, String),
    /// The authority refused; its status and its words.
    Refused(u32, String),
    /// Not of the kind or version that RFC 3161 has; what.
    Unfit(String),
    /// The stamp is over another digest; which.
    OtherDigest(String),
    /// No certificate in the reply or given is the signer's.
    NoSigner,
    /// Signed attribute missing, twice, or with another value; its name.
    Attribute(&'static str),
    /// The signature does not fit.
    Signature,
    /// A way of signing that is not checked here; which.
    Unsupported(String),
    /// The signer's certificate is not fit to stamp times; why.
    Signer(String),
    /// A certificate on the way from the signer to the trusted one is not fit; which and why.
    Issuer(String, String),
    /// No way leads from the signer to a trusted certificate.
    NotAnchored,
    /// A certificate that the reply carries does not bear its issuer's signature; which.
    Damaged(String),
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Authority(cause) => {
                write!(f, "the authority's certificate that you gave cannot be used: {cause}")
            }
            Self::Malformed(part, cause) => write!(f, "{part} cannot be read: {cause}"),
            Self::Refused(status, words) if words.is_empty() => {
                write!(f, "the authority gave no time stamp (status {status})")
            }
            Self::Refused(status, words) => {
                write!(f, "the authority gave no time stamp (status {status}): {words}")
            }
            Self::Unfit(what) => {
                write!(f, "the reply is not a time stamp as RFC 3161 has it: {what}")
            }
            Self::OtherDigest(digest) => {
                write!(f, "the time stamp is for another seal, with the digest {digest}")
            }
            Self::NoSigner => write!(
                f,
                "the certificate of the one who signed the time stamp is neither in the reply nor given"
            ),
            Self::Attribute(name) => {
                write!(
                    f,
                    "the signed part of the time stamp does not agree with the rest: `{name}`"
                )
            }
            Self::Signature => write!(
                f,
                "the authority's signature does not fit: the time stamp was changed after signing"
            ),
            Self::Unsupported(what) => {
                write!(f, "the time stamp is signed in a way that is not checked here: {what}")
            }
            Self::Signer(why) => {
                write!(f, "the certificate that signed the time stamp is not fit for it: {why}")
            }
            Self::Issuer(name, why) => {
                write!(f, "the certificate `{name}` above the signer's is not fit for it: {why}")
            }
            Self::NotAnchored => write!(
                f,
                "the time stamp does not come from the authority whose certificate you gave"
            ),
            Self::Damaged(name) => {
                write!(f, "the certificate `{name}` in the reply was changed after it was issued")
            }
        }
    }
}

/// Bytes of a reply that no signature covers, so that a change to them would not be seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Uncovered {
    /// The authority's words beside its status; they say nothing of the seal.
    StatusText,
    /// Attributes that are not signed.
    UnsignedAttributes,
    /// Lists of revoked certificates.
    RevocationLists,
    /// A certificate whose issuer is neither in the reply nor given, or of a kind not checked here.
    Certificate(String),
}

impl fmt::Display for Uncovered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::StatusText => write!(f, "the authority's words beside its answer"),
            Self::UnsignedAttributes => write!(f, "remarks added after signing"),
            Self::RevocationLists => write!(f, "lists of withdrawn certificates"),
            Self::Certificate(name) => write!(f, "the certificate `{name}`"),
        }
    }
}

/// A stranger's text without characters that would steer a terminal.
pub fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '?' } else { c }).collect()
}
