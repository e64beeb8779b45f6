//! Verifying: what was sealed held against itself, in every form and with every kind of fault.

/// Whole archives: the register, what it names, what it does not.
mod archives;
/// What somebody asked for and nothing here can answer.
mod asked;
/// Bags described in one text file each, beside what is said of them.
mod bags;
/// Numbers for places and bits.
mod chance;
/// A bag written from its description.
mod described;
/// Papers that are older than the sheet beside them.
mod earlier;
/// One bit turned over, anywhere.
mod flips;
/// Forgeries by somebody who can write to the archive.
mod forgeries;
/// Bags whose last day has passed, and archives without any.
mod gone;
/// The register's head in a file of its own.
mod heads;
/// Archives and PDFs to look at.
mod made;
/// The owner's copy of a bag.
mod owners;
/// PDFs against what they were made from.
mod papers;
/// Pictures on the pages of papers that cannot be made again.
mod pictures;
/// One file taken out of a bag.
mod redacted;
/// Every sentence beside the check that licenses it.
mod sentences;
/// Time stamps against bag, register and clock.
mod stamps;
/// The same bags as tar, and tars made to hurt.
mod tars;
/// What cannot be read is not told as wrong.
#[cfg(target_os = "linux")]
mod unread;
/// Every sentence on a signature or a time stamp.
mod witnesses;
