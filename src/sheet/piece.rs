//! New YAML for a sheet: words, lists and blocks -> text that reads back as the same.
//!
//! In: values that were read already; out: text in one line with brackets, or in lines of their own.
//! Where the text goes is `edit`.

use super::yaml::{Content, Entry, Node};

/// A value that is to be written into a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// A scalar.
    Word(String),
    /// A list in one line.
    List(Vec<Piece>),
    /// A list with a line or more for each item, if the place allows it.
    Lines(Vec<Piece>),
    /// A block in one line.
    Block(Vec<(&'static str, Piece)>),
    /// A block with a line for each key, if the place allows it.
    Fields(Vec<(&'static str, Piece)>),
}

impl Piece {
    /// A scalar.
    pub fn word(text: impl Into<String>) -> Self {
        Self::Word(text.into())
    }

    /// The value in one line: `{file: a.jpg, marks: [{ring: F4}]}`.
    pub fn in_line(&self) -> String {
        match self {
            Self::Word(text) => scalar(text),
            Self::List(items) | Self::Lines(items) => {
                let items: Vec<String> = items.iter().map(Self::in_line).collect();
                format!("[{}]", items.join(", "))
            }
            Self::Block(entries) | Self::Fields(entries) => {
                let entries =
                    entries.iter().map(|(key, value)| format!("{key}: {}", value.in_line()));
                format!("{{{}}}", entries.collect::<Vec<_>>().join(", "))
            }
        }
    }

    /// An item of a list in lines of its own, from behind its `- ` on.
    pub fn as_item(&self) -> Vec<String> {
        match self {
            Self::Fields(entries) => {
                entries.iter().flat_map(|(key, value)| entry(key, value)).collect()
            }
            other => vec![other.in_line()],
        }
    }

    /// The value as the reader will see it, without places.
    pub fn node(&self) -> Node {
        let content = match self {
            Self::Word(text) => Content::Scalar(text.clone()),
            Self::List(items) | Self::Lines(items) => {
                Content::List(items.iter().map(Self::node).collect())
            }
            Self::Block(entries) | Self::Fields(entries) => {
                let entry = |(key, value): &(&str, Self)| Entry {
                    key: (*key).to_owned(),
                    key_span: 0..0,
                    value: value.node(),
                };
                Content::Map(entries.iter().map(entry).collect())
            }
        };
        Node { content, ..Node::default() }
    }
}

/// The lines of a key with its value, none of them indented by its own block.
pub fn entry(key: &str, value: &Piece) -> Vec<String> {
    let inner: Vec<String> = match value {
        Piece::Lines(items) if !items.is_empty() => {
            let dashed = |item: &Piece| {
                let lines = item.as_item().into_iter().enumerate();
                lines
                    .map(|(at, line)| format!("{}{line}", if at == 0 { "- " } else { "  " }))
                    .collect::<Vec<_>>()
            };
            items.iter().flat_map(dashed).collect()
        }
        Piece::Fields(entries) => {
            entries.iter().flat_map(|(key, value)| self::entry(key, value)).collect()
        }
        other => return vec![format!("{key}: {}", other.in_line())],
    };
    let inner = inner.into_iter().map(|line| format!("  {line}"));
    std::iter::once(format!("{key}:")).chain(inner).collect()
}

/// A scalar as it may be written anywhere, also between brackets: plain if nothing in it could be
/// taken for a sign of YAML, else in double quotes.
pub fn scalar(text: &str) -> String {
    let is_plain = |c: char| {
        c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | '.' | '/' | '(' | ')' | '\'')
    };
    let first = text.chars().next().is_some_and(char::is_alphanumeric);
    let is_nothing = matches!(text, "null" | "Null" | "NULL");
    if first && !is_nothing && !text.ends_with(' ') && text.chars().all(is_plain) {
        return text.to_owned();
    }
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            '\n' => quoted.push_str("\\n"),
            '\t' => quoted.push_str("\\t"),
            _ => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}
