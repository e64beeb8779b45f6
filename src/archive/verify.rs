//! Holds what was sealed against itself: a path -> a [`Judgement`] in plain words.
//!
//! The path is a bag's folder, a bag as tar, a whole archive, or one PDF. Nothing is ever written,
//! only what lies in the place itself is opened, and memory does not grow with the size of files.
//! Not here: sealing, adding to the register, printing.

mod again;
mod algorithm;
mod asked;
mod bag;
mod bag_info;
mod beside;
mod chain;
mod contents;
mod declaration;
mod fetch;
mod folder;
mod holder;
mod job_folder;
mod lookup;
mod manifest;
mod names;
mod paper;
mod paper_check;
mod payload;
mod pdf;
mod pdf_object;
mod problems;
mod seal;
mod statement;
mod tag_text;
mod tally;
mod tar;
mod tar_name;
mod target;
mod times;
mod told;
mod top;
mod voucher;

use std::path::Path;

use chrono::{DateTime, Utc};

use crate::failure::Failure;
pub use again::{Made, Maker};
pub use lookup::{Due, Found, Head, due, find, head};
pub use problems::Flaw;
pub use statement::Statement;
pub use voucher::Voucher;

/// How a verification ended: three words with three meanings, and one for what cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// All that was looked at fits together, and nothing outside vouches for it.
    AgreesWithItself,
    /// It agrees with itself, and somebody or something outside that the reader named vouches for it.
    VouchedFor,
    /// Something does not fit the rest, or the rules of its form.
    DoesNotAgree,
    /// Something could not be looked at or judged, and nothing that could is wrong.
    CannotBeJudged,
}

impl Ending {
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
    pub fn ending(&self) -> Ending {
        match (self.flaws.is_empty(), self.could_not.is_empty(), self.vouchers.is_empty()) {
            (false, ..) => Ending::DoesNotAgree,
            (true, false, _) => Ending::CannotBeJudged,
            (true, true, false) => Ending::VouchedFor,
            (true, true, true) => Ending::AgreesWithItself,
        }
    }

    /// Takes over another judgement; what it says in the same words is said once.
    fn join(&mut self, other: Self) {
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

    fn sorted(mut self) -> Self {
        self.flaws.sort_by(|a, b| a.place.cmp(&b.place));
        self.flaws.dedup();
        self.flaws = problems::bounded(self.flaws);
        if self.ending() == Ending::AgreesWithItself {
            self.not_shown.insert(0, statement::no_voucher());
        }
        self
    }
}

/// What to hold the path against, where there is something.
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

/// Judges a bag, a tar, an archive or a PDF. Whatever goes wrong stands in the judgement.
pub fn verify(path: &Path, against: &Against<'_>) -> Judgement {
    let kind = match target::kind(path) {
        Ok(kind) => kind,
        Err(failure) => return Judgement { could_not: vec![failure], ..Judgement::default() },
    };
    let (against, unusable) = asked::usable(against);
    let against = &against;
    let mut judged = match kind {
        target::Kind::Archive => chain::judge(path, against),
        target::Kind::Paper => paper_check::judge(path, against),
        target::Kind::Bag => beside::judge(path, bag::folder(path, against, false)),
        target::Kind::Tar => beside::judge(path, bag::tar(path, against, false)),
    };
    judged.could_not.extend(unusable);
    if against.head.is_some() && kind != target::Kind::Archive {
        judged.could_not.push(problems::not_an_archive(path));
    }
    if against.originals.is_some() && kind != target::Kind::Paper {
        judged.could_not.push(problems::not_a_paper(path));
    }
    judged.sorted()
}

/// True where two PDFs carry the same manifest, byte for byte.
pub fn lists_the_same(one: &[u8], other: &[u8]) -> bool {
    match (pdf::manifest(one), pdf::manifest(other)) {
        (Ok(one), Ok(other)) => one == other,
        _ => false,
    }
}

/// The job that a PDF of ours was made for, by the manifest it carries; `None` for any other file.
pub fn job_of_paper(bytes: &[u8]) -> Option<String> {
    let manifest = pdf::manifest(bytes).ok()?;
    paper::Carried::read(&manifest).ok().map(|carried| carried.job().to_owned())
}
