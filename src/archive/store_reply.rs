//! Stores the reply of a time-stamp authority beside the bag that it is about.
//!
//! In: the bytes of a `.tsr` file (RFC 3161) and an archive; out: the file beside its bag and a line
//! in the register. Whether the authority is one to trust is asked when it is verified.

#![allow(clippy::disallowed_methods, reason = "the archive is one of the ends that touch the disk")]

use std::fs;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};

use super::register::entry::Event;
use super::register::write::{NewEntry, RegisterWriter};
use super::trust::rfc3161;
use super::{durable, layout};
use crate::digest::Digest;
use crate::failure::Failure;

/// Most bytes of a reply, certificates included.
const MAX_REPLY: u64 = 1 << 20;

/// Stores a reply; returns where it is now.
///
/// # Errors
/// The reply is about no bag of this archive, is not sound, or another reply is there already.
pub fn store(reply: &Path, archive: &Path, at: DateTime<Utc>) -> Result<PathBuf, Failure> {
    const ACTION: &str = "store the time stamp";
    let failed = |error| Failure::on("read", reply, error);
    // Asked before it is opened: a pipe would wait without end, and a reply is a few kilobytes.
    let state = fs::metadata(reply).map_err(failed)?;
    if !state.is_file() || MAX_REPLY < state.len() {
        return Err(Failure::on(ACTION, reply, "it is not a reply of a time-stamp authority"));
    }
    let bytes = fs::read(reply).map_err(failed)?;
    if !archive.is_dir() {
        return Err(Failure::on(ACTION, archive, "there is no such archive"));
    }
    let mut writer = RegisterWriter::open(archive)?;
    let sealed = writer.register().entries.iter().filter(|entry| entry.event == Event::Sealed);
    let mut about = sealed.filter_map(|entry| {
        let digest = Digest::parse(&entry.sha256)?;
        rfc3161::check_reply(&bytes, &digest, None).is_good().then(|| entry.clone())
    });
    let Some(entry) = about.next_back() else {
        if let Some(head) = head_of(archive, &bytes)? {
            return beside_head(&head, &bytes);
        }
        let cause = "it is not a sound time stamp of a bag or a noted head in this archive";
        return Err(Failure::on(ACTION, reply, cause)
            .hint("send the bag's `tagmanifest-sha256.txt.tsq` and store the reply to it"));
    };
    let name = layout::stamp_of(&entry.bag);
    let path = archive.join(&name);
    let is_known = writer.register().entries.iter().any(|entry| entry.bag == name);
    match fs::read(&path) {
        Ok(old) if old == bytes && is_known => return Ok(path),
        // A power cut between file and line: the line is still to be written.
        Ok(old) if old == bytes => {}
        Ok(_) => {
            let cause = "another time stamp is there already";
            return Err(Failure::on(ACTION, &path, cause).hint("nothing was changed"));
        }
        Err(_) => durable::write_new(&path, &bytes)?,
    }
    writer.add(&NewEntry {
        event: Event::Stamped,
        job: &entry.job,
        version: entry.version,
        bag: name,
        sha256: Digest::of(&bytes).hex(),
        time: at,
        keep_until: None,
        because: None,
    })?;
    Ok(path)
}

/// The noted head that a reply is about.
fn head_of(archive: &Path, reply: &[u8]) -> Result<Option<PathBuf>, Failure> {
    let failed = |error| Failure::on("look into", archive, error);
    for entry in fs::read_dir(archive).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        let is_head = entry
            .file_name()
            .to_str()
            .and_then(layout::head_line)
            .is_some_and(|(_, end)| end.is_empty());
        if !is_head || !entry.file_type().map_err(failed)?.is_file() {
            continue;
        }
        let text =
            fs::read(entry.path()).map_err(|error| Failure::on("read", &entry.path(), error))?;
        if rfc3161::check_reply(reply, &Digest::of(&text), None).is_good() {
            return Ok(Some(entry.path()));
        }
    }
    Ok(None)
}

/// Stores a reply beside the head that it is about; no line is added, as the head covers the lines.
fn beside_head(head: &Path, reply: &[u8]) -> Result<PathBuf, Failure> {
    let mut path = head.as_os_str().to_owned();
    path.push(layout::REPLY_END);
    let path = PathBuf::from(path);
    match fs::read(&path) {
        Ok(old) if old == reply => Ok(path),
        Ok(_) => Err(Failure::on("store the time stamp", &path, "another one is there already")
            .hint("nothing was changed")),
        Err(_) => durable::write_new(&path, reply).map(|()| path),
    }
}
