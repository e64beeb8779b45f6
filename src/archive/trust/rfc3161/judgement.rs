//! What a time stamp proves: the judgement's types, and its statements and flaws in plain words.
//!
//! Not here: how it is found.

use std::fmt;
use std::time::Duration;

use chrono::{DateTime, NaiveDate, Utc};

/// Judgement of a reply.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StampJudgement {
    /// What the stamp says, if it can be read; true only if there are no flaws.
    pub stamp: Option<Stamp>,
    /// How far back the signer is known.
    pub anchor: Anchor,
    /// All that is wrong.
    pub flaws: Vec<Flaw>,
    /// Bytes that no signature covers.
    pub uncovered: Vec<Uncovered>,
}

/// What a stamp says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// When the authority saw the digest.
    pub time: Moment,
    /// How far off its clock may be, in microseconds, if it says so.
    pub accuracy: Option<u64>,
    /// Its number, hexadecimal.
    pub serial: String,
    /// The rules it was made by, as an object identifier.
    pub policy: String,
    /// The authority's name by the certificate that signed, or by the stamp if there is none.
    pub authority: String,
    /// The name that the stamp itself gives, if it is another one.
    pub other_name: Option<String>,
}

/// How far back the signer of a stamp is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// No certificate was given to judge by.
    #[default]
    NotAsked,
    /// It is, or descends from, the given certificate of this name.
    Anchored(String),
    /// It does not descend from a given certificate.
    NotAnchored,
}

impl StampJudgement {
    /// True if nothing is wrong; who the signer is may be open, see [`Anchor`].
    pub fn is_good(&self) -> bool {
        self.flaws.is_empty() && self.stamp.is_some()
    }

    /// What could not be judged: an unusable certificate, or ways of signing not known here.
    pub fn open(&self) -> Vec<String> {
        self.flaws.iter().filter(|flaw| is_open(flaw)).map(ToString::to_string).collect()
    }

    /// What is wrong, without what could not be judged.
    pub fn wrong(&self) -> Vec<String> {
        self.flaws.iter().filter(|flaw| !is_open(flaw)).map(ToString::to_string).collect()
    }

    /// True if the given certificate cannot be used, so that what was asked was not checked.
    pub fn could_not_check(&self) -> bool {
        self.flaws.iter().any(|flaw| matches!(flaw, Flaw::Authority(_)))
    }

    /// What is shown.
    pub fn shown(&self) -> Vec<String> {
        let Some(stamp) = self.stamp.as_ref().filter(|_| self.is_good()) else {
            return Vec::new();
        };
        let Stamp { time, serial, policy, authority, .. } = stamp;
        match &self.anchor {
            Anchor::Anchored(given) => vec![
                format!(
                    "the seal was there at {time}{}: `{authority}` signed that",
                    stamp.within()
                ),
                format!("`{authority}` is vouched for by the certificate that you gave, `{given}`"),
                format!("it is the time stamp number {serial} under the rules {policy}"),
            ],
            Anchor::NotAsked | Anchor::NotAnchored => vec![
                format!("the time stamp is for this seal and says {time}{}", stamp.within()),
                format!(
                    "it is signed by the certificate that it carries, in the name `{authority}`"
                ),
                format!("it has the number {serial} and names the rules {policy}"),
            ],
        }
    }

    /// What stays open, and how to settle it.
    pub fn not_shown(&self) -> Vec<String> {
        let Some(stamp) = self.stamp.as_ref().filter(|_| self.is_good()) else {
            return Vec::new();
        };
        let name = &stamp.authority;
        let mut said = Vec::new();
        if self.anchor == Anchor::NotAsked {
            said.push(format!(
                "that `{name}` is an authority for time must be known from elsewhere, and with it the \
                 time; give its certificate with `--authority`"
            ));
        }
        if let Some(other) = &stamp.other_name {
            said.push(format!("the time stamp itself names its maker otherwise: `{other}`"));
        }
        said.push(format!(
            "whether the certificate of `{name}` had been withdrawn by then: ask the authority"
        ));
        said.push("that nothing was changed before that time".to_owned());
        said.extend(self.uncovered.iter().map(|part| {
            format!("{part}, which the reply carries along, is under no signature and says nothing")
        }));
        said
    }

    /// What is wrong.
    pub fn flaws(&self) -> Vec<String> {
        self.flaws.iter().map(ToString::to_string).collect()
    }
}

fn is_open(flaw: &Flaw) -> bool {
    matches!(flaw, Flaw::Authority(_) | Flaw::Unsupported(_) | Flaw::NotBuilt)
}

impl Stamp {
    /// The clock's accuracy in words that follow the time.
    fn within(&self) -> String {
        let Some(micros) = self.accuracy.filter(|micros| *micros > 0) else {
            return String::new();
        };
        let (seconds, rest) = (micros / 1_000_000, micros % 1_000_000);
        let fraction = format!(".{rest:06}");
        format!(" (to within {seconds}{} s)", fraction.trim_end_matches('0').trim_end_matches('.'))
    }
}

/// A moment in UTC, to the fraction of a second that the authority gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moment {
    second: DateTime<Utc>,
    /// Digits after the point, none if it is on the second.
    fraction: String,
}

impl Moment {
    /// Reads the text of a `GeneralizedTime` (RFC 3161, 2.4.2): `YYYYMMDDhhmmss[.s...]Z`, without zeros
    /// at the end of the fraction.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.strip_suffix('Z')?;
        let (whole, fraction) = match text.split_once('.') {
            Some((whole, fraction)) => (whole, Some(fraction)),
            None => (text, None),
        };
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        let is_canonical = fraction.is_none_or(|f| digits(f) && !f.is_empty() && !f.ends_with('0'));
        if whole.len() != 14 || !digits(whole) || !is_canonical {
            return None;
        }
        let part = |from: usize, to: usize| whole[from..to].parse::<u32>().ok();
        let day = NaiveDate::from_ymd_opt(whole[..4].parse().ok()?, part(4, 6)?, part(6, 8)?)?;
        let second = day.and_hms_opt(part(8, 10)?, part(10, 12)?, part(12, 14)?)?.and_utc();
        let is_known = 0 <= second.timestamp();
        is_known.then(|| Self { second, fraction: fraction.unwrap_or_default().to_owned() })
    }

    /// The whole second in UTC.
    pub fn utc(&self) -> DateTime<Utc> {
        self.second
    }

    /// Since 1970, in whole seconds.
    pub fn since_1970(&self) -> Duration {
        Duration::from_secs(u64::try_from(self.second.timestamp()).unwrap_or(0))
    }
}

impl fmt::Display for Moment {
    /// As in ISO 8601: `2026-11-25T14:05:08.25Z`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.second.format("%Y-%m-%dT%H:%M:%S"))?;
        match self.fraction.as_str() {
            "" => f.write_str("Z"),
            fraction => write!(f, ".{fraction}Z"),
        }
    }
}

/// What is wrong with a reply or with what it is judged by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// The file with trusted certificates cannot be used; the cause.
    Authority(String),
    /// This program was built without time stamps.
    NotBuilt,
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
            Self::NotBuilt => write!(
                f,
                "the time stamp was not checked: this program was built without them (feature \
                 `timestamp`)"
            ),
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
