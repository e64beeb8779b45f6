//! Reads a job folder and its workshop: texts, list of photos, state of the files. Reads disk only here.
//!
//! Originals are opened for reading and nothing else. Links that leave the job folder are not followed.

#![allow(clippy::disallowed_methods, reason = "one of the ends that touch the disk")]

pub mod around;
pub mod asked;
pub mod card;
pub mod file;
pub mod find;
pub mod house;
pub mod shown;
mod spelled;
pub mod track;
pub mod watched;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use chrono::{DateTime, NaiveDate};
use unicode_normalization::UnicodeNormalization;
use walkdir::{DirEntry, WalkDir};

use crate::archive::layout;
use crate::assessment::earlier::{self, Earlier};
use crate::assessment::ride;
use crate::diagnostic::source::is_unseen;
use crate::failure::Failure;
use crate::photo::{self, Kind};
use crate::sheet::encoding;

/// Name of a job's sheet.
pub const SHEET: &str = "findings.yaml";
/// Name of a workshop's profile.
pub const PROFILE: &str = "workshop.yaml";
/// Name of the price list beside a profile.
pub const PRICES: &str = "parts.yaml";
/// How deep photos may be below their job folder.
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
    /// What is there and is not taken: links that lead out, names that are not text, no files.
    pub left_out: Vec<String>,
    /// Earlier visits of the unit.
    pub earlier: Earlier,
}

/// A photo of a job folder, or what is there in a photo's place.
#[derive(Clone, Debug)]
pub struct PhotoFile {
    /// Path below the job folder.
    pub name: String,
    /// What its content is.
    pub kind: Kind,
}

/// Folders and files whose name starts with a point are somebody else's, and so are bags and archives.
fn is_open(entry: &DirEntry) -> bool {
    let is_hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
    entry.depth() == 0 || !(is_hidden || is_sealed(entry.path()))
}

/// Refuses a folder inside a bag or an archive: whatever is written there breaks its seal.
///
/// # Errors
/// The folder or one above it is sealed.
pub fn refuse_sealed(folder: &Path) -> Result<(), Failure> {
    let real = real_path(folder);
    match real.ancestors().find(|above| is_sealed(above)) {
        None => Ok(()),
        Some(sealed) => {
            let cause = format!(
                "`{}` is sealed, and what is written there breaks the seal",
                sealed.display()
            );
            Err(Failure::on("write into", folder, cause)
                .hint("choose a folder outside the archive"))
        }
    }
}

/// True for a bag and for an archive of bags.
fn is_sealed(path: &Path) -> bool {
    [layout::DECLARATION, layout::REGISTER].iter().any(|mark| path.join(mark).is_file())
}

/// Reads a job folder; photos are listed, not read.
///
/// # Errors
/// The sheet or the folder cannot be read.
pub fn open(path: &Path) -> Result<JobFolder, Failure> {
    let sheet = read_text_file(&path.join(SHEET), "read the sheet")?;
    let shown = shown::shown(path);
    let (files, left_out) = list(path)?;
    let earlier = Earlier::default();
    Ok(JobFolder { path: path.to_owned(), shown, sheet, files, left_out, earlier })
}

/// Reads a folder that need not have a sheet: for what is made of its photos alone.
///
/// # Errors
/// The folder or a sheet that is there cannot be read.
pub fn open_with_or_without_sheet(path: &Path) -> Result<JobFolder, Failure> {
    if path.join(SHEET).symlink_metadata().is_ok() {
        return open(path);
    }
    let (shown, (files, left_out)) = (shown::shown(path), list(path)?);
    let (sheet, earlier) = (Vec::new(), Earlier::default());
    Ok(JobFolder { path: path.to_owned(), shown, sheet, files, left_out, earlier })
}

/// Reads a job from its bag: the originals as the job's folder, the sheet beside them.
///
/// # Errors
/// The sheet or the originals cannot be read.
pub fn open_sealed(bag: &Path) -> Result<JobFolder, Failure> {
    let data = bag.join(layout::DATA.trim_end_matches('/'));
    let sheet = read_text_file(&data.join(SHEET), "read the sheet")?;
    let path = bag.join(layout::ORIGINALS.trim_end_matches('/'));
    let (files, left_out) = match path.symlink_metadata() {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => (Vec::new(), Vec::new()),
        _ => list(&path)?,
    };
    let visits = file::read_own(&bag.join(layout::VISITS), encoding::MAX_BYTES as u64);
    let visits = visits.and_then(|text| earlier::read(&text)).unwrap_or_default();
    let shown = path.display().to_string();
    Ok(JobFolder { shown, path, sheet, files, left_out, earlier: Earlier::Known(visits) })
}

