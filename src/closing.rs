//! Closes a job: its originals, sheet and papers go into a sealed bag, for the owner a copy of them.
//!
//! In: a job that was run, its folder and the terms; out: bags in the archive. How a bag is made is
//! the archive's matter.

use std::path::{Path, PathBuf};

use chrono::{DateTime, Months, NaiveDate, Utc};

use crate::archive::order::{InMemory, Original, SealOrder, Sealed};
use crate::archive::remark::Remark;
use crate::archive::{seal, signature, timestamp};
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place};
use crate::document::Document;
use crate::failure::Failure;
use crate::intake::{self, JobFolder};
use crate::job::{Basis, Done};
use crate::photo::{self, Digest};
use crate::sheet::profile::Profile;
use crate::shop::Shop;

/// How jobs are sealed; the same for every job of a run.
#[derive(Debug)]
pub struct Terms {
    /// Folder of the archive.
    pub archive: PathBuf,
    /// Whether a tar is wanted beside each bag.
    pub tar: bool,
    /// Whether the owner's copy is wanted too.
    pub for_owner: bool,
    /// Folder of papers that were issued; made anew where none is given.
    pub papers: Option<PathBuf>,
    /// Private key that signs each bag.
    pub key: Option<PathBuf>,
    /// What unlocks the key.
    pub passphrase: Option<String>,
    /// Whether a question to a time-stamp authority is to lie in each bag.
    pub stamp_query: bool,
    /// Time of the run, for the register.
    pub at: DateTime<Utc>,
}

/// What came of closing a job.
#[derive(Debug)]
pub struct Closed {
    /// The bag of the originals, then the owner's copy where it was wanted.
    pub bags: Vec<Sealed>,
    /// What a person should hear of.
    pub remarks: Vec<Diagnostic>,
}

/// Files of a job folder that are not originals: the sheet has its own place, the contact sheet is
/// made from the photos.
const NOT_ORIGINAL: [&str; 2] = [intake::SHEET, "photo-sheet.pdf"];

/// Seals a job whose papers were made.
///
/// # Errors
/// The disk or the key refuses, a file changed meanwhile, or the issued papers are not there.
pub fn close(
    folder: &JobFolder,
    shop: &Shop,
    done: &Done,
    basis: &Basis,
    terms: &Terms,
) -> Result<Closed, Failure> {
    let mut remarks = Vec::new();
    let papers = papers(done, basis, terms, &mut remarks)?;
    let mut bags = vec![originals(folder, shop, basis, &papers, terms)?];
    if terms.for_owner {
        bags.push(owners_copy(folder, shop, basis, &papers, terms)?);
    }
    remarks.extend(bags.iter().flat_map(|bag| bag.remarks.iter().map(|one| told(bag, one))));
    Ok(Closed { bags, remarks })
}

fn told(bag: &Sealed, remark: &Remark) -> Diagnostic {
    let place = Place::whole(&SourceText::named(bag.path.display().to_string()));
    Diagnostic::warning("archive/noticed", place, remark.to_string())
}

fn originals(
    folder: &JobFolder,
    shop: &Shop,
    basis: &Basis,
    papers: &[InMemory],
    terms: &Terms,
) -> Result<Sealed, Failure> {
    let digest_of = |name: &str| {
        let photo = basis.photos.iter().find(|photo| photo.name == name);
        photo.map(|photo| photo.photo.facts.sha256)
    };
    let files = folder.files.iter().filter(|file| !NOT_ORIGINAL.contains(&file.name.as_str()));
    let originals: Vec<Original> = files
        .map(|file| Original { name: file.name.clone(), expected: digest_of(&file.name) })
        .collect();
    let mut in_memory = vec![
        InMemory { path: intake::SHEET.to_owned(), bytes: folder.sheet.clone() },
        InMemory { path: intake::PROFILE.to_owned(), bytes: basis.profile.clone().into_bytes() },
    ];
    in_memory.extend_from_slice(papers);
    let about = format!(
        "Evidence of drive-unit repair {}: files as they came from the camera, with all their \
         metadata, places where they were taken included; findings sheet; papers as issued.",
        basis.job
    );
    put(&basis.job, &folder.path, &originals, &in_memory, about, shop, basis, terms)
}

