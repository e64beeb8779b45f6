//! Streams: a reader -> its SHA-256 and, where wanted, a copy, in memory of one fixed size.

use std::io::{self, ErrorKind, Read};

use sha2::{Digest as _, Sha256};

/// Bytes that are read at a time.
const STEP: usize = 128 * 1024;

/// What went through.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passed {
    /// How many bytes.
    pub bytes: u64,
    /// Their SHA-256, 64 hexadecimal digits.
    pub sha256: String,
}

/// Reads to the end once, hashing, and hands on each piece.
///
/// # Errors
/// Reading fails (`read` makes the error), or `take` does.
pub fn pass<E>(
    mut from: impl Read,
    read: impl Fn(io::Error) -> E,
    mut take: impl FnMut(&[u8]) -> Result<(), E>,
) -> Result<Passed, E> {
    let mut hash = Sha256::new();
    let mut bytes = 0;
    let mut buffer = vec![0; STEP];
    loop {
        let length = match from.read(&mut buffer) {
            Ok(0) => return Ok(Passed { bytes, sha256: hex(&hash.finalize()) }),
            Ok(length) => length,
            Err(error) if error.kind() == ErrorKind::Interrupted => continue,
            Err(error) => return Err(read(error)),
        };
        let piece = &buffer[..length];
        hash.update(piece);
        take(piece)?;
        bytes += length as u64;
    }
}

fn hex(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    let digits = bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]);
    digits.map(|digit| char::from(DIGITS[usize::from(digit)])).collect()
}
