//! The judgement of what was sealed, and what it is judged by.
//!
//! Not here: the checks, the words.

use std::collections::BTreeMap;
use std::fmt;
use std::path::Path;

use chrono::{DateTime, Utc};

use super::words::vouchers::Voucher;
use super::words::{self, Statement};
use crate::archive::problems::{self, Flaw};
use crate::failure::Failure;

/// How a verification ended: three words with three meanings, and one for what cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All that was looked at fits together, and nothing outside vouches for it.
    AgreesWithItself,
    /// It agrees with itself, and somebody or something outside that the reader named vouches for it.
    VouchedFor,
    /// Something does not fit the rest, or the rules of its form.
    DoesNotAgree,
    /// Something could not be looked at or judged, and nothing that could is wrong.
    CannotBeJudged,
}

impl Outcome {
    /// Exit code of `verify`: 0, 1 or 2.
    pub fn code(self) -> u8 {
        match self {
            Self::AgreesWithItself | Self::VouchedFor => 0,
            Self::DoesNotAgree => 1,
            Self::CannotBeJudged => 2,
        }
    }
}

/// What a verification found.
#[derive(Debug, Default)]
pub struct Judgement {
    /// Who and what outside vouches for it, as the reader named them.
    pub vouchers: Vec<Voucher>,
    /// What was looked at and found so, the weightiest first.
    pub shown: Vec<Statement>,
    /// What is not shown by it, so that nobody takes it to be.
    pub not_shown: Vec<Statement>,
    /// What is wrong, in order of places, as found in each.
    pub flaws: Vec<Flaw>,
    /// What could not be looked at or judged.
    pub could_not: Vec<Failure>,
}

impl Judgement {
    /// How it ended: a flaw weighs more than what could not be judged, and that more than a voucher.
    pub fn outcome(&self) -> Outcome {
        match (self.flaws.is_empty(), self.could_not.is_empty(), self.vouchers.is_empty()) {
            (false, ..) => Outcome::DoesNotAgree,
            (true, false, _) => Outcome::CannotBeJudged,
            (true, true, false) => Outcome::VouchedFor,
            (true, true, true) => Outcome::AgreesWithItself,
        }
    }

    /// Takes over another judgement; what it says in the same words is said once.
    pub fn join(&mut self, other: Self) {
        let Self { vouchers, shown, not_shown, flaws, could_not } = other;
        for voucher in vouchers {
            if !self.vouchers.contains(&voucher) {
                self.vouchers.push(voucher);
            }
        }
        let add = |all: &mut Vec<Statement>, mut more: Vec<Statement>| {
            more.retain(|statement| !all.contains(statement));
            all.append(&mut more);
        };
        add(&mut self.shown, shown);
        add(&mut self.not_shown, not_shown);
        self.flaws.extend(flaws);
        self.could_not.extend(could_not);
    }

    /// Puts flaws in order and says, if nobody vouches, that nobody does.
    #[must_use]
    pub fn sorted(mut self) -> Self {
        self.flaws.sort_by(|a, b| a.place.cmp(&b.place));
        self.flaws.dedup();
        self.flaws = bounded(self.flaws);
        if self.outcome() == Outcome::AgreesWithItself {
            self.not_shown.insert(0, words::no_voucher());
        }
        self
    }
}

/// What to hold the path against, if there is something.
#[derive(Clone, Copy, Debug, Default)]
pub struct Against<'a> {
    /// For a PDF: the bag, the archive or the folder of originals that it is held against.
    pub originals: Option<&'a Path>,
    /// For an archive: the register's head as somebody noted it earlier, at least 32 digits.
    pub head: Option<&'a str>,
    /// Whose signatures count: the text of a public key or of a list of allowed signers.
    pub signers: Option<&'a str>,
    /// Which authority's time stamps count: its certificates as PEM or DER.
    pub authority: Option<&'a [u8]>,
    /// Makes papers again, so that their pages can be compared.
    pub maker: Option<Maker<'a>>,
    /// The reader's own clock. Without it nothing is held against it, and no bag may be gone.
    pub now: Option<DateTime<Utc>>,
}

/// A paper's file name and bytes.
pub type Made = (String, Vec<u8>);

/// Makes the papers of a bag's folder again, or says why it cannot.
#[derive(Clone, Copy)]
pub struct Maker<'a>(pub &'a dyn Fn(&Path) -> Result<Vec<Made>, String>);

impl fmt::Debug for Maker<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Maker")
    }
}

/// Most flaws of one kind that are listed.
const LISTED: usize = 50;

/// Flaws in their order, of each kind no more than people read; how many more there are is said.
fn bounded(flaws: Vec<Flaw>) -> Vec<Flaw> {
    let mut counts: BTreeMap<&'static str, usize> = BTreeMap::new();
    let mut kept = Vec::new();
    for flaw in flaws {
        let count = counts.entry(flaw.code).or_default();
        *count += 1;
        if *count <= LISTED {
            kept.push(flaw);
        }
    }
    let many = counts.into_iter().filter(|(_, count)| *count > LISTED);
    kept.extend(many.map(|(code, count)| problems::more(code, count - LISTED)));
    kept
}
