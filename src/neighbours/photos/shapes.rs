//! Shapes that the files of this room share: photos of this run and of other jobs, and pairs of them.

use std::path::{Path, PathBuf};

use crate::assessment::recognition::{Look, Mark};
use crate::digest::Digest;
use crate::intake;
use crate::neighbours::neighbourhood::Neighbourhood;
use crate::photo::{Agreement, Facts, PixelBudget};

/// A photo of a job of this run.
#[derive(Clone, Debug)]
pub struct OwnPhoto {
    /// Number of the job.
    pub job: String,
    /// Folder of the job.
    pub folder: PathBuf,
    /// Name of the file in the folder, as it is on the disk.
    pub name: String,
    /// The file as messages show it.
    pub shown: String,
    /// The file as it was listed.
    pub mark: Mark,
    /// What it looks like; nothing if the job was not worked on, as nothing had changed.
    pub look: Option<Look>,
}

/// A photo of some job.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// True if it is of this run: others are named first.
    pub is_own: bool,
    /// Number of the job.
    pub job: String,
    /// Name of the file in the job folder.
    pub name: String,
    /// The file.
    pub file: PathBuf,
    /// The sheet of the job.
    pub sheet: PathBuf,
    /// True if it is sealed in the archive.
    pub is_sealed: bool,
}

/// What a run may use to compare its photos.
#[derive(Clone, Copy)]
pub struct Means<'a> {
    /// The workshops of the run.
    pub around: &'a [Neighbourhood],
    /// True for runs that may write: they keep what they learnt.
    pub keeps: bool,
    /// Number of threads, at least 1.
    pub threads: usize,
    /// The pixels that may be held at once.
    pub budget: &'a PixelBudget,
}

/// Two files that show one picture.
pub struct Pair {
    /// How much of them agrees.
    pub agreement: Agreement,
    /// True if one is mirrored.
    pub mirrored: bool,
    /// What is known of the photo of this run.
    pub own: Facts,
    /// What is known of the other.
    pub other: Facts,
}

/// Whether two numbers name one job: some file systems take `a` and `A` for one name.
pub(super) fn is_one_job(one: &str, other: &str) -> bool {
    one.eq_ignore_ascii_case(other)
}

/// The folder of a job below its workshop, as the library names it.
pub(super) fn below(root: &Path, folder: &Path) -> Option<String> {
    let real = intake::real_path(folder);
    let steps = real.strip_prefix(root).ok()?.iter().map(|step| step.to_str());
    Some(steps.collect::<Option<Vec<&str>>>()?.join("/"))
}

/// The digest of a photo of this run.
pub(super) fn digest(photo: &OwnPhoto) -> Digest {
    photo.mark.sha256
}
