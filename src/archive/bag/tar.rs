//! A bag as one file: a bag's folder -> an uncompressed tar, the same bytes each time.
//!
//! GNU form, which carries names of any length and files above 8 GiB. Owner, rights and times say
//! nothing of the machine. Not here: where the tar goes (shelf).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fs::File;
use std::io::{self, BufWriter, Read, Write};
use std::path::Path;

use chrono::NaiveDate;
use tar::{Builder, EntryType, Header};
use walkdir::WalkDir;

use crate::archive::durable;
use crate::failure::Failure;

/// Bytes that are gathered before they go to the disk.
const STEP: usize = 128 * 1024;

/// Writes the tar of a bag to a new file, down to the disk.
///
/// `top` is the folder that all is in; every entry bears the start of `day`, in UTC.
///
/// # Errors
/// The bag cannot be read or changes meanwhile, or the disk refuses.
pub fn write(bag: &Path, top: &str, day: NaiveDate, target: &Path) -> Result<(), Failure> {
    let failed = |error: io::Error| durable::failed("write", target, &error);
    let file = File::create_new(target).map_err(failed)?;
    let mut tar = Builder::new(BufWriter::with_capacity(STEP, file));
    for entry in WalkDir::new(bag).follow_links(false).sort_by_file_name() {
        let entry = entry.map_err(|error| Failure::on("read the bag", bag, error))?;
        let path = entry.path();
        let below = path.strip_prefix(bag).unwrap_or(path);
        let name = Path::new(top).join(below);
        if entry.file_type().is_dir() {
            // A folder's name ends with `/`.
            tar.append_data(&mut header(EntryType::Directory, 0, day), name.join(""), io::empty())
                .map_err(failed)?;
            continue;
        }
        let unreadable = |error| Failure::on("read the bag's file", path, error);
        let file = File::open(path).map_err(unreadable)?;
        let state = file.metadata().map_err(unreadable)?;
        if !entry.file_type().is_file() || !state.is_file() {
            return Err(Failure::on("read the bag's file", path, "it is not a regular file"));
        }
        let mut content = Counted { file, left: state.len(), error: None };
        let done =
            tar.append_data(&mut header(EntryType::Regular, state.len(), day), name, &mut content);
        if let Some(error) = content.error {
            return Err(Failure::on("read the bag's file", path, error));
        }
        done.map_err(failed)?;
    }
    let mut file = tar.into_inner().map_err(failed)?;
    file.flush().map_err(failed)?;
    file.get_ref().sync_all().map_err(failed)
}

/// The header of an entry that says nothing of this machine; `bytes` may exceed 8 GiB.
pub fn header(kind: EntryType, bytes: u64, day: NaiveDate) -> Header {
    let mut header = Header::new_gnu();
    header.set_entry_type(kind);
    header.set_size(bytes);
    header.set_mode(if kind == EntryType::Directory { 0o755 } else { 0o644 });
    header.set_uid(0);
    header.set_gid(0);
    let start = day.and_time(chrono::NaiveTime::MIN).and_utc().timestamp();
    header.set_mtime(u64::try_from(start).unwrap_or(0));
    header
}

/// A file read up to the length that its header says; shorter is an error.
struct Counted {
    file: File,
    left: u64,
    error: Option<String>,
}

impl Read for Counted {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let most = usize::try_from(self.left).unwrap_or(usize::MAX).min(buffer.len());
        if most == 0 {
            return Ok(0);
        }
        let read = match self.file.read(&mut buffer[..most]) {
            Ok(0) => Err(io::Error::new(io::ErrorKind::UnexpectedEof, "it became shorter")),
            done => done,
        };
        match &read {
            Ok(length) => self.left -= *length as u64,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            Err(error) => self.error = Some(error.to_string()),
        }
        read
    }
}
