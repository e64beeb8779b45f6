//! Changes to a sheet's text that leave every byte between them as it is.
//!
//! In: the text with its marked tree, and new values; out: the changed text. It is for the caller to
//! read the result again and compare: a place that looks plain may be part of something that is not.

#![allow(clippy::similar_names, reason = "a list and its last item")]

use std::ops::Range;

use super::piece::{self, Piece};
use super::yaml::{Content, Entry, Node};

/// Changes to one text, gathered and then made at once.
pub struct Edits<'a> {
    text: &'a str,
    list: Vec<(Range<usize>, String)>,
}

impl<'a> Edits<'a> {
    /// No changes yet.
    pub fn new(text: &'a str) -> Self {
        Self { text, list: Vec::new() }
    }

    /// Puts a text in the place of another.
    pub fn replace(&mut self, range: Range<usize>, text: impl Into<String>) {
        self.list.push((range, text.into()));
    }

    /// Adds an item at the end of a list that has one; `false` if it has none.
    pub fn add_item(&mut self, list: &Node, item: &Piece) -> bool {
        let Content::List(items) = &list.content else { return false };
        match items.last() {
            None if self.is_bracketed(list) => {
                let inside = list.whole.start + 1;
                self.replace(inside..inside, item.in_line());
            }
            None => return false,
            Some(last) if self.is_bracketed(list) => {
                self.replace(last.whole.end..last.whole.end, format!(", {}", item.in_line()));
            }
            Some(last) => {
                let column = self.column(list.whole.start);
                let lines = item.as_item().into_iter().enumerate();
                let lines =
                    lines.map(|(at, line)| format!("{}{line}", if at == 0 { "- " } else { "  " }));
                self.add_lines(last.whole.end, column, lines);
            }
        }
        true
    }

    /// Adds a key to a block, behind the last of those named that it has, else at its end; `false`
    /// if the block has no key at all.
    pub fn add_entry(&mut self, block: &Node, behind: &[&str], key: &str, value: &Piece) -> bool {
        let Content::Map(entries) = &block.content else { return false };
        let named = entries.iter().rfind(|entry| behind.contains(&entry.key.as_str()));
        let (Some(last), Some(first)) = (named.or(entries.last()), entries.first()) else {
            return false;
        };
        let end = end_of(last);
        if self.is_bracketed(block) {
            self.replace(end..end, format!(", {key}: {}", value.in_line()));
        } else {
            let column = self.column(first.key_span.start);
            self.add_lines(end, column, piece::entry(key, value).into_iter());
        }
        true
    }

    /// Gives a key that has nothing behind its colon a value in the same line.
    pub fn fill(&mut self, entry: &Entry, value: &Piece) {
        let empty = entry.value.span.clone();
        if self.text.get(empty.clone()).is_some_and(|typed| !typed.is_empty()) {
            return self.replace(empty, value.in_line());
        }
        let behind = self.text.get(entry.key_span.end..).unwrap_or_default();
        let colon = entry.key_span.end + behind.find(':').map_or(0, |at| at + 1);
        self.replace(colon..colon, format!(" {}", value.in_line()));
    }

    /// Takes an item of a list without brackets away with its lines; `false` if something that is
    /// not the item's is on them.
    pub fn remove_lines(&mut self, list: &Node, item: &Node) -> bool {
        let start = self.line_start(item.whole.start);
        let (end, _) = self.line_end(item.whole.end);
        let before = self.text.get(start..item.whole.start).unwrap_or_default();
        let after = self.text.get(item.whole.end..end).unwrap_or_default();
        let is_own = before.trim() == "-" && after.trim().is_empty();
        if !is_own || list.whole.start == item.whole.start || self.has_comment(item) {
            return false;
        }
        self.replace(start..end, "");
        true
    }

    /// A value as it was typed.
    pub fn typed(&self, node: &Node) -> &'a str {
        self.text.get(node.whole.clone()).unwrap_or_default()
    }

    /// True if a list or block has brackets.
    pub fn is_bracketed(&self, node: &Node) -> bool {
        self.typed(node).starts_with(['[', '{'])
    }

    /// True if there is a comment inside a value: a `#` that no text of it holds.
    pub fn has_comment(&self, node: &Node) -> bool {
        let mut texts = Vec::new();
        spans(node, &mut texts);
        let mut signs = self.typed(node).match_indices('#').map(|(at, _)| node.whole.start + at);
        signs.any(|at| texts.iter().all(|span| !span.contains(&at)))
    }

    /// The text with all changes; `None` if two of them overlap.
    pub fn made(mut self) -> Option<String> {
        self.list.sort_by_key(|(range, _)| (range.start, range.end));
        let mut made = String::with_capacity(self.text.len() + 256);
        let mut done = 0;
        for (range, text) in &self.list {
            made.push_str(self.text.get(done..range.start)?);
            made.push_str(text);
            done = range.end;
        }
        made.push_str(self.text.get(done..)?);
        Some(made)
    }

    /// Adds lines below the one that holds a place.
    fn add_lines(&mut self, at: usize, column: usize, lines: impl Iterator<Item = String>) {
        let (end, has_break) = self.line_end(at);
        let line = self.text.get(self.line_start(at)..end).unwrap_or_default();
        let other = if self.text.contains("\r\n") { "\r\n" } else { "\n" };
        let line_break = match (line.ends_with("\r\n"), has_break) {
            (true, _) => "\r\n",
            (false, true) => "\n",
            (false, false) => other,
        };
        let indent = " ".repeat(column);
        let mut text = String::new();
        for line in lines {
            match has_break {
                true => text.extend([&indent, &line, line_break]),
                false => text.extend([line_break, &indent, &line]),
            }
        }
        self.replace(end..end, text);
    }

    fn line_start(&self, at: usize) -> usize {
        self.text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |line| line + 1)
    }

    /// Where the line that holds a place ends, its line break included, and whether it has one.
    fn line_end(&self, at: usize) -> (usize, bool) {
        match self.text.get(at..).and_then(|after| after.find('\n')) {
            Some(length) => (at + length + 1, true),
            None => (self.text.len(), false),
        }
    }

    /// How many characters are before a place in its line.
    fn column(&self, at: usize) -> usize {
        self.text.get(self.line_start(at)..at).map_or(0, |before| before.chars().count())
    }
}

/// Where a key with its value ends.
fn end_of(entry: &Entry) -> usize {
    entry.value.whole.end.max(entry.key_span.end + 1)
}

/// Places of all texts and keys of a value.
fn spans(node: &Node, into: &mut Vec<Range<usize>>) {
    match &node.content {
        Content::Empty => {}
        Content::Scalar(_) => into.push(node.span.clone()),
        Content::List(items) => items.iter().for_each(|item| spans(item, into)),
        Content::Map(entries) => {
            for entry in entries {
                into.push(entry.key_span.clone());
                spans(&entry.value, into);
            }
        }
    }
}
