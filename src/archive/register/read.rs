//! The register of an archive, read: `register.jsonl` -> entries, flaws, head.
//!
//! One JSON object a line; each holds the SHA-256 of the line before it, so that a line that was
//! changed, taken out or put in shows at the next one. Reading never writes, and it waits for a
//! writer only if the last line looks torn.
//! Not here: adding lines and mending (write).

#![allow(clippy::disallowed_methods, reason = "the archive is kept on disk")]

use std::fmt;
use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, ErrorKind, Read};
use std::path::Path;

use super::entry::{Entry, Event, NO_LINE};
use crate::archive::layout::{LOCK, REGISTER};
use crate::digest::Digest;
use crate::failure::Failure;

/// Longest register in bytes: some 130 000 lines, which are judged in less than 100 MB of memory.
const MAX_REGISTER: u64 = 40 << 20;
/// Longest line in bytes; this program's have less than 600.
const MAX_LINE: u64 = 4096;
/// Most flaws that are collected: a file with more is not a register.
const MAX_FLAWS: usize = 100;

/// What is wrong with a register.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// The last line lacks its end, as after a power cut.
    Torn {
        /// Number of the line, from 1.
        line: u64,
        /// How many bytes of it are there.
        bytes: usize,
        /// True if nothing lacks but the newline.
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
    /// It has too many flaws, so that the rest was not read.
    GaveUp {
        /// Number of the last line that was read, from 1.
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
            | Self::GaveUp { line }
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
            Self::GaveUp { line } => {
                write!(f, "line {line} is the last that was read: so much before it is wrong")
            }
            Self::Misnumbered { line, says } => {
                write!(f, "line {line} bears the number {says}")
            }
        }
    }
}

/// A register as it is on disk.
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
    /// What is after the last newline.
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

    /// The lines about sealed bags of a job, in order.
    pub fn sealed<'a>(&'a self, job: &'a str) -> impl DoubleEndedIterator<Item = &'a Entry> {
        self.entries.iter().filter(move |entry| entry.event == Event::Sealed && entry.job == job)
    }

    /// True if a line says that a file was taken out of a bag, given by its path below the archive.
    pub fn is_redacted(&self, bag: &str) -> bool {
        let is_in = |path: &str| path.strip_prefix(bag).is_some_and(|rest| rest.starts_with('/'));
        self.entries.iter().any(|entry| entry.event == Event::Redacted && is_in(&entry.bag))
    }

    /// Reads a register line by line, within bounds.
    fn read_from(mut from: impl BufRead) -> io::Result<Self> {
        let mut register = Self::default();
        let mut line = Vec::new();
        loop {
            line.clear();
            if (&mut from).take(MAX_LINE).read_until(b'\n', &mut line)? == 0 {
                return Ok(register);
            }
            let number = register.whole_lines + 1;
            if line.ends_with(b"\n") {
                register.take(&line);
            } else if line.len() as u64 == MAX_LINE {
                let cause = format!("it is longer than {MAX_LINE} bytes");
                register.flaws.push(Flaw::Unreadable { line: number, cause });
                return Ok(register);
            } else {
                let is_complete = Entry::read(&line).is_ok_and(|entry| {
                    entry.line == register.next_number()
                        && entry.previous == register.next_previous()
                });
                register.flaws.push(Flaw::Torn { line: number, bytes: line.len(), is_complete });
                register.tail.clone_from(&line);
            }
            if register.flaws.len() >= MAX_FLAWS {
                register.flaws.push(Flaw::GaveUp { line: number });
                return Ok(register);
            }
        }
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

/// Reads the register of an archive; if there is none yet, it is empty.
///
/// # Errors
/// The archive is not a folder, or the file cannot be read. Flaws are no errors.
pub fn register(archive: &Path) -> Result<Register, Failure> {
    let register = register_now(archive)?;
    if register.tail.is_empty() {
        return Ok(register);
    }
    // A line may be half written only because somebody is writing it: look again after that.
    let lock = File::open(archive.join(LOCK));
    match lock.and_then(|lock| lock.lock_shared().map(|()| lock)) {
        Ok(_held) => register_now(archive),
        Err(_) => Ok(register),
    }
}

/// Reads the register without waiting for anybody; for those who hold the lock.
///
/// # Errors
/// The archive is not a folder, or the file is not a plain one, too long, or cannot be read.
pub fn register_now(archive: &Path) -> Result<Register, Failure> {
    let path = archive.join(REGISTER);
    let failed = |cause: &dyn fmt::Display| Failure::on("read the register", &path, cause);
    // Asked before it is opened: a pipe would wait without end.
    let state = match fs::metadata(&path) {
        Ok(state) => state,
        Err(error) if error.kind() == ErrorKind::NotFound && archive.is_dir() => {
            return Ok(Register::default());
        }
        Err(error) => return Err(failed(&error)),
    };
    if !state.is_file() {
        return Err(failed(&"it is not a plain file"));
    }
    if state.len() > MAX_REGISTER {
        return Err(failed(&format_args!("it is longer than {MAX_REGISTER} bytes")));
    }
    let file = File::open(&path).map_err(|error| failed(&error))?;
    Register::read_from(BufReader::new(file.take(MAX_REGISTER))).map_err(|error| failed(&error))
}
