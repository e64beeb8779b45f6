//! What a signature proves: the judgement's types, and its statements in plain words.
//!
//! Not here: how it is found (the file above).

use chrono::{DateTime, NaiveDate, NaiveDateTime, Utc};

/// The purpose that our signatures name, so that one made for another purpose is never taken.
pub const NAMESPACE: &str = "splitcase";

/// Why nothing can be said of a signature by a program without that part.
pub const NOT_BUILT: &str = "this program was built without signatures (feature `signature`)";

/// Judgement of a signature.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SignatureJudgement {
    /// What the check of the signature itself gave.
    pub verdict: Verdict,
    /// Whose key it names; absent if the file is not a signature.
    pub signer: Option<Signer>,
    /// Whether that key is one of those accepted.
    pub standing: Standing,
    /// True if the file is byte for byte as a signer writes it.
    pub is_exact: bool,
}

/// What the check of a signature gave.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It fits the message.
    Good,
    /// It does not fit the message.
    Bad,
    /// The file is no SSHSIG; the cause.
    Malformed(String),
    /// It was made for another purpose, which it names.
    OtherNamespace(String),
    /// The key is of a kind that is not checked here.
    Unsupported(String),
    /// This program was built without signatures.
    NotBuilt,
}

/// The key that a signature names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signer {
    /// `SHA256:` and the digest of the public key in base64, as `ssh-keygen -l` shows it.
    pub fingerprint: String,
    /// Its kind in the words of OpenSSH: `ssh-ed25519`.
    pub kind: String,
}

/// How a key is in the list of those accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// No list was given.
    NotAsked,
    /// It is in the list.
    Allowed {
        /// The name or comment beside it.
        name: Option<String>,
        /// Limits in time that the list sets to it, in the list's words.
        limits: Option<String>,
    },
    /// It is not in the list, or not for this purpose; the reason then.
    NotAllowed(Option<String>),
    /// No key could be read from the list; the cause.
    ListUnreadable(String),
}

impl SignatureJudgement {
    /// A verdict on what names no signer.
    pub(super) fn without_signer(verdict: Verdict) -> Self {
        Self { verdict, signer: None, standing: Standing::NotAsked, is_exact: false }
    }

    /// True if the signature fits and nothing is wrong with it; whose key it is may be open.
    pub fn is_good(&self) -> bool {
        self.flaws().is_empty()
    }

    /// True if nothing could be said: the list of accepted keys cannot be read, or the key is of
    /// a kind that is not checked here.
    pub fn could_not_check(&self) -> bool {
        matches!(self.standing, Standing::ListUnreadable(_))
            || matches!(self.verdict, Verdict::Unsupported(_) | Verdict::NotBuilt)
    }

    /// Fingerprint and name of the signer, if the signature fits and its key is accepted.
    pub fn accepted(&self) -> Option<(&str, Option<&str>)> {
        match (&self.verdict, &self.signer, &self.standing) {
            (Verdict::Good, Some(signer), Standing::Allowed { name, .. }) => {
                Some((&signer.fingerprint, name.as_deref()))
            }
            _ => None,
        }
    }

    /// What is wrong if the list accepts the key only at other times than `now`, as `ssh-keygen`
    /// has it (manual page, ALLOWED SIGNERS, `valid-after` and `valid-before`).
    pub fn outside_limits(&self, now: DateTime<Utc>) -> Option<String> {
        let Standing::Allowed { limits: Some(limits), .. } = &self.standing else { return None };
        is_outside(limits, now)
            .then(|| format!("the list does not accept that key today: {}", plain(limits)))
    }

    /// What is shown.
    pub fn shown(&self) -> Vec<String> {
        let (Verdict::Good, Some(signer)) = (&self.verdict, &self.signer) else {
            return Vec::new();
        };
        let Signer { fingerprint, kind } = signer;
        let mut said = vec![format!("the seal was signed by the key {fingerprint} ({kind})")];
        if let Standing::Allowed { name, .. } = &self.standing {
            let name = name.as_ref().map(|name| format!(", under the name `{}`", plain(name)));
            let name = name.unwrap_or_default();
            said.push(format!("that key is one of those that you accept{name}"));
        }
        said
    }

