//! What a time stamp proves: the judgement's types, and its statements in plain words.
//!
//! Not here: how it is found.

use super::moment::Moment;
use super::problems::{Flaw, Uncovered};

/// Judgement of a reply.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StampJudgement {
    /// What the stamp says, where it can be read; true only where there are no flaws.
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
    /// How far off its clock may be, in microseconds, where it says so.
    pub accuracy: Option<u64>,
    /// Its number, hexadecimal.
    pub serial: String,
    /// The rules it was made by, as an object identifier.
    pub policy: String,
    /// The authority's name by the certificate that signed, or by the stamp where there is none.
    pub authority: String,
    /// The name that the stamp itself gives, where it is another one.
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
    /// True where nothing is wrong; who the signer is may be open, see [`Anchor`].
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

    /// True where the given certificate cannot be used, so that what was asked was not checked.
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
    matches!(flaw, Flaw::Authority(_) | Flaw::Unsupported(_))
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
