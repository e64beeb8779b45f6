//! The register of an archive, read: `register.jsonl` -> entries, flaws, head.
//!
//! One JSON object a line; each holds the SHA-256 of the line before it, so that a line that was
//! changed, taken out or put in shows at the next one. Reading never writes, and it waits for a
//! writer only where the last line looks torn.
//! Not here: adding lines and mending (registrar).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fmt;
use std::fs::{self, File};
use std::io::ErrorKind;
use std::path::Path;

use super::entry::{Entry, Event, NO_LINE};
use crate::failure::Failure;
use crate::photo::Digest;

/// Name of the register in an archive.
pub const REGISTER: &str = "register.jsonl";
/// Name of the file whose lock a writer holds.
pub const LOCK: &str = "register.lock";
/// What is wrong with a register.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// The last line lacks its end, as after a power cut.
    Torn {
        /// Number of the line, from 1.
        line: u64,
        /// How many bytes of it are there.
        bytes: usize,
        /// True where nothing lacks but the newline.
        is_complete: bool,
    },
    /// A line is not one that this program writes.
    Unreadable {
        /// Number of the line, from 1.
        line: u64,
        /// Why not.
        cause: String,
    },
    /// A line does not follow the one before: one of the two was changed, or lines were taken out.
    Unchained {
        /// Number of the line, from 1.
        line: u64,
    },
    /// A line bears a wrong number.
    Misnumbered {
        /// Number of the line, from 1.
        line: u64,
        /// The number that it bears.
        says: u64,
    },
}

impl Flaw {
    /// Number of the line, from 1.
    pub fn line(&self) -> u64 {
        match self {
            Self::Torn { line, .. }
            | Self::Unreadable { line, .. }
            | Self::Unchained { line }
            | Self::Misnumbered { line, .. } => *line,
        }
    }
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Torn { line, bytes, .. } => {
                write!(f, "line {line} is torn: it ends after {bytes} bytes")
            }
            Self::Unreadable { line, cause } => write!(f, "line {line} cannot be read: {cause}"),
            Self::Unchained { line } => {
                write!(f, "line {line} does not follow the line before it")
            }
            Self::Misnumbered { line, says } => {
                write!(f, "line {line} says that it is line {says}")
            }
        }
    }
}

/// A register as it stands on disk.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Register {
    /// The lines that can be read, in order.
    pub entries: Vec<Entry>,
    /// What is wrong, in order of lines.
    pub flaws: Vec<Flaw>,
    /// How many bytes the lines with a newline have.
    pub whole_bytes: u64,
    /// How many lines have a newline.
    pub whole_lines: u64,
    /// What stands after the last newline.
    pub tail: Vec<u8>,
    head: Option<Digest>,
    last_number: u64,
}

impl Register {
    /// Digest of the last line that has a newline, without it; nothing for an empty register.
    pub fn head(&self) -> Option<Digest> {
        self.head
    }

    /// What the next line must name as the digest of the line before it.
    pub fn next_previous(&self) -> String {
        self.head.map_or_else(|| NO_LINE.to_owned(), |head| head.hex())
    }

    /// The lines that tell of sealed bags of a job, in order.
    pub fn sealed<'a>(&'a self, job: &'a str) -> impl DoubleEndedIterator<Item = &'a Entry> {
        self.entries.iter().filter(move |entry| entry.event == Event::Sealed && entry.job == job)
    }

    /// Reads the bytes of a register.
    pub fn parse(bytes: &[u8]) -> Self {
        let mut register = Self::default();
        let end = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at + 1);
        let (whole, tail) = bytes.split_at(end);
        for line in whole.split_inclusive(|byte| *byte == b'\n') {
            register.take(line);
        }
        if !tail.is_empty() {
            let is_complete = Entry::read(tail).is_ok_and(|entry| {
                entry.line == register.next_number() && entry.previous == register.next_previous()
            });
            let line = register.whole_lines + 1;
            register.flaws.push(Flaw::Torn { line, bytes: tail.len(), is_complete });
            tail.clone_into(&mut register.tail);
        }
        register
    }

    /// Takes in one more line, given with its newline.
    pub(super) fn take(&mut self, text: &[u8]) {
        let line = self.whole_lines + 1;
        let bare = text.strip_suffix(b"\n").unwrap_or(text);
        match Entry::read(bare) {
            Ok(entry) => {
                if entry.line != self.next_number() {
                    self.flaws.push(Flaw::Misnumbered { line, says: entry.line });
                }
                if entry.previous != self.next_previous() {
                    self.flaws.push(Flaw::Unchained { line });
                }
                self.last_number = entry.line;
                self.entries.push(entry);
            }
            Err(cause) => {
                self.flaws.push(Flaw::Unreadable { line, cause });
                self.last_number = self.next_number();
            }
        }
        self.whole_lines = line;
        self.whole_bytes += text.len() as u64;
        self.head = Some(Digest::of(bare));
    }

    /// The number that the next line must bear, after one that was misnumbered too.
    fn next_number(&self) -> u64 {
        self.last_number.saturating_add(1)
    }
}

/// Reads the register of an archive; where there is none yet, it is empty.
///
/// # Errors
/// The archive is no folder, or the file cannot be read. Flaws are no errors.
pub fn read(archive: &Path) -> Result<Register, Failure> {
    let register = read_now(archive)?;
    if register.tail.is_empty() {
        return Ok(register);
    }
    // A line may be half written only because somebody is writing it: look again after that.
    let lock = File::open(archive.join(LOCK));
    match lock.and_then(|lock| lock.lock_shared().map(|()| lock)) {
        Ok(_held) => read_now(archive),
        Err(_) => Ok(register),
    }
}

/// Reads the register without waiting for anybody; for those who hold the lock.
pub(super) fn read_now(archive: &Path) -> Result<Register, Failure> {
    let path = archive.join(REGISTER);
    match fs::read(&path) {
        Ok(bytes) => Ok(Register::parse(&bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound && archive.is_dir() => {
            Ok(Register::default())
        }
        Err(error) => Err(Failure::on("read the register", &path, error)),
    }
}
