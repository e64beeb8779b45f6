//! What a bag holds of the register before it: number and digest of a line, as text and back.
//!
//! A signature or time stamp of the bag covers with it every line up to that one.

use super::entry::NO_LINE;
use super::read::Register;

/// Longest such file in bytes.
pub const MAX_BYTES: u64 = 256;

/// The last line of a register at some time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct History {
    /// Its number; 0 if there was none yet.
    pub line: u64,
    /// Its SHA-256, 64 digits; zeros if there was none.
    pub digest: String,
}

impl History {
    /// Of a register as it is.
    pub fn of(register: &Register) -> Self {
        Self { line: register.whole_lines, digest: register.next_previous() }
    }

    /// As a bag holds it.
    pub fn text(&self) -> String {
        format!("Register-Line: {}\nRegister-Head: {}\n", self.line, self.digest)
    }

    /// Reads the text, in this very form.
    pub fn read(text: &[u8]) -> Option<Self> {
        let text = std::str::from_utf8(text).ok()?;
        let (line, digest) = text.strip_prefix("Register-Line: ")?.split_once('\n')?;
        let digest = digest.strip_prefix("Register-Head: ")?.strip_suffix('\n')?;
        let history = Self { line: line.parse().ok()?, digest: digest.to_owned() };
        (history.text() == text).then_some(history)
    }

    /// True if a register has this line at this place.
    pub fn is_in(&self, register: &Register) -> bool {
        if self.line == 0 {
            return self.digest == NO_LINE;
        }
        // The digest of each line is in the next one; that of the last is the head.
        let next = usize::try_from(self.line).ok().and_then(|at| register.entries.get(at));
        match next {
            Some(next) => next.line == self.line + 1 && next.previous == self.digest,
            None => {
                self.line == register.whole_lines
                    && register.head().is_some_and(|head| head.hex() == self.digest)
            }
        }
    }
}
