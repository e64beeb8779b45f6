//! Closes a job: its originals, sheet and papers go into a sealed bag, for the owner a copy of them.
//!
//! In: a job that was run, its folder and the terms; out: bags in the archive. How a bag is made is
//! the archive's matter.

mod problems;

use std::path::{Path, PathBuf};

use chrono::{DateTime, Months, NaiveDate, Utc};

use crate::archive::order::{InMemory, Original, SealOrder, Sealed};
use crate::archive::remark::Remark;
use crate::archive::{seal, signature, timestamp, verify};
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place};
use crate::document::Document;
use crate::failure::Failure;
use crate::intake::{self, JobFolder};
use crate::job::{Basis, Done};
use crate::marking;
use crate::photo::{self, Digest};
use crate::sheet::profile::Profile;
use crate::workshop::Workshop;

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

/// What `bag-info.txt` says where a paper was issued before the sheet beside it was changed; `verify`
/// knows it by this.
const ISSUED_EARLIER: &str = "papers as issued earlier than this sheet";

/// Files of a job folder that are not originals: the sheet has its own place, contact sheet and marking
/// page are made from the photos.
const NOT_ORIGINAL: [&str; 3] = [intake::SHEET, "photo-sheet.pdf", marking::FILE_NAME];

/// Seals a job whose papers were made.
///
/// # Errors
/// The disk or the key refuses, a file changed meanwhile, or the issued papers are not this job's.
pub fn close(
    folder: &JobFolder,
    workshop: &Workshop,
    done: &Done,
    basis: &Basis,
    terms: &Terms,
) -> Result<Closed, Failure> {
    check_place(folder, basis, terms)?;
    let mut remarks = left_out(folder);
    if basis.returned.is_none() {
        remarks.push(problems::unfinished(whole(folder.shown_name(intake::SHEET))));
    }
    let papers = papers(done, basis, terms, &mut remarks)?;
    // Both are put together before the first is sealed, so that a job is sealed whole or not at all.
    let mut bags = vec![originals(folder, workshop, basis, &papers)];
    if terms.for_owner {
        bags.push(owners_copy(folder, basis, &papers)?);
    }
    let mut sealed = Vec::new();
    for bag in &bags {
        let one = put(bag, &folder.path, workshop, basis, terms)?;
        remarks.extend(one.remarks.iter().map(|remark| told(&one, remark)));
        sealed.push(one);
    }
    Ok(Closed { bags: sealed, remarks })
}

/// What goes into one bag.
struct Content {
    /// Number under which it is sealed.
    job: String,
    originals: Vec<Original>,
    in_memory: Vec<InMemory>,
    /// What it is, for people.
    about: String,
    /// True where a paper was issued before the sheet was changed.
    is_earlier: bool,
}

/// RunOutcome of the number under which an owner's copy is sealed.
const OWNER: &str = "-owner";

/// Refuses a number that would meet an owner's copy, and an archive inside the job.
fn check_place(folder: &JobFolder, basis: &Basis, terms: &Terms) -> Result<(), Failure> {
    let action = format!("seal the job `{}`", basis.job);
    if basis.job.to_ascii_lowercase().ends_with(OWNER) {
        return Err(Failure::new(action, "its number ends like that of an owner's copy")
            .hint("give the job a number that does not end in `-owner`"));
    }
    if intake::real_path(&terms.archive).starts_with(intake::real_path(&folder.path)) {
        return Err(Failure::on(
            action,
            &terms.archive,
            "the archive lies inside the job's folder",
        )
        .hint("give `--archive` a folder outside the jobs"));
    }
    Ok(())
}

/// What lies in the job folder and is not sealed.
fn left_out(folder: &JobFolder) -> Vec<Diagnostic> {
    let shown = folder.left_out.iter().map(|name| folder.shown_name(name));
    let left_out = shown.map(|name| problems::left_out(whole(name)));
    let systems = folder.files.iter().filter(|file| is_of_system(&file.name));
    let systems = systems.map(|file| problems::of_system(whole(folder.shown_name(&file.name))));
    left_out.chain(systems).collect()
}

