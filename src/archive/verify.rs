//! Holds what was sealed against itself: a path -> a [`Judgement`] in plain words.
//!
//! The path is a bag's folder, a bag as tar, a whole archive, or one PDF. Nothing is ever written,
//! only what lies in the place itself is opened, and memory does not grow with the size of files.
//! Not here: sealing, adding to the register, printing.

mod algorithm;
mod asked;
mod bag;
mod bag_info;
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
mod told;

use std::path::Path;

use crate::failure::Failure;
pub use lookup::{Due, Found, Head, due, find, head};
pub use problems::Flaw;
pub use statement::Statement;

/// How a verification ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// Everything that was looked at is as it was sealed.
    Intact,
    /// Something is not as it was sealed, or not as the rules of its form are.
    NotIntact,
    /// Something could not be looked at, and nothing that could is wrong.
    CouldNotCheck,
}

impl Ending {
    /// Exit code of `verify`: 0, 1 or 2.
    pub fn code(self) -> u8 {
        match self {
            Self::Intact => 0,
            Self::NotIntact => 1,
            Self::CouldNotCheck => 2,
        }
    }
}

/// What a verification found.
#[derive(Debug, Default)]
pub struct Judgement {
    /// What is proved, the weightiest first.
    pub proved: Vec<Statement>,
    /// What is not proved by it, so that nobody takes it to be.
    pub not_proved: Vec<Statement>,
    /// What is wrong, in order of places, as found in each.
    pub flaws: Vec<Flaw>,
    /// What could not be looked at.
    pub could_not: Vec<Failure>,
}

impl Judgement {
    /// How it ended: a flaw weighs more than what could not be looked at.
    pub fn ending(&self) -> Ending {
        match (self.flaws.is_empty(), self.could_not.is_empty()) {
            (false, _) => Ending::NotIntact,
            (true, false) => Ending::CouldNotCheck,
            (true, true) => Ending::Intact,
        }
    }

    /// Takes over another judgement; what it says in the same words is said once.
    fn join(&mut self, other: Self) {
        let Self { proved, not_proved, flaws, could_not } = other;
        let add = |all: &mut Vec<Statement>, mut more: Vec<Statement>| {
            more.retain(|statement| !all.contains(statement));
            all.append(&mut more);
        };
        add(&mut self.proved, proved);
        add(&mut self.not_proved, not_proved);
        self.flaws.extend(flaws);
        self.could_not.extend(could_not);
    }

    fn sorted(mut self) -> Self {
        self.flaws.sort_by(|a, b| a.place.cmp(&b.place));
        self.flaws.dedup();
        self
    }
}

/// What to hold the path against, where there is something.
#[derive(Clone, Copy, Debug, Default)]
pub struct Against<'a> {
    /// For a PDF: the bag, the archive or the folder of originals that it is held against.
    pub originals: Option<&'a Path>,
    /// For an archive: the register's head as somebody noted it earlier, at least 8 digits.
    pub head: Option<&'a str>,
    /// Whose signatures count: the text of a public key or of a list of allowed signers.
    pub signers: Option<&'a str>,
    /// Which authority's time stamps count: its certificates as PEM or DER.
    pub authority: Option<&'a [u8]>,
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
        target::Kind::Bag => bag::folder(path, against, false).judgement,
        target::Kind::Tar => bag::tar(path, against, false).judgement,
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

/// The job that a PDF of ours was made for, by the manifest it carries; `None` for any other file.
pub fn job_of_paper(bytes: &[u8]) -> Option<String> {
    let manifest = pdf::manifest(bytes).ok()?;
    paper::Carried::read(&manifest).ok().map(|carried| carried.job().to_owned())
}
