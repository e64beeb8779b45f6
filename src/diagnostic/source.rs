//! A text with its name and line starts; turns byte offsets into lines and columns.

use std::sync::Arc;

/// A shared [`SourceText`].
pub type Source = Arc<SourceText>;

/// A text that problems can point into.
#[derive(Debug)]
pub struct SourceText {
    name: String,
    text: String,
    line_starts: Vec<usize>,
}

impl SourceText {
    /// A text under the name that messages show.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Source {
        let text = text.into();
        let line_starts =
            std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Arc::new(Self { name: escape_control(&name.into()), text, line_starts })
    }

    /// A file that is named in messages but is not text, such as a photo.
    pub fn named(name: impl Into<String>) -> Source {
        Self::new(name, "")
    }

    /// The name that messages show.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Line and column of a byte offset, both from 1, the column in characters.
    pub fn line_column(&self, offset: usize) -> (usize, usize) {
        let offset = self.text.floor_char_boundary(offset);
        let line = self.line_starts.partition_point(|&start| start <= offset) - 1;
        let start = self.line_starts[line];
        (line + 1, self.text[start..offset].chars().count() + 1)
    }
}

/// A name as a terminal may show it: control characters and direction marks are written out, so that
/// a file's name can neither colour nor steer nor turn it.
pub fn escape_control(name: &str) -> String {
    if !name.contains(is_unseen) {
        return name.to_owned();
    }
    let shown = |c: char| if is_unseen(c) { c.escape_default().to_string() } else { c.to_string() };
    name.chars().map(shown).collect()
}

/// True for a character that steers what is shown and is not shown itself: control characters, line
/// and paragraph separators, marks of direction (Unicode, UAX 9) and the byte order mark.
pub fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
                | '\u{feff}' | '\u{fffe}' | '\u{ffff}'
        )
}
