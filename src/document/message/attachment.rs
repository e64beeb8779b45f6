//! A file that goes with a covering message. In: bytes of a paper or calendar; out: their place in it.

/// A file that goes with a message.
pub struct Attachment<'a> {
    /// Its name, without the job's number.
    pub name: &'a str,
    /// Its media type.
    pub mime: &'static str,
    /// Its bytes.
    pub bytes: &'a [u8],
}
