//! Sealed bags and the judging of them.

/// An authority for time.
mod authority;
/// `seal` and `verify` as they are typed.
mod commands;
/// Copies that leave the workshop.
mod copies;
/// Papers as they were issued.
mod issued;
/// Names of jobs and files.
mod names;
/// The register: chain, torn lines, many writers.
mod register;
/// Bags: layout, versions.
mod seal;
/// Orders to seal, for the other modules.
mod sealing;
/// SSH signatures over bags.
mod signature;
/// Time stamps (RFC 3161).
mod timestamp;
/// What `verify` speaks of at all, and how much.
mod told;
/// What `verify` says.
mod verify;
