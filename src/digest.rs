//! SHA-256 of bytes and streams, and bytes as hexadecimal digits.
//!
//! In: bytes, or a reader; out: a [`Digest`], or the length and digits of what was read. Not here:
//! other algorithms (`archive::bag::digests`), comparing digests with a manifest.

use std::fmt;
use std::io::{self, ErrorKind, Read};

use sha2::{Digest as _, Sha256};

/// Bytes that are read at a time.
const STEP: usize = 128 * 1024;

/// A SHA-256 digest (FIPS 180-4).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// The digest of `bytes`.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// A digest that was kept as its 32 bytes.
    pub fn of_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Reads 64 hexadecimal digits.
    pub fn parse(hex: &str) -> Option<Self> {
        let mut bytes = [0; 32];
        if hex.len() != 64 || !hex.is_ascii() {
            return None;
        }
        for (at, byte) in bytes.iter_mut().enumerate() {
            *byte = u8::from_str_radix(hex.get(2 * at..2 * at + 2)?, 16).ok()?;
        }
        Some(Self(bytes))
    }

    /// The 32 bytes of the digest.
    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// All 64 hexadecimal digits, lower case.
    pub fn hex(&self) -> String {
        hex(&self.0)
    }

    /// The first 20 hexadecimal digits, 80 bits: to find a file by. What proves it is the whole digest.
    pub fn short(&self) -> String {
        let mut hex = self.hex();
        hex.truncate(20);
        hex
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({self})")
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.hex())
    }
}

/// Length and digest of what was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passed {
    /// How many bytes.
    pub bytes: u64,
    /// Their SHA-256, 64 hexadecimal digits.
    pub sha256: String,
}

/// Reads to the end once, hashing, and passes each piece on.
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

/// Bytes as hexadecimal digits in lower case.
pub fn hex(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    let digits = bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]);
    digits.map(|digit| char::from(DIGITS[usize::from(digit)])).collect()
}
