//! What is beside a paper: its other edition, the calendar that it carries, its covering message.

/// A file beside a paper. It is written if the paper is, and no bag needs it: the paper says the same.
pub struct Companion {
    /// File name: `next-checks.ics`.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}