/// A copy without places: photos without metadata, the sheet as issued, the papers.
fn owners_copy(
    folder: &JobFolder,
    shop: &Shop,
    basis: &Basis,
    papers: &[InMemory],
    terms: &Terms,
) -> Result<Sealed, Failure> {
    let sheet = basis.issued.clone().into_bytes();
    let mut in_memory = vec![InMemory { path: intake::SHEET.to_owned(), bytes: sheet }];
    let mut left_out = Vec::new();
    for file in folder.files.iter().filter(|file| !NOT_ORIGINAL.contains(&file.name.as_str())) {
        let Some(photo) = basis.photos.iter().find(|photo| photo.name == file.name) else {
            left_out.push(format!("{}\n", file.name));
            continue;
        };
        let original = folder.read_photo(&file.name)?;
        let (name, bytes) = match photo::without_metadata(&original) {
            Some(bytes) => (file.name.clone(), bytes),
            None => (format!("{}.jpg", file.name), photo.photo.jpeg.clone()),
        };
        in_memory.push(InMemory { path: format!("photos/{name}"), bytes });
    }
    if !left_out.is_empty() {
        let text =
            format!("Left out of this copy, since they may tell a place:\n{}", left_out.concat());
        in_memory.push(InMemory { path: "left-out.txt".to_owned(), bytes: text.into_bytes() });
    }
    in_memory.extend_from_slice(papers);
    let about = format!(
        "The owner's copy of drive-unit repair {}: photos without metadata and without places, \
         findings sheet and papers as issued. The workshop keeps the originals whole.",
        basis.job
    );
    let job = format!("{}-owner", basis.job);
    put(&job, &folder.path, &[], &in_memory, about, shop, basis, terms)
}

#[allow(clippy::too_many_arguments, reason = "the two bags of a job differ in all of them")]
fn put(
    job: &str,
    folder: &Path,
    originals: &[Original],
    in_memory: &[InMemory],
    about: String,
    shop: &Shop,
    basis: &Basis,
    terms: &Terms,
) -> Result<Sealed, Failure> {
    let profile = &shop.workshop.fields;
    let sign = |tag_manifest: &[u8]| beside(tag_manifest, terms);
    let is_signed = terms.key.is_some() || terms.stamp_query;
    let order = SealOrder {
        job,
        folder,
        originals,
        in_memory,
        info: &info(job, about, profile),
        bagging_date: basis.day,
        keep_until: keep_until(basis.day, profile),
        sealed_at: terms.at,
        tar: terms.tar,
        sign: is_signed.then_some(&sign),
    };
    seal::seal(&order, &terms.archive)
}

/// What lies beside the manifests: the signature and the question to a time-stamp authority.
fn beside(tag_manifest: &[u8], terms: &Terms) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let mut files = Vec::new();
    if let Some(key) = &terms.key {
        let signature = signature::sign(key, terms.passphrase.as_deref(), tag_manifest)?;
        files.push(("tagmanifest-sha256.txt.sig".to_owned(), signature));
    }
    if terms.stamp_query {
        let query = timestamp::query(&Digest::of(tag_manifest));
        files.push(("tagmanifest-sha256.txt.tsq".to_owned(), query));
    }
    Ok(files)
}

/// Fields of `bag-info.txt` by their standard names (RFC 8493, 2.2.2).
fn info(job: &str, about: String, profile: &Profile) -> Vec<(String, String)> {
    let address: Vec<&str> = profile.address.iter().map(|line| line.0.as_str()).collect();
    let mail = profile.contact.iter().find(|line| line.0.contains('@'));
    let program = concat!("splitcase ", env!("CARGO_PKG_VERSION"));
    let fields = [
        ("Source-Organization", profile.name.0.clone()),
        ("Organization-Address", address.join(", ")),
        ("Contact-Email", mail.map_or_else(String::new, |line| line.0.clone())),
        ("External-Description", about),
        ("External-Identifier", job.to_owned()),
        ("Bag-Software-Agent", program.to_owned()),
    ];
    fields.map(|(label, value)| (label.to_owned(), value)).into()
}

fn keep_until(day: NaiveDate, profile: &Profile) -> Option<NaiveDate> {
    day.checked_add_months(Months::new(profile.evidence.as_ref()?.keep_months.0))
}

/// The papers for the bag: those that were issued, else the ones just made.
fn papers(
    done: &Done,
    basis: &Basis,
    terms: &Terms,
    remarks: &mut Vec<Diagnostic>,
) -> Result<Vec<InMemory>, Failure> {
    let mut papers = Vec::new();
    for Document { name, pdf } in &done.papers {
        let bytes = match &terms.papers {
            None => pdf.clone(),
            Some(issued) => {
                let path = issued.join(&basis.job).join(name);
                let bytes = intake::read_paper(&path)?;
                if bytes != *pdf {
                    let place = Place::whole(&SourceText::named(path.display().to_string()));
                    let message =
                        "this paper is not what the job gives now; it is sealed as it was issued";
                    remarks.push(
                        Diagnostic::warning("archive/papers-differ", place, message).hint(
                            "`render` it again and issue it anew, if the change should count",
                        ),
                    );
                }
                bytes
            }
        };
        papers.push(InMemory { path: format!("papers/{name}"), bytes });
    }
    Ok(papers)
}
