//! Writes the register's head into a file of its own, for others to sign: one signature or one time
//! stamp of it covers every line so far, and with them every bag.
//!
//! In: an archive, a key; out: `register.head-N.txt` and what belongs beside it. A file that is there is
//! never changed. Not here: storing an authority's reply (`store_reply`).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs;
use std::path::{Path, PathBuf};

use super::durable;
use super::layout::{QUERY_END, SIGNATURE_END, head_file};
use super::register::head::History;
use super::register::write::RegisterWriter;
use super::trust::{rfc3161, ssh};
use crate::digest::Digest;
use crate::failure::Failure;

/// What is wanted beside the head.
#[derive(Clone, Copy, Debug, Default)]
pub struct Beside<'a> {
    /// The private key that signs it.
    pub key: Option<&'a Path>,
    /// What unlocks the key.
    pub passphrase: Option<&'a str>,
    /// Whether a question to a time-stamp authority is wanted.
    pub query: bool,
}

/// Writes the present head and what is wanted beside it; gives the files that are there then.
///
/// # Errors
/// The register is empty or has a flaw, something else is in the place of a file, the key or the disk
/// refuses.
pub fn note(archive: &Path, beside: &Beside<'_>) -> Result<Vec<PathBuf>, Failure> {
    const ACTION: &str = "note the head of the register of";
    if !archive.is_dir() {
        return Err(Failure::on(ACTION, archive, "there is no such archive"));
    }
    // Held until the end, so that no line comes between.
    let writer = RegisterWriter::open(archive)?;
    let head = History::of(writer.register());
    if head.line == 0 {
        return Err(Failure::on(ACTION, archive, "nothing is sealed here yet"));
    }
    let text = head.text().into_bytes();
    let name = head_file(head.line);
    let mut files = vec![(name.clone(), text.clone())];
    if let Some(key) = beside.key {
        let signature = ssh::sign(key, beside.passphrase, &text)?;
        files.push((format!("{name}{SIGNATURE_END}"), signature));
    }
    if beside.query {
        files.push((format!("{name}{QUERY_END}"), rfc3161::query(&Digest::of(&text))));
    }
    let mut written = Vec::new();
    for (name, bytes) in files {
        let path = archive.join(name);
        if path.symlink_metadata().is_err() {
            durable::write_new(&path, &bytes)?;
        } else if !fs::read(&path).is_ok_and(|there| there == bytes) {
            let cause = "something else is in its place, and nothing is overwritten";
            return Err(Failure::on("write", &path, cause)
                .hint("move that file elsewhere; after the next line the head has another name"));
        }
        written.push(path);
    }
    durable::sync_folder(archive)?;
    Ok(written)
}
