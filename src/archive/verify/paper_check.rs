//! Papers held against what they were made from: one PDF by itself, or those inside a bag.
//!
//! Not here: opening PDFs (pdf), the manifest's form (paper).

use std::collections::BTreeMap;
use std::path::Path;

use super::algorithm::{Algorithm, Sums};
use super::folder::{self, Folder};
use super::holder::{self, Holder, Kind};
use super::paper::{self, Carried, There};
use super::{Against, Judgement, bag, lookup, pdf, problems, statement, target};
use crate::failure::Failure;
use crate::photo::Digest;

/// Where a bag keeps its PDFs.
pub(super) const PAPERS: &str = "data/papers/";
/// Where a bag keeps the files of the job folder.
const ORIGINALS: &str = "data/originals/";
/// Where the owner's copy of a bag keeps its photos, whose metadata were taken out.
const COPIES: &str = "data/photos/";
/// The sheet in a bag.
const SHEET: &str = "data/findings.yaml";

/// Length and SHA-256 digits of files by path.
pub(super) type Digests = BTreeMap<String, (u64, String)>;

/// The PDFs of a bag, by path.
pub(super) fn papers(holder: &dyn Holder) -> impl Iterator<Item = &str> {
    let items = holder.items().range(PAPERS.to_owned()..);
    let inside = items.take_while(|(path, _)| path.starts_with(PAPERS));
    let is_pdf = |path: &str| path.to_ascii_lowercase().ends_with(".pdf");
    inside
        .filter(move |(path, kind)| matches!(kind, Kind::File(_)) && is_pdf(path))
        .map(|(path, _)| path.as_str())
}

/// The manifest that a PDF of a holder carries, or why it carries none.
///
/// # Errors
/// The PDF cannot be read from its holder.
pub(super) fn carried(
    holder: &dyn Holder,
    path: &str,
) -> Result<Result<Carried, &'static str>, Failure> {
    let bytes = holder::read(holder, path, pdf::MAX_PDF)?;
    let manifest = pdf::manifest(&bytes).map_err(|none| none.cause());
    Ok(manifest.and_then(|manifest| Carried::read(&manifest)))
}

/// Holds each PDF of a bag against the originals beside it.
pub(super) fn papers_of(holder: &dyn Holder, digests: &Digests) -> Judgement {
    let mut found = Judgement::default();
    if digests.keys().any(|path| path.starts_with(ORIGINALS) && paper::is_photo(path)) {
        found.not_proved.push(statement::clock_of_the_camera());
    }
    for path in papers(holder) {
        match carried(holder, path) {
            Err(failure) => found.could_not.push(failure),
            Ok(Err(cause)) => found.not_proved.push(statement::paper_silent(path, cause)),
            Ok(Ok(carried)) if is_owners_copy(digests) => {
                let sheet = digests.get(SHEET).map(|(_, sha256)| sha256.as_str());
                found.flaws.extend(carried.hold_issued(path, sheet));
                found.not_proved.push(statement::owners_copy());
            }
            Ok(Ok(carried)) => {
                let held = held(path, &carried, &|name| in_bag(digests, name));
                found.flaws.extend(held.flaws);
                found.proved.extend(held.proved);
            }
        }
    }
    found
}

/// True for a bag that was made as the owner's copy: photos, and no originals at all.
fn is_owners_copy(digests: &Digests) -> bool {
    let holds = |folder: &str| digests.keys().any(|path| path.starts_with(folder));
    holds(COPIES) && !holds(ORIGINALS)
}

/// The digest of a file of the job folder, where a bag keeps it.
fn in_bag(digests: &Digests, name: &str) -> There {
    let place = match name {
        "findings.yaml" | "workshop.yaml" => format!("data/{name}"),
        _ => format!("{ORIGINALS}{name}"),
    };
    digests.get(&place).map_or(There::Not, |(_, sha256)| There::Is(sha256.clone()))
}

fn held(paper: &str, carried: &Carried, digest: &dyn Fn(&str) -> There) -> Judgement {
    let mut found = Judgement { flaws: carried.hold(paper, digest), ..Judgement::default() };
    if found.flaws.is_empty() {
        found.proved.push(statement::paper_fits(paper, carried.n_photos()));
    }
    found
}

