//! Reads a job folder and its workshop: texts, list of photos, state of the files. Reads disk only here.
//!
//! Originals are opened for reading and nothing else. Links that leave the job folder are not followed.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use walkdir::{DirEntry, WalkDir};

use crate::assessment::ride;
use crate::diagnostic::source::{Source, SourceText};
use crate::failure::Failure;
use crate::photo::{self, Kind};
use crate::sheet::encoding;

/// Name of a job's sheet.
pub const SHEET: &str = "findings.yaml";
/// Name of a workshop's profile.
pub const PROFILE: &str = "workshop.yaml";
/// How deep photos may lie below their job folder.
const PHOTO_DEPTH: usize = 8;
/// Endings by which people call something a photo, whatever it holds.
const PHOTO_ENDINGS: &[&str] =
    &["jpg", "jpeg", "png", "webp", "tif", "tiff", "bmp", "heic", "heif", "hif"];

/// A file of a job folder.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileState {
    /// Path below the folder, with `/`.
    pub name: String,
    /// Length in bytes.
    pub bytes: u64,
    /// Last change, in nanoseconds since 1970.
    pub changed: u128,
}

/// A job folder as found on disk.
#[derive(Debug)]
pub struct JobFolder {
    /// The folder.
    pub path: PathBuf,
    /// The folder as messages show it.
    pub shown: String,
    /// Bytes of the sheet.
    pub sheet: Vec<u8>,
    /// Every file, sorted by name.
    pub files: Vec<FileState>,
    /// What lies there and is not taken: links that lead out, names that are no text, no files.
    pub left_out: Vec<String>,
}

/// A photo of a job folder, or what lies there in a photo's place.
#[derive(Clone, Debug)]
pub struct PhotoFile {
    /// Path below the job folder.
    pub name: String,
    /// What its content is.
    pub kind: Kind,
}

/// Job folders below a folder, sorted; the folder itself may be one.
///
/// # Errors
/// The folder cannot be read at all. Folders inside that cannot be read are returned as failures.
pub fn find_jobs(below: &Path) -> Result<(Vec<PathBuf>, Vec<Failure>), Failure> {
    fs::read_dir(below).map_err(|error| Failure::on("read the folder", below, error))?;
    let mut jobs = Vec::new();
    let mut failures = Vec::new();
    for entry in WalkDir::new(below)
        .follow_links(false)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(is_open)
    {
        match entry {
            Ok(entry) if entry.file_type().is_file() && entry.file_name() == SHEET => {
                jobs.extend(entry.path().parent().map(Path::to_owned));
            }
            Ok(_) => {}
            Err(error) => {
                let path = error.path().unwrap_or(below).to_owned();
                failures.push(Failure::on("read the folder", &path, error));
            }
        }
    }
    Ok((jobs, failures))
}

/// Folders and files whose name starts with a point are somebody else's, and so are bags and archives.
fn is_open(entry: &DirEntry) -> bool {
    let is_hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
    entry.depth() == 0 || !(is_hidden || is_sealed(entry.path()))
}

/// True for a bag and for an archive of bags.
fn is_sealed(path: &Path) -> bool {
    ["bagit.txt", "register.jsonl"].iter().any(|mark| path.join(mark).is_file())
}

/// Reads a job folder; photos are listed, not read.
///
/// # Errors
/// The sheet or the folder cannot be read.
pub fn open(path: &Path) -> Result<JobFolder, Failure> {
    let sheet = read_text_file(&path.join(SHEET), "read the sheet")?;
    let shown = path.display().to_string();
    let (files, left_out) = list(path)?;
    Ok(JobFolder { path: path.to_owned(), shown, sheet, files, left_out })
}

/// Reads a file that people write, up to a little more than the longest that is taken.
///
/// # Errors
/// The file cannot be read.
pub fn read_text_file(path: &Path, action: &str) -> Result<Vec<u8>, Failure> {
    let file = fs::File::open(path).map_err(|error| Failure::on(action, path, error))?;
    let mut bytes = Vec::new();
    let limit = encoding::MAX_BYTES as u64 + 1;
    file.take(limit).read_to_end(&mut bytes).map_err(|error| Failure::on(action, path, error))?;
    Ok(bytes)
}

/// Every file of a job folder with its state, sorted, and what is not taken; other jobs inside it
/// are left out.
fn list(folder: &Path) -> Result<(Vec<FileState>, Vec<String>), Failure> {
    let is_own = |entry: &DirEntry| {
        is_open(entry) && (entry.depth() == 0 || !entry.path().join(SHEET).is_file())
    };
    let (mut files, mut left_out) = (Vec::new(), Vec::new());
    let walk = WalkDir::new(folder).follow_links(false).max_depth(PHOTO_DEPTH).into_iter();
    for entry in walk.filter_entry(is_own) {
        let entry = entry.map_err(|error| Failure::on("read the folder", folder, error))?;
        let shown = entry.path().strip_prefix(folder).unwrap_or(entry.path()).to_string_lossy();
        let is_deep = entry.file_type().is_dir() && entry.depth() == PHOTO_DEPTH;
        let Some(name) = name_below(folder, entry.path()).filter(|_| !is_deep) else {
            if entry.depth() != 0 {
                left_out.push(shown.into_owned());
            }
            continue;
        };
        if !entry.file_type().is_dir() && !stays_inside(folder, &entry) {
            left_out.push(name);
        } else if !entry.file_type().is_dir() {
            let state = fs::metadata(entry.path())
                .map_err(|error| Failure::on("look at", entry.path(), error))?;
            let changed =
                state.modified().ok().and_then(|time| time.duration_since(UNIX_EPOCH).ok());
            let changed = changed.map_or(0, |since| since.as_nanos());
            match state.is_file() {
                true => files.push(FileState { name, bytes: state.len(), changed }),
                false => left_out.push(name),
            }
        }
    }
    files.sort();
    left_out.sort();
    Ok((files, left_out))
}

