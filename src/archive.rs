//! The archive stage: a job's originals, sheet and papers as a sealed bag, and the judging of bags.
//!
//! In: names of files, texts in memory, days; out: a `BagIt` bag (RFC 8493) whose digest stands in
//! an append-only register, or a judgement of what lies there. Times come as arguments, no clock is
//! read here. What belongs into a bag is decided by `closing`.

pub mod bag;
pub mod bag_info;
mod durable;
pub mod entry;
pub mod erase;
pub mod history;
pub mod holdings;
pub mod how_to_check;
mod making;
pub mod names;
pub mod order;
mod payload;
pub mod register;
pub mod registrar;
pub mod remark;
pub mod seal;
mod shelf;
pub mod signature;
pub mod stamped;
mod stream;
pub mod tar;
pub mod timestamp;
pub mod verify;
pub mod whole;
