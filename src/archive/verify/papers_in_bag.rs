//! The papers inside a bag, held against what is in it.
//!
//! Not here: opening PDFs (pdf), the manifest's form (paper), a PDF by itself (`single_paper`).

use super::bag_contents::{Contents, MadeFor};
use super::judgement::{Against, Judgement};
use super::paper::{self, Again, Carried, Held, There};
use super::pdf;
use super::pictures;
use super::source::{self, Kind, Source};
use super::words::{self, papers};
use crate::archive::layout::{ORIGINALS, PAPERS};
use crate::archive::problems;
use crate::digest::Digest;
use crate::failure::Failure;

/// The PDFs of a bag, by path.
pub(super) fn papers(source: &dyn Source) -> impl Iterator<Item = &str> {
    let items = source.items().range(PAPERS.to_owned()..);
    let inside = items.take_while(|(path, _)| path.starts_with(PAPERS));
    let is_pdf = |path: &str| path.to_ascii_lowercase().ends_with(".pdf");
    inside
        .filter(move |(path, kind)| matches!(kind, Kind::File(_)) && is_pdf(path))
        .map(|(path, _)| path.as_str())
}

/// What a PDF carries.
pub(super) struct Paper {
    /// The manifest, as read.
    pub carried: Carried,
    /// SHA-256 of the PDF.
    pub sha256: Digest,
    /// SHA-256 of the findings sheet that it carries.
    pub sheet: Option<Digest>,
}

impl Paper {
    /// Reads what a PDF carries.
    ///
    /// # Errors
    /// Why it carries nothing that can be read.
    pub(super) fn of(bytes: &[u8]) -> Result<Self, &'static str> {
        let manifest = pdf::manifest(bytes).map_err(|none| none.cause())?;
        let carried = Carried::read(&manifest)?;
        let sheet = pdf::attached(bytes, pdf::SHEET).ok().map(|sheet| Digest::of(&sheet));
        Ok(Self { carried, sha256: Digest::of(bytes), sheet })
    }

    /// Holds the sheet that it carries against the one that its manifest lists.
    pub(super) fn own_sheet(&self, place: &str) -> Judgement {
        let mut found = Judgement::default();
        match (self.carried.issued_sheet(), self.sheet) {
            (Some(listed), Some(sheet)) if listed == sheet.hex() => {
                found.shown.push(papers::carried_sheet(place));
            }
            // One that was taken out is not there to mislead; making again shows it.
            (_, None) => {}
            (Some(_) | None, Some(_)) => {
                found.flaws.push(problems::carried_sheet_differs(place));
            }
        }
        found
    }
}

/// What a PDF of a source carries, or why it carries nothing.
///
/// # Errors
/// The PDF cannot be read from its source.
pub(super) fn carried(
    source: &dyn Source,
    path: &str,
) -> Result<Result<Paper, &'static str>, Failure> {
    let bytes = source::read(source, path, pdf::MAX_PDF)?;
    Ok(Paper::of(&bytes))
}

/// Holds each PDF of a bag against the originals beside it, and makes it again if it can.
pub(super) fn papers_of(
    source: &dyn Source,
    contents: &Contents,
    against: &Against<'_>,
) -> Judgement {
    let again = Again::of(source.path(), against.maker);
    let mut found = Judgement::default();
    if contents.digests.keys().any(|path| path.starts_with(ORIGINALS) && paper::is_photo(path)) {
        found.not_shown.push(words::clock_of_the_camera());
    }
    for path in papers(source) {
        match carried(source, path) {
            Err(failure) => found.could_not.push(failure),
            Ok(Err(cause)) => found.not_shown.push(papers::paper_silent(path, cause)),
            Ok(Ok(paper)) => {
                found.join(paper.own_sheet(path));
                let held = held_in_bag(path, &paper.carried, contents);
                let fits = held.shown.iter().any(|one| one.code == "archive/paper-fits");
                found.join(held);
                if fits {
                    let again = again.compare(path, &paper.carried, &paper.sha256);
                    let is_open =
                        again.not_shown.iter().any(|one| one.code == papers::NOT_COMPARED);
                    found.join(again);
                    // Looking costs as much as making, and is done where that is.
                    if is_open && against.maker.is_some() {
                        found.join(pictures::compare(source, path));
                    }
                }
            }
        }
    }
    found
}

/// Holds a paper against a bag, by the rules of the bag's kind.
pub(super) fn held_in_bag(paper: &str, carried: &Carried, contents: &Contents) -> Judgement {
    let mut found = Judgement::default();
    if contents.is_of_other_job(carried.job()) {
        found.flaws.push(problems::paper_of_other_job(paper, carried.job()));
    }
    let is_there = |name: &str| contents.there(name) != There::Not;
    if contents.made_for == MadeFor::Handover {
        found.flaws.extend(carried.hold_issued(paper, &contents.there("findings.yaml")));
        found.flaws.append(&mut carried.hold(paper, &|name| contents.there(name)).photos);
        found.not_shown.push(papers::handover_copy());
        return found;
    }
    if contents.made_for == MadeFor::Owner {
        let flaw = carried.hold_issued(paper, &contents.there("findings.yaml"));
        match flaw {
            Some(_) if contents.has_earlier_papers && is_there("findings.yaml") => {
                found.not_shown.push(papers::earlier_paper(paper, 0));
            }
            flaw => found.flaws.extend(flaw),
        }
        found.not_shown.push(papers::owners_copy(contents.has_copies()));
        return found;
    }
    let mut held = carried.hold(paper, &|name| contents.there(name));
    let are_texts_there = is_there("findings.yaml") && is_there("workshop.yaml");
    if contents.has_earlier_papers && are_texts_there && !held.texts.is_empty() {
        held.texts.clear();
        let photos = match held.photos.is_empty() && !held.is_unread {
            true => carried.n_photos(),
            false => 0,
        };
        found.not_shown.push(papers::earlier_paper(paper, photos));
        found.flaws.append(&mut held.photos);
        return found;
    }
    found.join(compared(paper, carried, held));
    found.join(earlier_visits(paper, carried, contents));
    found
}

/// Earlier visits that a paper tells of, and the file in the bag; one that is another is a flaw by now.
fn earlier_visits(paper: &str, carried: &Carried, contents: &Contents) -> Judgement {
    let mut found = Judgement::default();
    match (carried.visits(), contents.there(paper::VISITS)) {
        (Some(listed), There::Is(there)) if listed == there => {
            found.shown.push(papers::visits_fit(paper));
        }
        (None, There::Is(_)) => found.not_shown.push(papers::visits_not_listed(paper)),
        _ => {}
    }
    found
}

/// What a comparison of a paper with files found.
pub(super) fn compared(paper: &str, carried: &Carried, held: Held) -> Judgement {
    let mut found = Judgement { flaws: held.texts, ..Judgement::default() };
    found.flaws.extend(held.photos);
    if found.flaws.is_empty() && !held.is_unread {
        found.shown.push(papers::paper_fits(paper, carried.n_photos()));
    }
    found
}
