//! Writes what was made: temporary file, fsync, rename. Disk is written only here.
//!
//! Nothing that somebody else put there is overwritten: a paper replaces only a file that the record
//! says we wrote. A power cut leaves the old state or the new one.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

mod record;

use std::fs;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, UNIX_EPOCH};

use tempfile::NamedTempFile;

use crate::digest::Digest;
use crate::document::Document;
use crate::failure::Failure;
use crate::sheet::text::is_job_number;

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

fn foreign(path: &Path) -> Failure {
    let cause = "another file is in its place, and it is not one that this program wrote there, or \
                 somebody has changed it since";
    Failure::on("write", path, cause).hint("move that file away, or choose another `--out`")
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

/// Makes a folder and those above it.
///
/// # Errors
/// The disk refuses.
pub fn make_folder(folder: &Path) -> Result<(), Failure> {
    fs::create_dir_all(folder).map_err(|error| Failure::on("make the folder", folder, error))
}

/// Writes a file in one step: its old content is there until the new one is safely on the disk.
///
/// # Errors
/// The disk refuses; the old file is as it was.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let file = finished(path, bytes)?;
    file.persist(path).map_err(|error| Failure::on("write", path, &error.error))?;
    sync_folder(path.parent().unwrap_or(Path::new(".")));
    Ok(())
}

/// Writes a file in one step into a free place, and not over what was put there meanwhile.
fn put_new(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    put(finished(path, bytes)?, path)
}

/// Gives a finished file its name, if that is free.
fn put(file: NamedTempFile, path: &Path) -> Result<(), Failure> {
    match file.persist_noclobber(path) {
        Ok(_) => {}
        Err(error) if error.error.kind() == ErrorKind::AlreadyExists => return Err(foreign(path)),
        // Some file systems cannot rename without replacing.
        Err(error)
            if fs::symlink_metadata(path).is_err_and(|e| e.kind() == ErrorKind::NotFound) =>
        {
            error.file.persist(path).map_err(|error| Failure::on("write", path, &error.error))?;
        }
        Err(error) => return Err(Failure::on("write", path, &error.error)),
    }
    sync_folder(path.parent().unwrap_or(Path::new(".")));
    Ok(())
}

/// A temporary file beside a path with all its bytes on the disk.
fn finished(path: &Path, bytes: &[u8]) -> Result<NamedTempFile, Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::on("write", path, error);
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new()
        .prefix(TEMPORARY)
        .permissions_for_others()
        .tempfile_in(folder)
        .map_err(|error| failed(&error))?;
    sweep(folder, &file);
    file.write_all(bytes).map_err(|error| failed(&error))?;
    file.as_file().sync_all().map_err(|error| failed(&error))?;
    Ok(file)
}

/// Start of the name of every temporary file; six letters or digits follow.
const TEMPORARY: &str = ".splitcase-";
/// Age from which a temporary file is a killed run's: no file takes an hour to be written.
const LEFT_BEHIND: Duration = Duration::from_hours(1);

/// Deletes temporary files that a killed run left in a folder, an hour older than the newest one.
fn sweep(folder: &Path, newest: &NamedTempFile) {
    let changed = |path: &Path| fs::symlink_metadata(path).and_then(|state| state.modified());
    let (Ok(now), Ok(entries)) = (changed(newest.path()), fs::read_dir(folder)) else { return };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let is_ours =
            name.to_str().and_then(|name| name.strip_prefix(TEMPORARY)).is_some_and(|end| {
                end.len() == 6 && end.bytes().all(|byte| byte.is_ascii_alphanumeric())
            });
        let is_old = || {
            let age = changed(&entry.path()).ok().and_then(|then| now.duration_since(then).ok());
            age.is_some_and(|age| LEFT_BEHIND < age)
        };
        if is_ours && entry.file_type().is_ok_and(|kind| kind.is_file()) && is_old() {
            // One that cannot be deleted does no harm.
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Changes a person's own file in one step, if it is still what was read.
///
/// # Errors
/// Somebody has changed it since, it is not a plain file that may be written, or the disk refuses; the old
/// file is as it was.
pub fn change(path: &Path, read: &[u8], new: &[u8]) -> Result<(), Failure> {
    let failed = |cause: &dyn std::fmt::Display| Failure::on("change", path, cause);
    let state = fs::symlink_metadata(path).map_err(|error| failed(&error))?;
    if !state.is_file() {
        return Err(failed(
            &"it is a link or no plain file, and a file in its place would cut it off",
        )
        .hint("give the folder in which the file itself is"));
    }
    if state.permissions().readonly() {
        return Err(failed(&"it may not be written").hint("make it writable first"));
    }
    let file = finished(path, new)?;
    file.as_file().set_permissions(state.permissions()).map_err(|error| failed(&error))?;
    let now = fs::read(path).map_err(|error| failed(&error))?;
    if now != read {
        return Err(failed(&"it was changed while this was going on")
            .hint("nothing was changed: try once more"));
    }
    file.persist(path).map_err(|error| failed(&error.error))?;
    sync_folder(path.parent().unwrap_or(Path::new(".")));
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

/// Copies a file into a free place in one step, with the time at which the original was changed, in
/// nanoseconds since 1970.
///
/// # Errors
/// Another file is in its place, or the disk refuses; then nothing is there.
pub fn copy_new(path: &Path, bytes: &[u8], changed: u128) -> Result<(), Failure> {
    let file = finished(path, bytes)?;
    let changed = u64::try_from(changed)
        .ok()
        .and_then(|changed| UNIX_EPOCH.checked_add(Duration::from_nanos(changed)));
    // A file system that keeps no such time still keeps the photo.
    let _ = changed.map(|changed| file.as_file().set_modified(changed));
    put(file, path)
}

/// Writes a new file; one that is there already is left alone if it is the same, and never replaced.
///
/// # Errors
/// Another file is in its place, or the disk refuses.
pub fn write_new_or_same(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let state = fs::metadata(path);
    let is_same = state.is_ok_and(|state| state.is_file() && state.len() == bytes.len() as u64)
        && fs::read(path).is_ok_and(|there| there == bytes);
    if is_same { Ok(()) } else { write_new(path, bytes) }
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
