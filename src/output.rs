//! Writes what was made: temporary file, fsync, rename. Disk is written only here.
//!
//! Nothing that somebody else put there is overwritten: a paper replaces only a file that the record
//! says we wrote. A power cut leaves the old state or the new one.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

mod file;
mod record;

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use crate::digest::Digest;
use crate::document::Document;
use crate::failure::Failure;
use crate::sheet::text::is_job_number;

use file::{foreign, put_new};

pub use file::{change, copy_new, make_folder, write, write_new, write_new_or_same};
pub use record::{BuildRecord, Made, Written};

/// Folder of the records, in the output folder or, for papers beside the photos, in the job's own.
const RECORDS: &str = ".splitcase";

/// Where the papers of one job go.
pub struct OutputFolder {
    folder: PathBuf,
    record: PathBuf,
}

/// Most bytes of a record that are read; one photo takes about a hundred.
const MAX_RECORD: u64 = 16 << 20;

/// What is in a paper's place.
#[derive(Clone, Copy, PartialEq, Eq)]
enum InPlace {
    /// Nothing.
    Nothing,
    /// A file that the record says we wrote, unchanged since, or the very paper that is to be written.
    Ours,
}

impl OutputFolder {
    /// The output of a job below the output folder, with a record for each kind of papers.
    ///
    /// # Errors
    /// The number cannot name a folder: nothing is ever written outside `out`.
    pub fn new(out: &Path, job: &str, kind: &str) -> Result<Self, Failure> {
        if !is_job_number(job) {
            return Err(Failure::new(
                format!("name the folder of the job `{}`", job.escape_debug()),
                "its number cannot name a folder",
            ));
        }
        let record = out.join(RECORDS).join(format!("{job}.{kind}.json"));
        Ok(Self { folder: out.join(job), record })
    }

    /// The output of papers that belong into the job's own folder.
    pub fn beside(folder: &Path, kind: &str) -> Self {
        let record = folder.join(RECORDS).join(format!("{kind}.json"));
        Self { folder: folder.to_owned(), record }
    }

