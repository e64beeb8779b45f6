//! Seals a job: its originals, sheet and papers go into a sealed bag, for the owner a copy of them.
//!
//! In: a job that was run, its folder and the options; out: bags in the archive. How a bag is made is
//! the archive's matter.

mod problems;
mod receipt;

use std::path::{Path, PathBuf};

use chrono::{DateTime, Months, NaiveDate, Utc};

use crate::archive::layout::{
    AGENT_LABEL, COPIES, DATA, HANDOVER, ISSUED_EARLIER, JOB_LABEL, LEFT_OUT, OWNER, PAPERS,
    PROFILE, PROGRAM, SHEET, SIGNATURE, STAMP_QUERY, VISITS,
};
use crate::archive::request::{InMemory, Original, Remark, SealRequest, Sealed};
use crate::archive::trust::{rfc3161, ssh};
use crate::archive::{seal, verify};
use crate::diagnostic::source::SourceText;
use crate::diagnostic::{Diagnostic, Place};
use crate::digest::Digest;
use crate::document::Document;
use crate::failure::Failure;
use crate::intake::{self, JobFolder};
use crate::job::{Basis, Done};
use crate::marking;
use crate::photo;
use crate::sheet::profile::Profile;
use crate::workshop::Workshop;

/// How jobs are sealed; the same for every job of a run.
#[derive(Debug)]
pub struct SealOptions {
    /// Folder of the archive.
    pub archive: PathBuf,
    /// Whether a tar is wanted beside each bag.
    pub tar: bool,
    /// Whether the owner's copy is wanted too.
    pub for_owner: bool,
    /// Whether a copy for handing over is wanted too.
    pub for_handover: bool,
    /// Folder of papers that were issued; made again if none is given.
    pub papers: Option<PathBuf>,
    /// Private key that signs each bag.
    pub key: Option<PathBuf>,
    /// What unlocks the key.
    pub passphrase: Option<String>,
    /// Whether a question to a time-stamp authority is to be in each bag.
    pub stamp_query: bool,
    /// Folder for receipts to be handed to customers.
    pub receipts: Option<PathBuf>,
    /// Time of the run, for the register.
    pub at: DateTime<Utc>,
}

/// What came of sealing a job.
#[derive(Debug)]
pub struct SealedJob {
    /// The bag of the originals, then the copies that were wanted.
    pub bags: Vec<Sealed>,
    /// What a person should hear of.
    pub remarks: Vec<Diagnostic>,
}

/// Files of a job folder that are not originals: the sheet has its own place, contact sheet and marking
/// page are made from the photos.
const NOT_ORIGINAL: [&str; 3] = [intake::SHEET, "photo-sheet.pdf", marking::FILE_NAME];

/// Seals a job whose papers were made.
///
/// # Errors
/// The disk or the key refuses, a file changed meanwhile, or the issued papers are not this job's.
pub fn seal_job(
    folder: &JobFolder,
    workshop: &Workshop,
    done: &Done,
    basis: &Basis,
    options: &SealOptions,
) -> Result<SealedJob, Failure> {
    check_place(folder, basis, options)?;
    let mut remarks = left_out(folder);
    if basis.returned.is_none() {
        remarks.push(problems::unfinished(whole(folder.shown_name(intake::SHEET))));
    }
    let papers = papers(done, basis, options, &mut remarks)?;
    let receipt = receipt::Receipt::of(workshop, basis, options.receipts.as_deref())?;
    // Both are put together before the first is sealed, so that a job is sealed whole or not at all.
    let mut bags = vec![originals(folder, workshop, basis, &papers)];
    if options.for_owner {
        bags.push(owners_copy(folder, basis, &papers)?);
    }
    if options.for_handover {
        bags.push(handover_copy(folder, basis, &papers));
    }
    let mut sealed = Vec::new();
    for bag in &bags {
        let one = seal_bag(bag, &folder.path, workshop, basis, options)?;
        remarks.extend(one.remarks.iter().map(|remark| told(&one, remark)));
        sealed.push(one);
    }
    // Of the job's own bag, which comes first: its line is the one that counts.
    if let (Some(receipt), Some(own)) = (receipt, sealed.first()) {
        receipt.write(own)?;
    }
    Ok(SealedJob { bags: sealed, remarks })
}

