//! Photos of a card, read once: when each was taken, and its digest.

use chrono::NaiveDateTime;

use crate::digest::Digest;
use crate::failure::Failure;
use crate::intake::card::CardFile;
use crate::intake::file;
use crate::photo::{self, Format, Kind};
use crate::workers;

/// A photo with its time.
#[derive(Clone, Debug)]
pub struct Timed {
    /// The file.
    pub file: CardFile,
    /// When it was taken, as clocks showed it there.
    pub at: NaiveDateTime,
    /// True if its camera recorded that; else it is the last change of the file.
    pub by_camera: bool,
    /// Digest of its bytes.
    pub sha256: Digest,
    /// Its format.
    pub format: Format,
}

/// Reads photos, in their order; of each that cannot be read, why.
pub fn read(
    files: &[CardFile],
    threads: usize,
    local: &(dyn Fn(u128) -> NaiveDateTime + Sync),
) -> Vec<Result<Timed, Failure>> {
    workers::map(threads, files.len(), |at| one(&files[at], local))
}

fn one(file: &CardFile, local: &dyn Fn(u128) -> NaiveDateTime) -> Result<Timed, Failure> {
    let refused = |cause: &dyn std::fmt::Display| Failure::on("read the photo", &file.path, cause);
    let Kind::Picture(format) = file.kind else { return Err(refused(&"it is no picture")) };
    if photo::MAX_FILE_BYTES < file.bytes {
        return Err(refused(&format!("it is larger than {} MB", photo::MAX_FILE_BYTES >> 20)));
    }
    let bytes = file::read_photo(&file.path)?;
    let taken = photo::taken(&bytes).map_err(|refusal| refused(&refusal))?;
    Ok(Timed {
        at: taken.map_or_else(|| local(file.changed), |taken| taken.local),
        by_camera: taken.is_some(),
        sha256: Digest::of(&bytes),
        format,
        file: file.clone(),
    })
}
