//! One PDF by itself, held against a bag, an archive or a folder of originals.
//!
//! Not here: opening PDFs (pdf), the manifest's form (paper), those inside a bag (`papers_in_bag`).

use std::collections::BTreeMap;
use std::path::Path;

use super::bag::{self, Asked};
use super::bag_contents::{Contents, Digests};
use super::judgement::{Against, Judgement};
use super::paper::{self, Carried, There};
use super::papers_in_bag::{Paper, compared, held_in_bag};
use super::queries::{self, Hit};
use super::source::{self, Folder, Source};
use super::words::vouchers::Voucher;
use super::words::{self, Statement, papers};
use super::{pdf, places, register_above};
use crate::archive::bag::digests::{Algorithm, Sums};
use crate::archive::layout::{ORIGINALS, PAPERS};
use crate::archive::problems::{self, could_not};
use crate::digest::Digest;
use crate::failure::Failure;

/// Judges one PDF against a bag, an archive or a folder of originals.
pub(super) fn judge(path: &Path, against: &Against<'_>) -> Judgement {
    let mut found = Judgement::default();
    let bytes = path
        .canonicalize()
        .map_err(|error| Failure::on("read", path, error))
        .and_then(|path| source::read_file(&path, pdf::MAX_PDF));
    let bytes = match bytes {
        Ok(bytes) => bytes,
        Err(failure) => return Judgement { could_not: vec![failure], ..found },
    };
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
    let name = name.unwrap_or_default();
    let carried = match Paper::of(&bytes) {
        Ok(paper) => {
            let carried = &paper.carried;
            found.not_shown.push(papers::paper_digest(carried.job(), &carried.digest.hex()));
            found.join(paper.own_sheet(&name));
            Some(paper.carried)
        }
        Err(cause) => {
            found.could_not.push(Failure::on("say what was used for", path, cause));
            None
        }
    };
    let Some(originals) = against.originals else {
        found.could_not.push(
            Failure::on("hold anything against", path, "nothing to hold it against was named")
                .hint("give the bag, the archive or the folder of originals with `--against`"),
        );
        return found;
    };
    found.join(match places::kind(originals) {
        Ok(places::Kind::Bag) => {
            let bag = bag::folder(originals, against, Asked::Alone);
            against_bag(bag, &bytes, carried.as_ref(), &name, true)
        }
        Ok(places::Kind::Tar) => {
            let bag = bag::tar(originals, against, Asked::Alone);
            against_bag(bag, &bytes, carried.as_ref(), &name, true)
        }
        Ok(places::Kind::Archive) => {
            against_archive(originals, against, &bytes, carried.as_ref(), &name)
        }
        _ if originals.is_dir() => against_folder(originals, carried.as_ref(), &name),
        Ok(places::Kind::Paper) => {
            let cause = "it is a PDF, and neither a bag nor a folder of originals";
            let failure = Failure::on("hold the PDF against", originals, cause);
            Judgement { could_not: vec![failure], ..Judgement::default() }
        }
        Err(failure) => Judgement { could_not: vec![failure], ..Judgement::default() },
    });
    found
}

/// The bag must be in order itself, hold what the PDF was made from, and, if `holds_pdf`, hold
/// the PDF.
fn against_bag(
    bag: bag::Bag,
    pdf: &[u8],
    carried: Option<&Carried>,
    name: &str,
    holds_pdf: bool,
) -> Judgement {
    let bag::Bag { judgement: mut found, contents, .. } = bag;
    let mut is_same = false;
    if holds_pdf {
        let same = same_bytes(pdf, &contents);
        is_same = same.shown.iter().any(|one| one.code == "archive/same-paper");
        found.join(same);
    }
    if let Some(carried) = carried {
        let held = held_in_bag(name, carried, &contents);
        let fits = held.shown.iter().any(|one| one.code == "archive/paper-fits");
        if is_same && fits {
            found.vouchers.push(Voucher::paper(name));
        }
        found.join(held);
        let photos = contents.digests.keys().filter_map(|path| path.strip_prefix(ORIGINALS));
        found.not_shown.extend(unknown(name, carried, photos));
    }
    found
}

/// Whether the PDF is one of the sealed ones.
fn same_bytes(pdf: &[u8], contents: &Contents) -> Judgement {
    let mut found = Judgement::default();
    let digests: &Digests = &contents.digests;
    let sealed: Vec<(&str, u64, &str)> = digests
        .range(PAPERS.to_owned()..)
        .take_while(|(path, _)| path.starts_with(PAPERS))
        .map(|(path, (bytes, sha256))| (path.as_str(), *bytes, sha256.as_str()))
        .collect();
    let begins = |length: u64| {
        usize::try_from(length).ok().and_then(|length| pdf.get(..length)).map(Digest::of)
    };
    let is_begin = |(_, bytes, sha256): &&(&str, u64, &str)| {
        begins(*bytes).is_some_and(|own| own.hex() == *sha256)
    };
    match sealed.iter().filter(is_begin).max_by_key(|(_, bytes, _)| *bytes) {
        Some((path, bytes, _)) if *bytes == pdf.len() as u64 => {
            found.shown.push(papers::same_paper(path));
        }
        Some((path, bytes, _)) if *bytes > 0 => {
            found.flaws.push(problems::paper_goes_on(path, pdf.len() as u64 - bytes));
        }
        // The one that it is may be among those; why they cannot be read is reported elsewhere.
        _ if contents.has_unread(PAPERS) => {}
        _ if sealed.is_empty() => found.not_shown.push(papers::no_paper_sealed()),
        _ => {
            let paths: Vec<&str> = sealed.iter().map(|(path, ..)| *path).collect();
            found.flaws.push(problems::no_sealed_paper(&paths));
        }
    }
    found
}