/// False for a link whose end lies outside the folder, or nowhere.
fn stays_inside(folder: &Path, entry: &DirEntry) -> bool {
    !entry.file_type().is_symlink()
        || match (folder.canonicalize(), entry.path().canonicalize()) {
            (Ok(folder), Ok(end)) => end.starts_with(folder),
            _ => false,
        }
}

fn name_below(folder: &Path, path: &Path) -> Option<String> {
    let below = path.strip_prefix(folder).ok()?;
    let steps: Vec<&str> = below.iter().map(|step| step.to_str()).collect::<Option<_>>()?;
    (!steps.is_empty()).then(|| steps.join("/"))
}

impl JobFolder {
    /// The name under which messages show a file of this folder.
    pub fn shown_name(&self, name: &str) -> String {
        Path::new(&self.shown).join(name).display().to_string()
    }

    /// The files that are photos by content, or called one by name.
    ///
    /// # Errors
    /// A file whose first bytes cannot be read.
    pub fn photos(&self) -> Result<Vec<PhotoFile>, Failure> {
        let mut photos = Vec::new();
        for file in &self.files {
            let kind = self.kind(&file.name)?;
            let is_called_photo = file.name.rsplit_once('.').is_some_and(|(_, ending)| {
                PHOTO_ENDINGS.contains(&ending.to_ascii_lowercase().as_str())
            });
            let is_photo = matches!(
                kind,
                Kind::Picture(_)
                    | Kind::Avif
                    | Kind::Gif
                    | Kind::JpegXl
                    | Kind::CameraRaw
                    | Kind::Film(_)
            );
            if is_photo || is_called_photo {
                photos.push(PhotoFile { name: file.name.clone(), kind });
            }
        }
        Ok(photos)
    }

    fn kind(&self, name: &str) -> Result<Kind, Failure> {
        let path = self.path.join(name);
        let failed = |error| Failure::on("read", &path, error);
        let file = fs::File::open(&path).map_err(failed)?;
        let mut head = Vec::new();
        file.take(512).read_to_end(&mut head).map_err(failed)?;
        Ok(photo::kind_of(&head))
    }

    /// Reads a photo, up to a little more than the largest that is taken.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn read_photo(&self, name: &str) -> Result<Vec<u8>, Failure> {
        self.read(name, "read the photo", photo::MAX_FILE_BYTES)
    }

    /// Reads a ride's track, up to a little more than the longest that is taken.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn read_track(&self, name: &str) -> Result<Vec<u8>, Failure> {
        self.read(name, "read the track", ride::rule::BYTES as u64)
    }

    fn read(&self, name: &str, action: &str, most: u64) -> Result<Vec<u8>, Failure> {
        let path = self.path.join(name);
        let failed = |error| Failure::on(action, &path, error);
        let file = fs::File::open(&path).map_err(failed)?;
        let expected = file.metadata().map_or(0, |state| state.len()).min(most);
        let mut bytes = Vec::with_capacity(usize::try_from(expected).unwrap_or(0) + 1);
        file.take(most + 1).read_to_end(&mut bytes).map_err(failed)?;
        Ok(bytes)
    }
}

/// The profile that a job folder belongs to, by walking up.
pub fn find_profile(job: &Path) -> Option<PathBuf> {
    let job = job.canonicalize().ok()?;
    job.ancestors().map(|folder| folder.join(PROFILE)).find(|path| path.is_file())
}

/// A path without links and detours, as far as the disk knows it.
pub fn real_path(path: &Path) -> PathBuf {
    let start = if path.is_relative() { Path::new(".").join(path) } else { path.to_owned() };
    for known in start.ancestors() {
        if let Ok(real) = known.canonicalize() {
            return real.join(start.strip_prefix(known).unwrap_or(&start));
        }
    }
    start
}

/// Reads a paper that was issued.
///
/// # Errors
/// The file cannot be read.
pub fn read_paper(path: &Path) -> Result<Vec<u8>, Failure> {
    fs::read(path).map_err(|error| {
        Failure::on("read the paper", path, error)
            .hint("give the folder that `render --out` wrote to, or leave out `--papers`")
    })
}

/// Reads a file beside the profile that the profile names, such as the logo.
///
/// # Errors
/// The file cannot be read.
pub fn read_beside(profile: &Path, name: &str) -> Result<Vec<u8>, Failure> {
    let path = profile.with_file_name(name);
    fs::read(&path).map_err(|error| Failure::on("read", &path, error))
}

/// Reads a workshop's own templates by their path below the folder.
///
/// # Errors
/// The folder or a file cannot be read, or a template is no UTF-8 text.
pub fn read_templates(profile: &Path, folder: &str) -> Result<BTreeMap<String, Source>, Failure> {
    let root = profile.with_file_name(folder);
    let mut files = BTreeMap::new();
    fs::read_dir(&root).map_err(|error| Failure::on("read the templates in", &root, error))?;
    for entry in WalkDir::new(&root).follow_links(false).sort_by_file_name() {
        let entry = entry.map_err(|error| Failure::on("read the templates in", &root, error))?;
        let Some(name) = name_below(&root, entry.path()).filter(|_| entry.file_type().is_file())
        else {
            continue;
        };
        let bytes = read_text_file(entry.path(), "read the template")?;
        let text = String::from_utf8(bytes)
            .map_err(|error| Failure::on("read the template", entry.path(), error))?;
        files.insert(name, SourceText::new(entry.path().display().to_string(), text));
    }
    Ok(files)
}
