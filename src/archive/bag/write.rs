//! Makes a bag (`BagIt` 1.0, RFC 8493): a request and an empty place -> a folder, down to the disk.
//!
//! The same request gives the same bytes. Not here: where the bag goes then (versions, seal).

use std::collections::BTreeSet;
use std::path::Path;

use super::{declaration, info, manifest, names, payload};
use crate::archive::layout::{DATA, DECLARATION, INFO, MANIFEST, REGISTER_HEAD, TAG_MANIFEST};
use crate::archive::register::head::History;
use crate::archive::request::{Remark, SealRequest};
use crate::archive::{durable, layout};
use crate::digest::Digest;
use crate::failure::Failure;

/// Most pairs of names that are reported.
const MAX_CLASHES: usize = 100;

/// A bag that was made.
pub struct Bag {
    /// SHA-256 of the list of tag files.
    pub digest: Digest,
    /// The list of tag files.
    pub tag_manifest: Vec<u8>,
}

impl Bag {
    /// The list of tag files that it would have with another text in `register-head.txt`: bags of
    /// the same material differ in that alone.
    pub fn tag_manifest_with(&self, history: &[u8]) -> Vec<u8> {
        let text = String::from_utf8_lossy(&self.tag_manifest);
        let lines = text.split_inclusive('\n').map(|line| {
            match line.ends_with(&format!("  {REGISTER_HEAD}\n")) {
                true => tag_line(REGISTER_HEAD, history),
                false => line.to_owned(),
            }
        });
        lines.collect::<String>().into_bytes()
    }
}

/// Checks the names of a request before anything is written; says which of them another disk could
/// lose.
///
/// # Errors
/// A name is not safe, or two files would be in the same place.
pub fn check_names(request: &SealRequest<'_>) -> Result<Vec<Remark>, Failure> {
    names::check_job(request.job)?;
    let originals = request.originals.iter();
    let originals = originals.map(|file| (&file.name, layout::original(&file.name)));
    let in_memory = request.in_memory.iter();
    let in_memory = in_memory.map(|file| (&file.path, file.path.clone()));
    let mut paths = BTreeSet::new();
    for (name, path) in originals.chain(in_memory) {
        names::check_path(name)?;
        if !paths.insert(path) {
            let action = format!("seal the file `{}`", name.escape_debug());
            return Err(Failure::new(action, "two files would be in its place"));
        }
    }
    let below_data = || paths.iter().map(|path: &String| path.strip_prefix(DATA).unwrap_or(path));
    let clashes = names::clashes(below_data(), MAX_CLASHES);
    let clashes = clashes
        .into_iter()
        .map(|(one, other)| Remark::Clash { one: one.to_owned(), other: other.to_owned() });
    let odd = below_data().filter(|path| !names::is_portable(path));
    let odd = odd.map(|path| Remark::NotPortable { path: path.to_owned() });
    Ok(clashes.chain(odd).collect())
}

/// Makes the bag of a request; nothing may be at `folder` yet.
///
/// # Errors
/// A file is refused or changes while it is copied, or the disk refuses.
pub fn make(request: &SealRequest<'_>, folder: &Path, history: &History) -> Result<Bag, Failure> {
    durable::make_folder(&folder.join(DATA))?;
    let mut held = Vec::new();
    for original in request.originals {
        held.push(payload::copy_original(request.folder, original, folder)?);
    }
    for file in request.in_memory {
        held.push(payload::write_in_memory(file, folder)?);
    }
    held.sort();
    let paths: Vec<&str> = held.iter().map(|file| file.path.as_str()).collect();
    durable::sync_files(folder, &paths)?;
    let counted =
        info::Counted { bytes: held.iter().map(|file| file.bytes).sum(), files: held.len() };
    let info = info::text(request.info, request.bagging_date, request.keep_until, counted)?;
    let manifest: String =
        held.iter().map(|file| manifest::line(&file.sha256, &file.path)).collect();
    // In the order of their names, which is that of the list.
    let history = history.text();
    let tags = [
        (INFO, info.as_str()),
        (DECLARATION, declaration::TEXT),
        (layout::HOW_TO_CHECK, layout::HOW_TO_CHECK_BAG),
        (MANIFEST, &manifest),
        (REGISTER_HEAD, &history),
    ];
    let mut tag_manifest = String::new();
    for (name, text) in tags {
        durable::write_new(&folder.join(name), text.as_bytes())?;
        tag_manifest += &tag_line(name, text.as_bytes());
    }
    durable::write_new(&folder.join(TAG_MANIFEST), tag_manifest.as_bytes())?;
    durable::sync_folders(folder)?;
    Ok(Bag { digest: Digest::of(tag_manifest.as_bytes()), tag_manifest: tag_manifest.into_bytes() })
}

fn tag_line(name: &str, bytes: &[u8]) -> String {
    manifest::line(&Digest::of(bytes).hex(), name)
}

/// Lays files into a bag's root that no manifest names: signatures, time stamps.
///
/// # Errors
/// A name is not a plain one or is taken, or the disk refuses.
pub fn lay_beside(files: &[(String, Vec<u8>)], folder: &Path) -> Result<(), Failure> {
    for (name, bytes) in files {
        names::check_path(name)?;
        if name.contains('/') {
            let action = format!("lay `{}` into the bag", name.escape_debug());
            return Err(Failure::new(action, "it is not a plain name"));
        }
        durable::write_new(&folder.join(name), bytes)?;
    }
    durable::sync_folder(folder)
}