/// Judges one PDF against a bag, an archive or a folder of originals.
pub(super) fn judge(path: &Path, against: &Against<'_>) -> Judgement {
    let mut found = Judgement::default();
    let bytes = path
        .canonicalize()
        .map_err(|error| Failure::on("read", path, error))
        .and_then(|path| folder::read(&path, pdf::MAX_PDF));
    let bytes = match bytes {
        Ok(bytes) => bytes,
        Err(failure) => return Judgement { could_not: vec![failure], ..found },
    };
    let manifest = pdf::manifest(&bytes).map_err(|none| none.cause());
    let carried = match manifest.and_then(|manifest| Carried::read(&manifest)) {
        Ok(carried) => {
            found.not_proved.push(statement::paper_digest(carried.job(), &carried.digest.hex()));
            Some(carried)
        }
        Err(cause) => {
            found.could_not.push(Failure::on("say what was used for", path, cause));
            None
        }
    };
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
    let name = name.unwrap_or_default();
    let Some(originals) = against.originals else {
        found.could_not.push(
            Failure::on("hold anything against", path, "nothing to hold it against was named")
                .hint("give the bag, the archive or the folder of originals with `--against`"),
        );
        return found;
    };
    found.join(match target::kind(originals) {
        Ok(target::Kind::Bag) => {
            against_bag(bag::folder(originals, against, false), &bytes, carried.as_ref(), &name)
        }
        Ok(target::Kind::Tar) => {
            against_bag(bag::tar(originals, against, false), &bytes, carried.as_ref(), &name)
        }
        Ok(target::Kind::Archive) => {
            against_archive(originals, against, &bytes, carried.as_ref(), &name)
        }
        _ if originals.is_dir() => against_folder(originals, carried.as_ref(), &name),
        Ok(target::Kind::Paper) => {
            let cause = "it is a PDF, and neither a bag nor a folder of originals";
            let failure = Failure::on("hold the PDF against", originals, cause);
            Judgement { could_not: vec![failure], ..Judgement::default() }
        }
        Err(failure) => Judgement { could_not: vec![failure], ..Judgement::default() },
    });
    found
}

/// The bag must be in order itself, hold what the PDF was made from, and hold the PDF.
fn against_bag(bag: bag::Bag, pdf: &[u8], carried: Option<&Carried>, name: &str) -> Judgement {
    let bag::Bag { judgement: mut found, digests, .. } = bag;
    found.join(same_bytes(pdf, &digests));
    if let Some(carried) = carried {
        found.join(held(name, carried, &|name| in_bag(&digests, name)));
        let photos = digests.keys().filter_map(|path| path.strip_prefix(ORIGINALS));
        found.not_proved.extend(unknown(name, carried, photos));
    }
    found
}

/// Whether the PDF is one of the sealed ones.
fn same_bytes(pdf: &[u8], digests: &Digests) -> Judgement {
    let mut found = Judgement::default();
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
            found.proved.push(statement::same_paper(path));
        }
        Some((path, bytes, _)) if *bytes > 0 => {
            found.flaws.push(problems::paper_goes_on(path, pdf.len() as u64 - bytes));
        }
        _ if sealed.is_empty() => found.not_proved.push(statement::no_paper_sealed()),
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
) -> Option<super::Statement> {
    let known = carried.photos();
    let unknown: Vec<&str> =
        names.filter(|name| paper::is_photo(name) && !known.contains(name)).collect();
    (!unknown.is_empty()).then(|| statement::unknown_photos(paper, &unknown))
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
    let bags = match lookup::find(archive, &carried.digest.hex()) {
        Ok(found) => found,
        Err(failure) => return Judgement { could_not: vec![failure], ..Judgement::default() },
    };
    let Some(last) = bags.last() else {
        let flaws = vec![problems::paper_in_no_bag(name)];
        return Judgement { flaws, ..Judgement::default() };
    };
    let place = archive.join(&last.bag);
    let bag = match place.is_dir() {
        true => bag::folder(&place, against, true),
        false => bag::tar(&place, against, true),
    };
    let mut found = against_bag(bag, pdf, Some(carried), name);
    found.proved.insert(0, statement::bag_of_paper(&last.bag));
    found
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
    for file in carried.files().into_iter().filter(|file| holder::has_file(&folder, file)) {
        let sums = folder.open(file).and_then(|stream| Sums::of(stream, &[Algorithm::Sha256]));
        let sum = match sums {
            Ok(sums) => sums.by(Algorithm::Sha256).map(str::to_owned),
            Err(error) => {
                found.could_not.push(holder::failed(&folder, file, error));
                None
            }
        };
        there.insert(file, sum.map_or(There::Unread, There::Is));
    }
    let digest = |name: &str| match there.get(name) {
        Some(there) => there.clone(),
        // A job folder holds no profile; only a bag keeps the part that bears on the job.
        None if name == "workshop.yaml" => There::Unread,
        None => There::Not,
    };
    found.join(held(name, carried, &digest));
    let photos = folder.items().keys().map(String::as_str);
    found.not_proved.extend(unknown(name, carried, photos));
    found.not_proved.push(statement::no_paper_sealed());
    found.not_proved.push(statement::clock_of_the_camera());
    found
}
