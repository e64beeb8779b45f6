//! The register of an archive: one line of JSON for each thing that happened, each with the digest
//! of the line before it.
//!
//! In: lines, or what happened; out: entries and flaws, or a longer register.

pub mod entry;
pub mod head;
pub mod read;
pub mod write;
