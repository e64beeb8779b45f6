//! A fact in the spine of a section.

use serde::Serialize;

/// A fact in the spine.
#[derive(Debug, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: String,
    /// `plain`, `strong` or `mono`.
    pub style: &'static str,
    /// A second, quieter line.
    pub under: Option<String>,
}

impl Fact {
    /// A fact in ordinary letters.
    pub fn plain(label: &str, value: impl Into<String>) -> Self {
        Self { label: label.into(), value: value.into(), style: "plain", under: None }
    }

    /// A fact in fixed-width letters, for designations and numbers to compare.
    pub fn mono(label: &str, value: impl Into<String>) -> Self {
        Self { style: "mono", ..Self::plain(label, value) }
    }

    /// A fact in strong letters.
    pub fn strong(label: &str, value: impl Into<String>) -> Self {
        Self { style: "strong", ..Self::plain(label, value) }
    }
}