fn told(bag: &Sealed, remark: &Remark) -> Diagnostic {
    problems::noticed(whole(bag.path.display().to_string()), remark)
}

fn originals(folder: &JobFolder, workshop: &Workshop, basis: &Basis, papers: &Issued) -> Content {
    let digest_of = |name: &str| {
        let photo = basis.photos.iter().find(|photo| photo.name == intake::composed(name));
        photo.map(|photo| photo.photo.facts.sha256)
    };
    let originals = files(folder)
        .map(|name| Original { name: name.to_owned(), expected: digest_of(name) })
        .collect();
    let mut in_memory = vec![
        InMemory { path: intake::SHEET.to_owned(), bytes: folder.sheet.clone() },
        InMemory { path: intake::PROFILE.to_owned(), bytes: basis.profile.clone().into_bytes() },
    ];
    // Without it the papers could not be made again from the bag.
    if let Some((name, bytes)) = &workshop.logo {
        in_memory.push(InMemory { path: name.clone(), bytes: bytes.clone() });
    }
    in_memory.extend_from_slice(&papers.files);
    let about = format!(
        "Evidence of drive-unit repair {}: files as they came from the camera, with all their \
         metadata, places where they were taken included; findings sheet; papers as issued.",
        basis.job
    );
    Content { job: basis.job.clone(), originals, in_memory, about, is_earlier: papers.is_earlier }
}

/// The files of a job folder that are originals.
fn files(folder: &JobFolder) -> impl Iterator<Item = &str> {
    let names = folder.files.iter().map(|file| file.name.as_str());
    names.filter(|name| !NOT_ORIGINAL.contains(name) && !is_of_system(name))
}

/// Files that systems and editors leave in folders, in lower case; nobody put them there as evidence.
const OF_SYSTEM: [&str; 5] = ["thumbs.db", "ehthumbs.db", "desktop.ini", "icon\r", "__macosx"];

/// True for a file that a system or an editor left.
fn is_of_system(name: &str) -> bool {
    let mut steps = name.split('/');
    steps.any(|step| OF_SYSTEM.contains(&step.to_ascii_lowercase().as_str())) || name.ends_with('~')
}

/// A copy without places: the photos of the report without metadata, the sheet as issued, the papers.
fn owners_copy(folder: &JobFolder, basis: &Basis, papers: &Issued) -> Result<Content, Failure> {
    let sheet = basis.issued.clone().into_bytes();
    let mut in_memory = vec![InMemory { path: intake::SHEET.to_owned(), bytes: sheet }];
    let mut left_out = 0;
    for file in files(folder) {
        let name = intake::composed(file);
        let photo = basis.photos.iter().find(|photo| photo.name == name);
        let Some(photo) = photo.filter(|_| basis.used.contains(&name)) else {
            left_out += 1;
            continue;
        };
        let original = folder.read_photo(file)?;
        let (mut name, bytes) = match photo::without_metadata(&original) {
            Some(bytes) => (file.to_owned(), bytes),
            None => (format!("{file}.jpg"), photo.photo.jpeg.clone()),
        };
        // A print copy may not take the name of a photo that is there.
        while name != file && files(folder).any(|other| other == name) {
            name = format!("{}-print.jpg", name.trim_end_matches(".jpg"));
        }
        in_memory.push(InMemory { path: format!("photos/{name}"), bytes });
    }
    if 0 < left_out {
        let text = format!(
            "Files of the job that are not in this copy, since no paper shows them or since they \
             may tell a place: {left_out}.\n"
        );
        in_memory.push(InMemory { path: "left-out.txt".to_owned(), bytes: text.into_bytes() });
    }
    in_memory.extend_from_slice(&papers.files);
    let about = format!(
        "The owner's copy of drive-unit repair {}: photos without metadata and without places, \
         findings sheet and papers as issued. The workshop keeps the originals whole.",
        basis.job
    );
    let job = format!("{}{OWNER}", basis.job);
    Ok(Content { job, originals: Vec::new(), in_memory, about, is_earlier: papers.is_earlier })
}

