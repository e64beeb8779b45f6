//! What is asked of the papers of a job: which of them, in which editions, with a covering message or not.

use super::choice::Choice;

/// What is asked of the papers of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Which papers.
    pub choice: Choice,
    /// True to make the return report for the screen of a telephone too.
    pub phone: bool,
    /// True to write a covering message for each paper.
    pub message: bool,
}

impl From<Choice> for Asked {
    /// Papers alone.
    fn from(choice: Choice) -> Self {
        Self { choice, phone: false, message: false }
    }
}

impl Asked {
    /// What separates this from other runs in their records; empty for the usual one.
    pub fn word(&self) -> String {
        let phone = if self.phone { " phone" } else { "" };
        let message = if self.message { " message" } else { "" };
        format!("{}{phone}{message}", self.choice.word())
    }
}
