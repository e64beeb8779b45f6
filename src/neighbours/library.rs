//! What the photos of a workshop look like, kept in one file beside its profile; nothing but a cache.
//!
//! In: the folder of the profile; out: [`Stored`], and back. The file can be deleted at any time: it is
//! made again, photo by photo. Nothing is ever called the same because of it; that is said only after
//! the files themselves were compared.

use std::path::{Path, PathBuf};

use crate::assessment::recognition::Stored;
use crate::failure::Failure;
use crate::intake;
use crate::output;

/// Folder and name of the file.
const FOLDER: &str = ".splitcase";
const FILE: &str = "photo-looks";

/// Most bytes that are read: some 60,000 photos.
const MOST_BYTES: u64 = 64 << 20;

fn path(root: &Path) -> PathBuf {
    root.join(FOLDER).join(FILE)
}

/// Reads what is known; nothing if there is no such file, or none that is whole.
pub(super) fn read(root: &Path) -> Stored {
    let bytes = intake::file::read_own(&path(root), MOST_BYTES);
    bytes.and_then(|bytes| Stored::read(&bytes)).unwrap_or_default()
}

/// Keeps what is known.
///
/// # Errors
/// The disk refuses.
pub(super) fn keep(root: &Path, stored: &Stored) -> Result<(), Failure> {
    let bytes = stored.bytes();
    if MOST_BYTES < bytes.len() as u64 {
        let cause = "there are more photos than such a file holds";
        return Err(Failure::on("keep what the photos look like in", &path(root), cause));
    }
    output::make_folder(&root.join(FOLDER))?;
    output::write(&path(root), &bytes)
}