fn put(
    content: &Content,
    folder: &Path,
    workshop: &Workshop,
    basis: &Basis,
    terms: &Terms,
) -> Result<Sealed, Failure> {
    let profile = &workshop.profile.fields;
    let sign = |tag_manifest: &[u8]| beside(tag_manifest, terms);
    let is_signed = terms.key.is_some() || terms.stamp_query;
    let request = SealOrder {
        job: &content.job,
        folder,
        originals: &content.originals,
        in_memory: &content.in_memory,
        info: &info(content, profile),
        bagging_date: basis.day,
        keep_until: keep_until(basis, profile),
        sealed_at: terms.at,
        tar: terms.tar,
        sign: is_signed.then_some(&sign),
    };
    seal::seal(&request, &terms.archive)
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
fn info(content: &Content, profile: &Profile) -> Vec<(String, String)> {
    let address: Vec<&str> = profile.address.iter().map(|line| line.0.as_str()).collect();
    let mail = profile.contact.iter().find(|line| line.0.contains('@'));
    let program = concat!("splitcase ", env!("CARGO_PKG_VERSION"));
    let earlier = if content.is_earlier { ISSUED_EARLIER } else { "" };
    let fields = [
        ("Source-Organization", profile.name.0.clone()),
        ("Organization-Address", address.join(", ")),
        ("Contact-Email", mail.map_or_else(String::new, |line| line.0.clone())),
        ("External-Description", content.about.clone()),
        ("External-Identifier", content.job.clone()),
        ("Internal-Sender-Description", earlier.to_owned()),
        ("Bag-Software-Agent", program.to_owned()),
    ];
    fields.map(|(label, value)| (label.to_owned(), value)).into()
}

/// Counted from the day of return; a job that is not closed yet has no such day.
fn keep_until(basis: &Basis, profile: &Profile) -> Option<NaiveDate> {
    let months = Months::new(profile.evidence.as_ref()?.keep_months.0);
    basis.returned?.checked_add_months(months)
}

/// The papers for the bag.
struct Issued {
    files: Vec<InMemory>,
    /// True where one of them was made from an earlier sheet.
    is_earlier: bool,
}

/// The papers for the bag: those that were issued, else the ones just made.
fn papers(
    done: &Done,
    basis: &Basis,
    terms: &Terms,
    remarks: &mut Vec<Diagnostic>,
) -> Result<Issued, Failure> {
    let mut papers = Issued { files: Vec::new(), is_earlier: false };
    for Document { name, pdf } in &done.papers {
        let bytes = match &terms.papers {
            None => pdf.clone(),
            Some(issued) => {
                let path = issued.join(&basis.job).join(name);
                let bytes = intake::read_paper(&path)?;
                if bytes != *pdf {
                    check_paper(&path, &bytes, pdf, basis)?;
                    papers.is_earlier = true;
                    remarks.push(problems::papers_differ(whole(path.display().to_string())));
                }
                bytes
            }
        };
        papers.files.push(InMemory { path: format!("papers/{name}"), bytes });
    }
    Ok(papers)
}

/// Refuses a paper of another job, or one that this program did not make.
///
/// One that lists the same material in the same words as the paper made now, and has other bytes, was
/// changed after it was made.
fn check_paper(path: &Path, bytes: &[u8], made: &[u8], basis: &Basis) -> Result<(), Failure> {
    let cause = match verify::job_of_paper(bytes) {
        Some(job) if job == basis.job && !verify::lists_the_same(bytes, made) => return Ok(()),
        Some(job) if job == basis.job => {
            "it lists the same sheet and photos as the paper that they give now, and its pages are \
             other ones: it was changed after it was made"
                .to_owned()
        }
        Some(job) => format!("it is a paper of the job `{job}`"),
        None => "it is no paper that this program made".to_owned(),
    };
    Err(Failure::on(format!("seal the job `{}`", basis.job), path, cause)
        .hint("give the folder that `render --out` wrote to, or leave out `--papers`"))
}

fn whole(name: String) -> Place {
    Place::whole(&SourceText::named(name))
}
