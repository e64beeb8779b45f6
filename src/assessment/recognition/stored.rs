//! Looks of many photos as one file and back: nothing but what can be measured again.
//!
//! ```text
//! "splitcase looks 1\n", looks, SHA-256 of all before
//! a look: digest (32), width (2), fingerprint (64), number of landmarks (1), landmarks of 16 bytes
//! a landmark: x (2), y (2), size (1), form (11)
//! ```
//!
//! Numbers are little-endian. A file that was cut, changed or written by another version is as good as
//! none. Not here: reading and writing files.

use std::collections::BTreeMap;

use super::Look;
use crate::photo::{Digest, Fingerprint, Landmark, MOST_LANDMARKS};

/// First line of the file.
const HEAD: &[u8] = b"splitcase looks 1\n";

/// Bytes of a digest.
const DIGEST: usize = 32;

/// Looks of photos by the digest of their files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stored {
    /// The looks.
    pub looks: BTreeMap<Digest, Look>,
}

impl Stored {
    /// As one file.
    pub fn bytes(&self) -> Vec<u8> {
        let mut bytes = HEAD.to_vec();
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
                bytes.extend(&landmark.form.to_le_bytes()[..11]);
            }
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
        let mut looks = BTreeMap::new();
        while !rest.is_empty() {
            let look = look(&mut rest)?;
            looks.insert(look.sha256, look);
        }
        Some(Self { looks })
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
        let mut form = [0; 16];
        form[..11].copy_from_slice(&taken::<11>(rest)?);
        landmarks.push(Landmark { x, y, size, form: u128::from_le_bytes(form) });
    }
    (landmarks.len() <= MOST_LANDMARKS).then_some(Look { sha256, width, fingerprint, landmarks })
}

/// Takes so many bytes off the front.
fn taken<const N: usize>(rest: &mut &[u8]) -> Option<[u8; N]> {
    let (first, others) = rest.split_first_chunk::<N>()?;
    *rest = others;
    Some(*first)
}
