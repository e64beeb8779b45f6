//! Makes a bag (`BagIt` 1.0, RFC 8493): an order and an empty place -> a folder, down to the disk.
//!
//! The same order gives the same bytes. Not here: where the bag goes then (shelf, seal).

use std::collections::BTreeSet;
use std::path::Path;

use super::bag_info;
use super::durable;
use super::history::{self, History};
use super::how_to_check;
use super::names;
use super::order::SealOrder;
use super::payload::{self, Held};
use super::remark::Remark;
use crate::failure::Failure;
use crate::photo::Digest;

/// The declaration of a bag, its name and whole content.
pub const DECLARATION: (&str, &str) =
    ("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
/// Name of the description of a bag.
pub const INFO: &str = "bag-info.txt";
/// Name of the list of digests of the payload.
pub const MANIFEST: &str = "manifest-sha256.txt";
/// Name of the list of digests of the tag files, whose own digest is the bag's.
pub const TAG_MANIFEST: &str = "tagmanifest-sha256.txt";

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
            match line.ends_with(&format!("  {}\n", history::FILE)) {
                true => tag_line(history::FILE, history),
                false => line.to_owned(),
            }
        });
        lines.collect::<String>().into_bytes()
    }
}

/// Checks the names of an order before anything is written; says which of them another disk could
/// lose.
///
/// # Errors
/// A name is not safe, or two files would lie in the same place.
pub fn check_names(order: &SealOrder<'_>) -> Result<Vec<Remark>, Failure> {
    names::check_job(order.job)?;
    let originals = order.originals.iter();
    let originals = originals.map(|file| (&file.name, payload::original_path(&file.name)));
    let in_memory = order.in_memory.iter();
    let in_memory = in_memory.map(|file| (&file.path, payload::in_memory_path(&file.path)));
    let mut paths = BTreeSet::new();
    for (name, path) in originals.chain(in_memory) {
        names::check_path(name)?;
        if !paths.insert(path) {
            let action = format!("seal the file `{}`", name.escape_debug());
            return Err(Failure::new(action, "two files would lie in its place"));
        }
    }
    let below_data =
        || paths.iter().map(|path: &String| path.strip_prefix("data/").unwrap_or(path));
    let clashes = names::clashes(below_data());
    let clashes = clashes
        .into_iter()
        .map(|(one, other)| Remark::Clash { one: one.to_owned(), other: other.to_owned() });
    let odd = below_data().filter(|path| !names::is_portable(path));
    let odd = odd.map(|path| Remark::NotPortable { path: path.to_owned() });
    Ok(clashes.chain(odd).collect())
}

/// Makes the bag of an order; nothing may stand at `folder` yet.
///
/// # Errors
/// A file is refused or changes while it is copied, or the disk refuses.
pub fn make(order: &SealOrder<'_>, folder: &Path, history: &History) -> Result<Bag, Failure> {
    durable::make_folder(&folder.join("data"))?;
    let mut held = Vec::new();
    for original in order.originals {
        held.push(payload::copy_original(order.folder, original, folder)?);
    }
    for file in order.in_memory {
        held.push(payload::write_in_memory(file, folder)?);
    }
    held.sort();
    let payload =
        bag_info::Payload { bytes: held.iter().map(|file| file.bytes).sum(), files: held.len() };
    let info = bag_info::text(order.info, order.bagging_date, order.keep_until, payload)?;
    let manifest: String = held.iter().map(manifest_line).collect();
    // In the order of their names, which is that of the list.
    let history = history.text();
    let tags = [
        (INFO, info.as_str()),
        DECLARATION,
        (how_to_check::NAME, how_to_check::BAG),
        (MANIFEST, &manifest),
        (history::FILE, &history),
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
    let sha256 = Digest::of(bytes).hex();
    manifest_line(&Held { path: name.to_owned(), bytes: bytes.len() as u64, sha256 })
}

fn manifest_line(file: &Held) -> String {
    format!("{}  {}\n", file.sha256, names::encode(&file.path))
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
            return Err(Failure::new(action, "it is no plain name"));
        }
        durable::write_new(&folder.join(name), bytes)?;
    }
    durable::sync_folder(folder)
}