/// What goes into one bag.
struct Content {
    /// Number under which it is sealed.
    job: String,
    originals: Vec<Original>,
    in_memory: Vec<InMemory>,
    /// What it is, for people.
    about: String,
    /// True if a paper was issued before the sheet was changed.
    is_earlier: bool,
}

/// Refuses a number that would meet an owner's copy, and an archive inside the job.
fn check_place(folder: &JobFolder, basis: &Basis, options: &SealOptions) -> Result<(), Failure> {
    let action = format!("seal the job `{}`", basis.job);
    let number = basis.job.to_ascii_lowercase();
    if let Some(ending) = [OWNER, HANDOVER].iter().find(|ending| number.ends_with(**ending)) {
        let cause = match *ending {
            OWNER => "its number ends like that of an owner's copy",
            _ => "its number ends like that of a copy for handing over",
        };
        return Err(Failure::new(action, cause)
            .hint(format!("give the job a number that does not end in `{ending}`")));
    }
    if intake::real_path(&options.archive).starts_with(intake::real_path(&folder.path)) {
        return Err(Failure::on(
            action,
            &options.archive,
            "the archive is inside the job's folder",
        )
        .hint("give `--archive` a folder outside the jobs"));
    }
    Ok(())
}

/// What is in the job folder and is not sealed.
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
    let originals = original_files(folder, basis);
    let mut in_memory = vec![
        InMemory { path: SHEET.to_owned(), bytes: folder.sheet.clone() },
        InMemory { path: PROFILE.to_owned(), bytes: basis.profile.clone().into_bytes() },
    ];
    // Without it the papers could not be made again from the bag.
    if let Some((name, bytes)) = &workshop.logo {
        in_memory.push(InMemory { path: format!("{DATA}{name}"), bytes: bytes.clone() });
    }
    // The papers name other jobs, which this bag does not hold.
    in_memory.extend(
        basis
            .visits
            .as_ref()
            .map(|visits| InMemory { path: VISITS.to_owned(), bytes: visits.clone().into_bytes() }),
    );
    in_memory.extend_from_slice(&papers.files);
    let about = format!(
        "Evidence of drive-unit repair {}: files as they came from the camera, with all their \
         metadata, places where they were taken included; findings sheet; papers as issued.",
        basis.job
    );
    Content { job: basis.job.clone(), originals, in_memory, about, is_earlier: papers.is_earlier }
}

/// The originals of a job, with the digests that its papers list.
fn original_files(folder: &JobFolder, basis: &Basis) -> Vec<Original> {
    let digest_of = |name: &str| {
        let photo = basis.photos.iter().find(|photo| photo.name == intake::composed(name));
        photo.map(|photo| photo.photo.facts.sha256)
    };
    let original = |name: &str| Original { name: name.to_owned(), expected: digest_of(name) };
    files(folder).map(original).collect()
}

