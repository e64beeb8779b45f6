//! Looks of many photos as one file and back: nothing but what can be measured again.
//!
//! ```text
//! "splitcase looks 2\n", number of looks (4), looks, files, SHA-256 of all before
//! a look: digest (32), width (2), fingerprint (64), number of landmarks (1), landmarks
//! a landmark: x (2), y (2), size (1), form (12)
//! a file: folder, name and job, each its length (2) and text; bytes (8), time of change in nanoseconds (16), digest (32)
//! ```
//!
//! Numbers are little-endian. A file that was cut, changed or written by another version is as good as
//! none. Not here: reading and writing files.

#![allow(clippy::many_single_char_names, reason = "the letters of formulas")]

use std::collections::BTreeMap;

use super::look::Look;
use crate::digest::Digest;
use crate::photo::{Fingerprint, Landmark, MOST_LANDMARKS};

/// First line of the file.
const HEAD: &[u8] = b"splitcase looks 2\n";

/// Bytes of a digest.
const DIGEST: usize = 32;

/// A file as it was when it was looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Its length.
    pub bytes: u64,
    /// Its time of change in nanoseconds since 1970.
    pub changed: u128,
    /// Its digest.
    pub sha256: Digest,
}

/// Looks of photos by the digest of their files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stored {
    /// The looks.
    pub looks: BTreeMap<Digest, Look>,
    /// Files of the workshop's folder tree: by job folder and name below it, with `/`, the job's
    /// number and the file's state.
    pub files: BTreeMap<(String, String), (String, Mark)>,
}

impl Stored {
    /// As one file.
    pub fn bytes(&self) -> Vec<u8> {
        let mut bytes = HEAD.to_vec();
        bytes.extend((self.looks.len() as u32).to_le_bytes());
        for look in self.looks.values() {
            bytes.extend(look.sha256.bytes());
            bytes.extend(look.width.to_le_bytes());
            for word in look.fingerprint.falls.iter().chain(&look.fingerprint.rises) {
                bytes.extend(word.to_le_bytes());
            }
            let landmarks = &look.landmarks[..look.landmarks.len().min(MOST_LANDMARKS)];
            bytes.push(landmarks.len() as u8);
            for landmark in landmarks {
                bytes.extend(landmark.x.to_le_bytes());
                bytes.extend(landmark.y.to_le_bytes());
                bytes.push(landmark.size);
                for word in landmark.form {
                    bytes.extend(word.to_le_bytes());
                }
            }
        }
        for ((folder, name), (job, mark)) in &self.files {
            for text in [folder, name, job] {
                let text = text.as_bytes();
                bytes.extend((text.len() as u16).to_le_bytes());
                bytes.extend(&text[..usize::from(text.len() as u16)]);
            }
            bytes.extend(mark.bytes.to_le_bytes());
            bytes.extend(mark.changed.to_le_bytes());
            bytes.extend(mark.sha256.bytes());
        }
        bytes.extend(Digest::of(&bytes).bytes());
        bytes
    }

    /// Reads a file of this form; nothing if it is not whole.
    pub fn read(bytes: &[u8]) -> Option<Self> {
        let (body, digest) = bytes.split_at_checked(bytes.len().checked_sub(DIGEST)?)?;
        if Digest::of(body).bytes() != digest {
            return None;
        }
        let mut rest = body.strip_prefix(HEAD)?;
        let mut stored = Self::default();
        for _ in 0..u32::from_le_bytes(taken(&mut rest)?) {
            let look = look(&mut rest)?;
            stored.looks.insert(look.sha256, look);
        }
        while !rest.is_empty() {
            let place = (text(&mut rest)?, text(&mut rest)?);
            let job = text(&mut rest)?;
            let bytes = u64::from_le_bytes(taken(&mut rest)?);
            let changed = u128::from_le_bytes(taken(&mut rest)?);
            let sha256 = Digest::of_bytes(taken(&mut rest)?);
            stored.files.insert(place, (job, Mark { bytes, changed, sha256 }));
        }
        Some(stored)
    }
}

fn look(rest: &mut &[u8]) -> Option<Look> {
    let sha256 = Digest::of_bytes(taken(rest)?);
    let width = u16::from_le_bytes(taken(rest)?);
    let mut words = [0_u64; 8];
    for word in &mut words {
        *word = u64::from_le_bytes(taken(rest)?);
    }
    let [a, b, c, d, e, f, g, h] = words;
    let fingerprint = Fingerprint { falls: [a, b, c, d], rises: [e, f, g, h] };
    let [n] = taken(rest)?;
    let mut landmarks = Vec::with_capacity(usize::from(n));
    for _ in 0..n {
        let (x, y) = (u16::from_le_bytes(taken(rest)?), u16::from_le_bytes(taken(rest)?));
        let [size] = taken(rest)?;
        let mut form = [0; 3];
        for word in &mut form {
            *word = u32::from_le_bytes(taken(rest)?);
        }
        landmarks.push(Landmark { x, y, size, form });
    }
    let between = Vec::new();
    (landmarks.len() <= MOST_LANDMARKS).then_some(Look {
        sha256,
        width,
        fingerprint,
        landmarks,
        between,
    })
}

fn text(rest: &mut &[u8]) -> Option<String> {
    let length = u16::from_le_bytes(taken(rest)?);
    let (text, others) = rest.split_at_checked(usize::from(length))?;
    *rest = others;
    String::from_utf8(text.to_vec()).ok()
}

/// Takes this many bytes off the front.
fn taken<const N: usize>(rest: &mut &[u8]) -> Option<[u8; N]> {
    let (first, others) = rest.split_first_chunk::<N>()?;
    *rest = others;
    Some(*first)
}