/// Photos that the paper does not know of.
fn unknown<'a>(
    paper: &str,
    carried: &Carried,
    names: impl Iterator<Item = &'a str>,
) -> Option<Statement> {
    let known = carried.photos();
    let unknown: Vec<&str> =
        names.filter(|name| paper::is_photo(name) && !known.contains(name)).collect();
    (!unknown.is_empty()).then(|| papers::unknown_photos(paper, &unknown))
}

/// Looks for the bag whose papers were made from the same material.
fn against_archive(
    archive: &Path,
    against: &Against<'_>,
    pdf: &[u8],
    carried: Option<&Carried>,
    name: &str,
) -> Judgement {
    let Some(carried) = carried else { return Judgement::default() };
    let (hits, unread) = match queries::hits(archive, &carried.digest.hex()) {
        Ok(found) => found,
        Err(failure) => return Judgement { could_not: vec![failure], ..Judgement::default() },
    };
    let own = Digest::of(pdf);
    let Some((first, second)) = chosen(&hits, &own) else {
        // It may be one of those that could not be read.
        let flaws = match unread.is_empty() {
            true => vec![problems::paper_in_no_bag(name)],
            false => Vec::new(),
        };
        return Judgement { flaws, could_not: unread, ..Judgement::default() };
    };
    let judged = |hit: &Hit, holds_pdf: bool| {
        let place = archive.join(&hit.found.bag);
        let redacted = register_above::redacted_of(&place);
        let asked = Asked::InArchive(&redacted);
        let bag = match place.is_dir() {
            true => bag::folder(&place, against, asked),
            false => bag::tar(&place, against, asked),
        };
        let mut judged = against_bag(bag, pdf, Some(carried), name, holds_pdf);
        judged.shown.insert(0, papers::bag_of_paper(&hit.found.bag));
        judged
    };
    let mut found = judged(first, second.is_none());
    if first.is_owners {
        found.join(workshops_bag(archive, carried.job()));
    } else if hits.iter().any(|hit| hit.is_owners) {
        found.shown.push(papers::workshops_bag_found(&first.found.bag));
    }
    if let Some(second) = second {
        found.flaws.push(problems::workshops_bag_differs(&first.found.bag));
        let mut other = judged(second, true);
        let flaws = other.flaws.drain(..).map(|flaw| flaw.below(&second.found.bag));
        found.flaws.extend(flaws);
        found.join(other);
    }
    found
}

/// Where only an owner's copy holds a paper: whether the workshop's own bag of the job is there.
fn workshops_bag(archive: &Path, job: &str) -> Judgement {
    let mut found = Judgement::default();
    match queries::newest_bag(archive, job) {
        Ok(Some(bag)) => found.flaws.push(problems::workshops_bag_differs(&bag)),
        Ok(None) => found.could_not.push(could_not::no_workshops_bag(archive, job)),
        Err(failure) => found.could_not.push(failure),
    }
    found
}

/// The bag that supports a paper: one with the originals before an owner's copy, one that holds
/// the very bytes before others, the latest before earlier ones. Beside it, if the bytes are in
/// an owner's copy alone, that copy.
fn chosen<'a>(hits: &'a [Hit], own: &Digest) -> Option<(&'a Hit, Option<&'a Hit>)> {
    let is_same = |hit: &Hit| hit.sha256 == *own;
    // Among equals the last is taken, and hits come in order of versions.
    let first = hits.iter().max_by_key(|hit| (!hit.is_owners, is_same(hit)))?;
    let second = hits.iter().rev().find(|hit| !is_same(first) && is_same(hit));
    Some((first, second))
}

/// A plain folder of originals proves what the paper was made from, and nothing of its pages.
fn against_folder(path: &Path, carried: Option<&Carried>, name: &str) -> Judgement {
    let mut found = Judgement::default();
    let folder = match Folder::list(path) {
        Ok(folder) => folder,
        Err(failure) => return Judgement { could_not: vec![failure], ..found },
    };
    found.could_not.extend_from_slice(folder.failures());
    let Some(carried) = carried else { return found };
    // Each file is read once, however often a manifest may name it.
    let mut there = BTreeMap::new();
    for file in carried.files().into_iter().filter(|file| source::has_file(&folder, file)) {
        let sums = folder.open(file).and_then(|stream| Sums::of(stream, &[Algorithm::Sha256]));
        let sum = match sums {
            Ok(sums) => sums.by(Algorithm::Sha256).map(str::to_owned),
            Err(error) => {
                found.could_not.push(source::failed(&folder, file, error));
                None
            }
        };
        there.insert(file, sum.map_or(There::Unread, There::Is));
    }
    let digest = |name: &str| match there.get(name) {
        Some(there) => there.clone(),
        // Only a bag keeps these: the part of the profile that bears on the job, and earlier visits.
        None if ["workshop.yaml", paper::VISITS].contains(&name) => There::Unread,
        None if source::lies_in(folder.closed(), name) => There::Unread,
        None => There::Not,
    };
    found.join(compared(name, carried, carried.hold(name, &digest)));
    let photos = folder.items().keys().map(String::as_str);
    found.not_shown.extend(unknown(name, carried, photos));
    found.not_shown.push(papers::no_paper_sealed());
    found.not_shown.push(words::clock_of_the_camera());
    found
}
