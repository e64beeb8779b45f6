//! A bag (`BagIt`, RFC 8493): how each of its files is written and read, and how a bag is made.
//!
//! In: what is to be sealed, or the bytes of a tag file; out: a folder on disk, or what it says. Not here:
//! judging a whole bag (verify), names of files (layout).

pub mod declaration;
pub mod digests;
pub mod info;
pub mod manifest;
pub mod names;
pub mod payload;
pub mod self_check;
pub mod staging;
pub mod tar;
pub mod versions;
pub mod write;
