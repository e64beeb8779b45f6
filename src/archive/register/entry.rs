//! A line of the register: bytes -> entry and back.
//!
//! Not here: how lines hang together (register).

use serde::{Deserialize, Serialize};

/// What the first line names as the digest of the line before.
pub const NO_LINE: &str = "0000000000000000000000000000000000000000000000000000000000000000";

/// What a line says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Event {
    /// A bag was sealed.
    Sealed,
    /// The reply of a time-stamp authority came for a bag.
    Stamped,
    /// A bag was taken away, for the reason that the line keeps.
    Erased,
    /// One file of a bag was taken out, for the reason that the line keeps; its digest stays.
    Redacted,
}

/// A line of the register, its keys in the order in which they are written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Entry {
    /// Number of the line, from 1.
    pub line: u64,
    /// What it says.
    pub event: Event,
    /// Number of the job.
    pub job: String,
    /// Version of the job's bag, from 1.
    pub version: u32,
    /// Path below the archive, with `/`: of the bag, of what came for it, of a file that was taken out.
    pub bag: String,
    /// 64 hexadecimal digits: the bag's digest, or that of what came or was taken out.
    pub sha256: String,
    /// When, in UTC to the second: `2026-11-25T14:05:08Z`.
    pub time: String,
    /// Until which day the bag is to be kept: `2032-11-25`.
    pub keep_until: Option<String>,
    /// Why a bag or a file was taken away; in lines of that kind alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub because: Option<String>,
    /// SHA-256 of the line before, without its newline; [`NO_LINE`] in the first.
    pub previous: String,
}

impl Entry {
    /// Reads a line, given without its newline.
    ///
    /// # Errors
    /// In words: it is not JSON of this form, or written in another way than this program does.
    pub fn read(text: &[u8]) -> Result<Self, String> {
        let entry: Self = serde_json::from_slice(text).map_err(|error| error.to_string())?;
        if entry.text()? != text {
            return Err("its keys or spaces are not as this program writes them".to_owned());
        }
        Ok(entry)
    }

    /// The line as it is written, without its newline.
    ///
    /// # Errors
    /// In words: it cannot be written.
    pub fn text(&self) -> Result<Vec<u8>, String> {
        serde_json::to_vec(self).map_err(|error| error.to_string())
    }
}
