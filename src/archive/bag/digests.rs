//! The digests that a bag may use: a name -> an algorithm; a stream -> several digests at once.

use std::io::{self, ErrorKind, Read};

use md5::Md5;
use sha2::{Digest, Sha224, Sha256, Sha384, Sha512};

use crate::digest;

/// Bytes that are read at a time.
const STEP: usize = 64 * 1024;

/// A digest algorithm of a manifest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Algorithm {
    /// MD5 (RFC 1321).
    Md5,
    /// SHA-1 (FIPS 180-4).
    Sha1,
    /// SHA-224 (FIPS 180-4).
    Sha224,
    /// SHA-256 (FIPS 180-4).
    Sha256,
    /// SHA-384 (FIPS 180-4).
    Sha384,
    /// SHA-512 (FIPS 180-4).
    Sha512,
}

/// Names in a manifest's file name, digits, and whether no two files with one digest are known.
const ALGORITHMS: &[(Algorithm, &str, usize, bool)] = &[
    (Algorithm::Md5, "md5", 32, false),
    (Algorithm::Sha1, "sha1", 40, false),
    (Algorithm::Sha224, "sha224", 56, true),
    (Algorithm::Sha256, "sha256", 64, true),
    (Algorithm::Sha384, "sha384", 96, true),
    (Algorithm::Sha512, "sha512", 128, true),
];

impl Algorithm {
    /// The algorithm by its name as in `manifest-NAME.txt`.
    pub fn by_name(name: &str) -> Option<Self> {
        ALGORITHMS.iter().find(|row| row.1.eq_ignore_ascii_case(name)).map(|row| row.0)
    }

    fn row(self) -> &'static (Self, &'static str, usize, bool) {
        ALGORITHMS.iter().find(|row| row.0 == self).unwrap_or(&ALGORITHMS[0])
    }

    /// Its name as in `manifest-NAME.txt`.
    pub fn name(self) -> &'static str {
        self.row().1
    }

    /// How many hexadecimal digits its digest has.
    pub fn digits(self) -> usize {
        self.row().2
    }

    /// True if nobody is known to make two files with the same digest.
    pub fn is_strong(self) -> bool {
        self.row().3
    }

    fn hasher(self) -> Box<dyn Hasher> {
        match self {
            Self::Md5 => Box::new(Of(Md5::new())),
            Self::Sha1 => Box::new(OfSha1(sha1::Sha1::new())),
            Self::Sha224 => Box::new(Of(Sha224::new())),
            Self::Sha256 => Box::new(Of(Sha256::new())),
            Self::Sha384 => Box::new(Of(Sha384::new())),
            Self::Sha512 => Box::new(Of(Sha512::new())),
        }
    }
}

/// A digest in the making, of any algorithm.
trait Hasher {
    fn take(&mut self, piece: &[u8]);
    fn end(self: Box<Self>) -> Vec<u8>;
}

/// One of the algorithms of `sha2` and `md-5`.
struct Of<D>(D);

impl<D: Digest> Hasher for Of<D> {
    fn take(&mut self, piece: &[u8]) {
        self.0.update(piece);
    }

    fn end(self: Box<Self>) -> Vec<u8> {
        self.0.finalize().to_vec()
    }
}

/// `sha1` may be of another generation of crates than `sha2`.
struct OfSha1(sha1::Sha1);

impl Hasher for OfSha1 {
    fn take(&mut self, piece: &[u8]) {
        self.0.update(piece);
    }

    fn end(self: Box<Self>) -> Vec<u8> {
        self.0.finalize().to_vec()
    }
}

/// The digests of one file, in the order of the algorithms asked for.
#[derive(Clone, Debug, Default)]
pub struct Sums {
    sums: Vec<(Algorithm, String)>,
}

impl Sums {
    /// Reads to the end once, in memory of one fixed size.
    ///
    /// # Errors
    /// Reading fails.
    pub fn of(mut from: impl Read, algorithms: &[Algorithm]) -> io::Result<Self> {
        let mut hashers: Vec<_> = algorithms.iter().map(|one| (*one, one.hasher())).collect();
        let mut buffer = vec![0; STEP];
        loop {
            match from.read(&mut buffer) {
                Ok(0) => break,
                Ok(length) => hashers.iter_mut().for_each(|(_, one)| one.take(&buffer[..length])),
                Err(error) if error.kind() == ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
        let sums = hashers.into_iter().map(|(one, hasher)| (one, digest::hex(&hasher.end())));
        Ok(Self { sums: sums.collect() })
    }

    /// The digest by one algorithm in lower case digits, if it was asked for.
    pub fn by(&self, algorithm: Algorithm) -> Option<&str> {
        self.sums.iter().find(|(one, _)| *one == algorithm).map(|(_, sum)| sum.as_str())
    }
}

/// `md5, sha256 and sha512`.
pub fn list(algorithms: &[Algorithm]) -> String {
    let names: Vec<&str> = algorithms.iter().map(|one| one.name()).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