/// Reads a file that people write, up to a little more than the longest that is taken.
///
/// # Errors
/// The file cannot be read, or is a folder, pipe or device.
pub fn read_text_file(path: &Path, action: &str) -> Result<Vec<u8>, Failure> {
    file::read_bounded(path, action, encoding::MAX_BYTES as u64)
}

/// Reads a list that a person or another program wrote, up to a bound and no further.
///
/// # Errors
/// The file cannot be read, or is a folder, pipe or device.
pub fn read_list(path: &Path, action: &str, most: u64) -> Result<Vec<u8>, Failure> {
    file::read_bounded(path, action, most)
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

/// False for a link that leads out of the folder, or nowhere.
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
    let name = steps.join("/");
    // What steers or turns a line of text is not a name that anybody could type or read.
    (!name.is_empty() && !name.contains(is_unseen)).then_some(name)
}

/// A name in composed Unicode form, as sheets are read: some systems keep `é` as two characters.
pub fn composed(name: &str) -> String {
    name.nfc().collect()
}

/// True for a name by whose ending people call a file a photo.
pub fn is_called_photo(name: &str) -> bool {
    name.rsplit_once('.')
        .is_some_and(|(_, ending)| PHOTO_ENDINGS.contains(&ending.to_ascii_lowercase().as_str()))
}

impl JobFolder {
    /// Names of all files, composed, in order.
    pub fn names(&self) -> Vec<String> {
        self.files.iter().map(|file| composed(&file.name)).collect()
    }

    /// What is called a photo and is not taken: a link out of the folder, a pipe, an unreadable name.
    pub fn photos_left_out(&self) -> impl Iterator<Item = &str> {
        self.left_out.iter().map(String::as_str).filter(|name| is_called_photo(name))
    }

    /// The day of the newest file by its time of change, for papers of a folder without a dated sheet.
    pub fn newest_day(&self) -> Option<NaiveDate> {
        let newest = self.files.iter().map(|file| file.changed).max()?;
        let seconds = i64::try_from(newest / 1_000_000_000).ok()?;
        DateTime::from_timestamp(seconds, 0).map(|time| time.date_naive())
    }

    /// The name of a file as it is on disk, by its name in either Unicode form.
    pub fn on_disk<'a>(&'a self, name: &'a str) -> &'a str {
        let exact = self.files.iter().find(|file| file.name == name);
        let file = exact.or_else(|| self.files.iter().find(|file| composed(&file.name) == name));
        file.map_or(name, |file| file.name.as_str())
    }

    /// The name under which messages show a file of this folder.
    pub fn shown_name(&self, name: &str) -> String {
        shown::shown(&Path::new(&self.shown).join(name))
    }

    /// The files that are photos by content, or called one by name.
    ///
    /// # Errors
    /// A file whose first bytes cannot be read.
    pub fn photos(&self) -> Result<Vec<PhotoFile>, Failure> {
        let mut photos = Vec::new();
        for file in &self.files {
            let kind = self.kind(&file.name)?;
            let is_called_photo = is_called_photo(&file.name);
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
                photos.push(PhotoFile { name: composed(&file.name), kind });
            }
        }
        Ok(photos)
    }

    fn kind(&self, name: &str) -> Result<Kind, Failure> {
        Ok(photo::kind_of(&file::read_bounded(&self.path.join(name), "read", 511)?))
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
    fn read_track(&self, name: &str) -> Result<Vec<u8>, Failure> {
        self.read(name, "read the track", ride::rule::BYTES as u64)
    }

    fn read(&self, name: &str, action: &str, most: u64) -> Result<Vec<u8>, Failure> {
        file::read_bounded(&self.path.join(self.on_disk(name)), action, most)
    }
}

/// The profile that a job folder belongs to, by walking up.
pub fn find_profile(job: &Path) -> Option<PathBuf> {
    let job = job.canonicalize().ok()?;
    // Something else under its name is found too, so that it is reported and not passed over.
    job.ancestors().map(|folder| folder.join(PROFILE)).find(|path| path.exists())
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

/// A folder's own name, however it is reached; the root of a disk has none.
pub fn name_of(folder: &Path) -> Option<String> {
    Some(real_path(folder).file_name()?.to_string_lossy().into_owned())
}

/// Most bytes of an issued paper that are read: five times the photos that a job could hold at 80 MiB.
const MAX_PAPER: u64 = 400 << 20;

/// True if something is in the place of an issued paper, readable or not.
pub fn has_paper(path: &Path) -> bool {
    !path.symlink_metadata().is_err_and(|error| error.kind() == std::io::ErrorKind::NotFound)
}

/// Reads a paper that was issued.
///
/// # Errors
/// The file cannot be read.
pub fn read_paper(path: &Path) -> Result<Vec<u8>, Failure> {
    let bytes = file::read_bounded(path, "read the paper", MAX_PAPER);
    bytes.map_err(|failure| {
        failure.hint("give the folder that `render --out` wrote to, or leave out `--papers`")
    })
}