    /// What stays open, and how to settle it.
    pub fn not_shown(&self) -> Vec<String> {
        if self.verdict != Verdict::Good {
            return Vec::new();
        }
        let mut said = Vec::new();
        if self.standing == Standing::NotAsked {
            said.push(
                "that this key is the workshop's must be known from elsewhere; \
                 give its public key with `--signer`"
                    .to_owned(),
            );
        }
        if let Standing::Allowed { limits: Some(limits), .. } = &self.standing {
            said.push(format!(
                "the list limits that key in time ({}), and a signature does not say when it was \
                 made; compare with a time stamp",
                plain(limits)
            ));
        }
        said.push("when it was signed: only a time stamp says it".to_owned());
        said.push(
            "a workshop's own key does not bind the workshop: whoever holds it can sign again"
                .to_owned(),
        );
        said
    }

    /// What is wrong.
    pub fn flaws(&self) -> Vec<String> {
        let mut said = Vec::new();
        match &self.verdict {
            Verdict::Good => {}
            Verdict::Bad => said.push(
                "the signature does not fit: the seal or the signature was changed after signing"
                    .to_owned(),
            ),
            Verdict::Malformed(cause) => {
                said.push(format!("the signature cannot be read: {cause}"));
            }
            Verdict::OtherNamespace(name) => said.push(format!(
                "the signature was made for another purpose, `{}`, and says nothing of this seal",
                plain(name)
            )),
            Verdict::Unsupported(kind) => said.push(format!(
                "the signature is by a key of a kind that is not checked here: {}",
                plain(kind)
            )),
            Verdict::NotBuilt => said.push(format!("the signature was not checked: {NOT_BUILT}")),
        }
        if self.signer.is_some() && !self.is_exact {
            said.push(
                "the signature's file is not as a signer writes it; it was changed".to_owned(),
            );
        }
        match &self.standing {
            Standing::NotAsked | Standing::Allowed { .. } => {}
            Standing::NotAllowed(reason) => said.push(format!(
                "the signing key {} is none of those that you accept{}",
                self.signer.as_ref().map_or("", |signer| signer.fingerprint.as_str()),
                reason.as_ref().map(|reason| format!(": {}", plain(reason))).unwrap_or_default()
            )),
            Standing::ListUnreadable(cause) => {
                said.push(format!(
                    "the public key or list of keys that you gave cannot be read: {}",
                    plain(cause)
                ));
            }
        }
        said
    }
}

/// True if limits as [`Standing::Allowed`] holds them leave a moment out. A limit that cannot be
/// read leaves all out. Times without `Z` are local ones for `ssh-keygen`, and UTC here.
fn is_outside(limits: &str, now: DateTime<Utc>) -> bool {
    limits.split(", ").any(|limit| {
        let Some((name, text)) = limit.split_once(' ') else { return true };
        let Some(time) = moment(text) else { return true };
        if name == "valid-after" { now < time } else { time < now }
    })
}

/// `YYYYMMDD`, `YYYYMMDDHHMM` or `YYYYMMDDHHMMSS`, with `Z` or not.
fn moment(text: &str) -> Option<DateTime<Utc>> {
    let digits = text.strip_suffix('Z').unwrap_or(text);
    let time = match digits.len() {
        8 => NaiveDate::parse_from_str(digits, "%Y%m%d").ok()?.and_hms_opt(0, 0, 0)?,
        12 => NaiveDateTime::parse_from_str(&format!("{digits}00"), "%Y%m%d%H%M%S").ok()?,
        14 => NaiveDateTime::parse_from_str(digits, "%Y%m%d%H%M%S").ok()?,
        _ => return None,
    };
    Some(time.and_utc())
}

/// A stranger's text without characters that would steer a terminal.
fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '?' } else { c }).collect()
}
