//! Verifying: what was sealed held against itself, in every form and with every kind of fault.

/// Whole archives: the register, what it names, what it does not.
mod archives;
/// Bags described in one text file each, beside what is said of them.
mod bags;
/// Numbers for places and bits.
mod chance;
/// A bag written from its description.
mod described;
/// One bit turned over, anywhere.
mod flips;
/// Archives and PDFs to look at.
mod made;
/// PDFs against what they were made from.
mod papers;
/// The same bags as tar, and tars made to hurt.
mod tars;