/// A copy for an assessor: the originals whole, the sheet as issued and no profile, the papers.
fn handover_copy(folder: &JobFolder, basis: &Basis, papers: &Issued) -> Content {
    let sheet = basis.issued.clone().into_bytes();
    let mut in_memory = vec![InMemory { path: SHEET.to_owned(), bytes: sheet }];
    in_memory.extend_from_slice(&papers.files);
    let about = format!(
        "Evidence of drive-unit repair {}, for handing over: files as they came from the camera, with \
         all their metadata, places where they were taken included; findings sheet and papers as issued.",
        basis.job
    );
    Content {
        job: format!("{}{HANDOVER}", basis.job),
        originals: original_files(folder, basis),
        in_memory,
        about,
        is_earlier: papers.is_earlier,
    }
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
    let mut in_memory = vec![InMemory { path: SHEET.to_owned(), bytes: sheet }];
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
        in_memory.push(InMemory { path: format!("{COPIES}{name}"), bytes });
    }
    if 0 < left_out {
        let text = format!(
            "Files of the job that are not in this copy, since no paper shows them or since they \
             may tell a place: {left_out}.\n"
        );
        in_memory.push(InMemory { path: LEFT_OUT.to_owned(), bytes: text.into_bytes() });
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

fn seal_bag(
    content: &Content,
    folder: &Path,
    workshop: &Workshop,
    basis: &Basis,
    options: &SealOptions,
) -> Result<Sealed, Failure> {
    let profile = &workshop.profile.fields;
    let sign = |tag_manifest: &[u8]| detached_files(tag_manifest, options);
    let is_signed = options.key.is_some() || options.stamp_query;
    let request = SealRequest {
        job: &content.job,
        folder,
        originals: &content.originals,
        in_memory: &content.in_memory,
        info: &info(content, profile),
        bagging_date: basis.day,
        keep_until: keep_until(basis, profile),
        sealed_at: options.at,
        tar: options.tar,
        sign: is_signed.then_some(&sign),
    };
    seal::seal(&request, &options.archive)
}

/// What is beside the manifests: the signature and the question to a time-stamp authority.
fn detached_files(
    tag_manifest: &[u8],
    options: &SealOptions,
) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let mut files = Vec::new();
    if let Some(key) = &options.key {
        let signature = ssh::sign(key, options.passphrase.as_deref(), tag_manifest)?;
        files.push((SIGNATURE.to_owned(), signature));
    }
    if options.stamp_query {
        let query = rfc3161::query(&Digest::of(tag_manifest));
        files.push((STAMP_QUERY.to_owned(), query));
    }
    Ok(files)
}

/// Fields of `bag-info.txt` by their standard names (RFC 8493, 2.2.2).
fn info(content: &Content, profile: &Profile) -> Vec<(String, String)> {
    let address: Vec<&str> = profile.address.iter().map(|line| line.0.as_str()).collect();
    let mail = profile.contact.iter().find(|line| line.0.contains('@'));
    let earlier = if content.is_earlier { ISSUED_EARLIER.1 } else { "" };
    let fields = [
        ("Source-Organization", profile.name.0.clone()),
        ("Organization-Address", address.join(", ")),
        ("Contact-Email", mail.map_or_else(String::new, |line| line.0.clone())),
        ("External-Description", content.about.clone()),
        (JOB_LABEL, content.job.clone()),
        (ISSUED_EARLIER.0, earlier.to_owned()),
        (AGENT_LABEL, PROGRAM.to_owned()),
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
    /// True if one of them was made from an earlier sheet.
    is_earlier: bool,
}

/// The papers for the bag: those that were issued at any stage, else the ones just made.
fn papers(
    done: &Done,
    basis: &Basis,
    options: &SealOptions,
    remarks: &mut Vec<Diagnostic>,
) -> Result<Issued, Failure> {
    let mut papers = Issued { files: Vec::new(), is_earlier: false };
    for Document { name, pdf, is_due, .. } in &done.papers {
        let bytes = match &options.papers {
            None => pdf.clone(),
            Some(issued) => {
                let path = issued.join(&basis.job).join(name);
                // A paper of an earlier stage need not have been issued.
                if !is_due && !intake::has_paper(&path) {
                    continue;
                }
                let bytes = intake::read_paper(&path)?;
                if bytes != *pdf {
                    check_paper(&path, &bytes, pdf, basis)?;
                    papers.is_earlier = true;
                    // Of an earlier stage's paper nobody expects what the sheet says now.
                    let differs = problems::papers_differ(whole(path.display().to_string()));
                    remarks.extend(is_due.then_some(differs));
                }
                bytes
            }
        };
        papers.files.push(InMemory { path: format!("{PAPERS}{name}"), bytes });
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
        None => "it is not a paper that this program made".to_owned(),
    };
    Err(Failure::on(format!("seal the job `{}`", basis.job), path, cause)
        .hint("give the folder that `render --out` wrote to, or leave out `--papers`"))
}

fn whole(name: String) -> Place {
    Place::whole(&SourceText::named(name))
}
