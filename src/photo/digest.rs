//! The digest of a file: bytes -> SHA-256.
//!
//! Not here: comparing digests with a manifest (archive).

use std::fmt;

use sha2::{Digest as _, Sha256};

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
        self.to_string()
    }

    /// The first 12 hexadecimal digits: enough to tell the photos of a job apart in print.
    pub fn short(&self) -> String {
        let mut hex = self.hex();
        hex.truncate(12);
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
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}