    /// The record of an earlier run; none if there is none, or if it is not a record any more.
    ///
    /// # Errors
    /// It is there and cannot be read.
    pub fn record(&self) -> Result<Option<BuildRecord>, Failure> {
        let failed = |cause: &dyn std::fmt::Display| {
            Failure::on("read what was written before from", &self.record, cause)
                .hint("that file is this program's own; make it readable, or move it away")
        };
        let state = match fs::symlink_metadata(&self.record) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(failed(&error)),
            Ok(state) => state,
        };
        if !state.is_file() || MAX_RECORD < state.len() {
            return Err(failed(&"it is not a record"));
        }
        let bytes = fs::read(&self.record).map_err(|error| failed(&error))?;
        Ok(serde_json::from_slice(&bytes).ok())
    }

    /// True if the papers of a record are still there, as long as they were; earlier ones may be gone.
    pub fn holds(&self, record: &BuildRecord) -> bool {
        record.papers.iter().all(|paper| {
            fs::symlink_metadata(self.folder.join(&paper.name))
                .is_ok_and(|state| state.is_file() && state.len() == paper.bytes)
        })
    }

    /// Path of a paper.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    /// Writes the papers between two records: the first says what will be written, so that a run that
    /// is killed in between leaves nothing that a later one would not know as ours.
    ///
    /// # Errors
    /// The disk refuses, or a file that we did not write is in a paper's place.
    pub fn write_papers(&self, papers: &[Document], made: Made<'_>) -> Result<(), Failure> {
        let known = self.record()?.unwrap_or_default();
        let files = files(papers);
        let in_place: Vec<InPlace> =
            files.iter().map(|file| self.in_place(*file, &known)).collect::<Result<_, _>>()?;
        if !papers.is_empty() {
            refuse_link(&self.folder)?;
            make_folder(&self.folder)?;
        }
        if let Some(records) = self.record.parent() {
            refuse_link(records)?;
            make_folder(records)?;
        }
        let written: Vec<Written> = files.iter().map(|file| Written::of(*file)).collect();
        let mut intended = known.papers;
        intended.extend(known.earlier);
        let earlier: Vec<Written> = intended
            .iter()
            .filter(|old| written.iter().all(|new| new.name != old.name))
            .cloned()
            .collect();
        intended.extend(
            written.iter().filter(|new| !intended.contains(new)).cloned().collect::<Vec<_>>(),
        );
        self.keep(&BuildRecord { papers: intended, ..BuildRecord::default() })?;
        for (file, in_place) in files.iter().zip(in_place) {
            match in_place {
                InPlace::Nothing => put_new(&self.path(file.name), file.bytes)?,
                InPlace::Ours => write(&self.path(file.name), file.bytes)?,
            }
        }
        let photos = made.photos.iter().map(|(name, sha256)| (name.clone(), sha256.hex()));
        let (inputs, warnings, progress) = (made.inputs, made.warnings, made.progress.cloned());
        let photos = photos.collect();
        self.keep(&BuildRecord { inputs, papers: written, earlier, progress, warnings, photos })
    }

    fn keep(&self, record: &BuildRecord) -> Result<(), Failure> {
        let text = serde_json::to_vec(record)
            .map_err(|error| Failure::on("record the job in", &self.record, error))?;
        write(&self.record, &text)
    }

    /// Looks at a file's place; only "not found" means that it is free.
    fn in_place(&self, file: File<'_>, known: &BuildRecord) -> Result<InPlace, Failure> {
        let path = self.path(file.name);
        let unknown = |error: &std::io::Error| {
            Failure::on("look at what is in the place of", &path, error)
                .hint("nothing was written there, since it may be somebody else's file")
        };
        let state = match fs::symlink_metadata(&path) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(InPlace::Nothing),
            Err(error) => return Err(unknown(&error)),
            Ok(state) => state,
        };
        let all = || known.papers.iter().chain(&known.earlier);
        let ours = || all().filter(|one| one.name == file.name);
        let may_be_ours = ours()
            .map(|one| one.bytes)
            .chain([file.bytes.len() as u64])
            .any(|own| own == state.len());
        if !state.is_file() || !may_be_ours {
            return Err(foreign(&path));
        }
        let bytes = fs::read(&path).map_err(|error| unknown(&error))?;
        let digest = Digest::of(&bytes).hex();
        match bytes == file.bytes || ours().any(|one| one.sha256 == digest) {
            true => Ok(InPlace::Ours),
            false => Err(foreign(&path)),
        }
    }
}

impl Written {
    fn of(file: File<'_>) -> Self {
        let (bytes, sha256) = (file.bytes.len() as u64, Digest::of(file.bytes).hex());
        Self { name: file.name.to_owned(), bytes, sha256 }
    }
}

/// A file that is to be written.
#[derive(Clone, Copy)]
struct File<'a> {
    name: &'a str,
    bytes: &'a [u8],
}

/// The files of papers: each paper, then what is beside it.
fn files(papers: &[Document]) -> Vec<File<'_>> {
    let files = papers.iter().flat_map(|paper| {
        let own = File { name: &paper.name, bytes: &paper.pdf };
        let beside = paper.beside.iter().map(|one| File { name: &one.name, bytes: &one.bytes });
        [own].into_iter().chain(beside)
    });
    files.collect()
}

/// Refuses a link in the place of a folder: papers would land where it leads.
fn refuse_link(folder: &Path) -> Result<(), Failure> {
    match fs::symlink_metadata(folder) {
        Ok(state) if state.is_symlink() => {
            Err(Failure::on("write into", folder, "it is a link, and papers may not leave `--out`")
                .hint("put a folder in its place, or choose another `--out`"))
        }
        _ => Ok(()),
    }
}
