//! Writes what was made: temporary file, fsync, rename. Disk is written only here.
//!
//! Nothing that somebody else put there is overwritten: a paper replaces only a file that the record
//! says we wrote. A power cut leaves the old state or the new one.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::document::Document;
use crate::failure::Failure;
use crate::photo::Digest;

/// What was written for a job, and from which inputs.
#[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Digest over the state of every input.
    pub inputs: String,
    /// The papers.
    pub papers: Vec<Written>,
    /// How many warnings the job had, so that a skipped job can say so.
    pub warnings: usize,
    /// Photos of the job, file name and SHA-256, so that a skipped job's are known too; records of
    /// earlier versions lack them.
    #[serde(default)]
    pub photos: Vec<(String, String)>,
}

/// A file that was written.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Written {
    /// Its name in the job's folder.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// Its SHA-256.
    pub sha256: String,
}

/// Where the papers of one job go.
pub struct Tray {
    folder: PathBuf,
    record: PathBuf,
}

impl Tray {
    /// The tray of a job below the output folder, with a record a kind of papers.
    pub fn new(out: &Path, job: &str, kind: &str) -> Self {
        let record = out.join(".splitcase").join(format!("{job}.{kind}.json"));
        Self { folder: out.join(job), record }
    }

    /// The record of an earlier run, where it can be read.
    pub fn record(&self) -> Option<Record> {
        serde_json::from_slice(&fs::read(&self.record).ok()?).ok()
    }

    /// True where the papers of a record are still there, as long as they were.
    pub fn holds(&self, record: &Record) -> bool {
        record.papers.iter().all(|paper| {
            fs::metadata(self.folder.join(&paper.name))
                .is_ok_and(|state| state.len() == paper.bytes)
        })
    }

    /// Path of a paper.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    /// Writes the papers and then the record.
    ///
    /// # Errors
    /// The disk refuses, or a file that we did not write stands in a paper's place.
    pub fn hand_over(
        &self,
        papers: &[Document],
        inputs: String,
        warnings: usize,
        photos: &[(String, Digest)],
    ) -> Result<(), Failure> {
        let known = self.record().unwrap_or_default();
        for paper in papers {
            self.refuse_foreign(paper, &known)?;
        }
        make_folder(&self.folder)?;
        let mut written = Vec::new();
        for paper in papers {
            write(&self.path(&paper.name), &paper.pdf)?;
            let (bytes, sha256) = (paper.pdf.len() as u64, Digest::of(&paper.pdf).hex());
            written.push(Written { name: paper.name.clone(), bytes, sha256 });
        }
        let photos = photos.iter().map(|(name, sha256)| (name.clone(), sha256.hex())).collect();
        let record = Record { inputs, papers: written, warnings, photos };
        let text = serde_json::to_vec(&record)
            .map_err(|error| Failure::on("record the job in", &self.record, error))?;
        if let Some(folder) = self.record.parent() {
            make_folder(folder)?;
        }
        write(&self.record, &text)
    }

    fn refuse_foreign(&self, paper: &Document, known: &Record) -> Result<(), Failure> {
        let path = self.path(&paper.name);
        let Ok(bytes) = fs::read(&path) else { return Ok(()) };
        let digest = Digest::of(&bytes).hex();
        let is_ours = known.papers.iter().any(|one| one.name == paper.name && one.sha256 == digest);
        if is_ours || bytes == paper.pdf {
            return Ok(());
        }
        let cause =
            "another file stands in its place, and it is not one that this program wrote here";
        Err(Failure::on("write", &path, cause)
            .hint("move that file away, or choose another `--out`"))
    }
}

/// Writes a paper into a folder of other things; replaces only a paper that this program made.
///
/// # Errors
/// The disk refuses, or another file stands in its place.
pub fn write_beside(path: &Path, pdf: &[u8]) -> Result<(), Failure> {
    let made_here = "splitcase";
    let is_foreign = fs::read(path)
        .is_ok_and(|old| !old.windows(made_here.len()).any(|part| part == made_here.as_bytes()));
    if is_foreign {
        let cause = "another file stands in its place, and it is not one that this program made";
        return Err(Failure::on("write", path, cause).hint("move that file away, or give `--out`"));
    }
    write(path, pdf)
}

/// Makes a folder and those above it.
///
/// # Errors
/// The disk refuses.
pub fn make_folder(folder: &Path) -> Result<(), Failure> {
    fs::create_dir_all(folder).map_err(|error| Failure::on("make the folder", folder, error))
}

/// Writes a file in one step: its old content stands until the new one is safely on the disk.
///
/// # Errors
/// The disk refuses; the old file is as it was.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::on("write", path, error);
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new()
        .prefix(".splitcase-")
        .permissions_for_others()
        .tempfile_in(folder)
        .map_err(|error| failed(&error))?;
    file.write_all(bytes).map_err(|error| failed(&error))?;
    file.as_file().sync_all().map_err(|error| failed(&error))?;
    file.persist(path).map_err(|error| failed(&error.error))?;
    sync_folder(folder);
    Ok(())
}

/// Makes the rename itself safe; a file system that cannot do so is left as it is.
fn sync_folder(folder: &Path) {
    if let Ok(folder) = fs::File::open(folder) {
        let _ = folder.sync_all();
    }
}

/// Writes a new file and never replaces one.
///
/// # Errors
/// The file is there already, or the disk refuses.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::on("write", path, error);
    let mut file = fs::File::create_new(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::AlreadyExists => {
            failed(&"it is there already").hint("nothing was changed; choose another name")
        }
        _ => failed(&error),
    })?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(|error| failed(&error))
}

/// Temporary files are private; papers are for everybody who may read the folder.
trait PermissionsForOthers {
    fn permissions_for_others(&mut self) -> &mut Self;
}

impl PermissionsForOthers for tempfile::Builder<'_, '_> {
    #[cfg(unix)]
    fn permissions_for_others(&mut self) -> &mut Self {
        use std::os::unix::fs::PermissionsExt;
        // The umask of the person still takes its share.
        self.permissions(fs::Permissions::from_mode(0o666))
    }

    #[cfg(not(unix))]
    fn permissions_for_others(&mut self) -> &mut Self {
        self
    }
}
