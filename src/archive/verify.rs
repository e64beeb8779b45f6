//! Holds what was sealed against itself: a path -> a [`Judgement`] in plain words.
//!
//! The path is a bag's folder, a bag as tar, a whole archive, or one PDF. Nothing is ever written,
//! only what is in the place itself is opened, and memory does not grow with the size of files.
//! Not here: sealing, adding to the register, printing.

mod archive;
mod bag;
mod bag_contents;
mod heads;
pub mod judgement;
mod paper;
mod papers_in_bag;
mod payload;
mod pdf;
mod pdf_object;
mod pictures;
mod places;
pub mod queries;
mod register_above;
mod register_check;
mod render;
mod single_paper;
mod source;
mod summary;
mod times;
mod trust;
pub mod words;

use std::path::Path;

use self::bag::Asked;
use self::judgement::{Against, Judgement};
use self::paper::Carried;
use self::places::Kind;
use super::problems::could_not;

/// Judges a bag, a tar, an archive or a PDF. Whatever goes wrong is in the judgement.
pub fn verify(path: &Path, against: &Against<'_>) -> Judgement {
    let kind = match places::kind(path) {
        Ok(kind) => kind,
        Err(failure) => return Judgement { could_not: vec![failure], ..Judgement::default() },
    };
    let (against, unusable) = trust::usable(against);
    let against = &against;
    let mut judged = match kind {
        Kind::Archive => archive::judge(path, against),
        Kind::Paper => single_paper::judge(path, against),
        Kind::Bag => register_check::alone(path, bag::folder(path, against, Asked::Alone)),
        Kind::Tar => register_check::alone(path, bag::tar(path, against, Asked::Alone)),
    };
    judged.could_not.extend(unusable);
    if against.head.is_some() && kind != Kind::Archive {
        judged.could_not.push(could_not::not_an_archive(path));
    }
    if against.originals.is_some() && kind != Kind::Paper {
        judged.could_not.push(could_not::not_a_paper(path));
    }
    judged.sorted()
}

/// True if two PDFs carry the same manifest, byte for byte.
pub fn lists_the_same(one: &[u8], other: &[u8]) -> bool {
    match (pdf::manifest(one), pdf::manifest(other)) {
        (Ok(one), Ok(other)) => one == other,
        _ => false,
    }
}

/// The job that a PDF of ours was made for, by the manifest it carries; `None` for any other file.
pub fn job_of_paper(bytes: &[u8]) -> Option<String> {
    let manifest = pdf::manifest(bytes).ok()?;
    Carried::read(&manifest).ok().map(|carried| carried.job().to_owned())
}
