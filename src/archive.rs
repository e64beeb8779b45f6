//! The archive stage: a job's originals, sheet and papers as a sealed bag, and the judging of bags.
//!
//! In: names of files, texts in memory, days; out: a `BagIt` bag (RFC 8493) whose digest is in an
//! append-only register, or a judgement of what is there. Times come as arguments, no clock is read
//! here. What belongs into a bag is decided by `sealing`.

pub mod bag;
mod durable;
pub mod erase;
pub mod holdings;
pub mod layout;
pub mod note_head;
pub mod problems;
pub mod receipt;
pub mod redact;
pub mod register;
pub mod request;
pub mod seal;
pub mod store_reply;
pub mod trust;
pub mod verify;
