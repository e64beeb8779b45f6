//! YAML text -> marked tree: every key and value with its place in the text.
//!
//! Files that people write come through here and only here. Bounds keep a hostile file cheap: size,
//! depth and number of nodes are limited; anchors, aliases, tags and a second document are refused.
//! Every scalar stays text until its field says what it is; no meaning is given to values here.

mod cut;
pub mod slip;

use std::collections::BTreeMap;
use std::ops::Range;

use saphyr_parser::{Event, Parser, ScalarStyle, Span};

use super::problems;
use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Place, Problems};

/// How deep lists and blocks may be nested.
const MAX_DEPTH: usize = 32;
/// How many keys and values a file may hold.
const MAX_NODES: usize = 20_000;

/// A value with its place.
#[derive(Clone, Debug, Default)]
pub struct Node {
    /// Bytes of a scalar; of a block or list only its first key or item, so that marks stay short.
    pub span: Range<usize>,
    /// Bytes from its first letter to its last, brackets of a list or block in one line included.
    pub whole: Range<usize>,
    /// What is there.
    pub content: Content,
}

impl Node {
    /// The value under a key, if this is a block that has it.
    pub fn get(&self, key: &str) -> Option<&Self> {
        let Content::Map(entries) = &self.content else { return None };
        entries.iter().find(|entry| entry.key == key).map(|entry| &entry.value)
    }
}

/// What a value is made of.
#[derive(Clone, Debug, Default)]
pub enum Content {
    /// Nothing after the colon, `~` or `null`.
    #[default]
    Empty,
    /// A scalar as typed, quotes and escapes resolved.
    Scalar(String),
    /// Items in their order.
    List(Vec<Node>),
    /// Keys in their order, each once.
    Map(Vec<Entry>),
}

/// One key with its value.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The key as typed.
    pub key: String,
    /// Bytes of the key.
    pub key_span: Range<usize>,
    /// The value.
    pub value: Node,
}

/// Why a text was not read to its end.
pub(super) struct Stop {
    pub problem: Diagnostic,
    /// The value that quotes would mend, if it is one of those.
    pub slip: Option<Range<usize>>,
}

/// Reads one document; problems found on the way are pushed, and what could be read is returned.
pub fn parse(source: &Source, problems: &mut Problems) -> Option<Node> {
    match parse_text(source, source.text(), problems) {
        Ok(root) => root,
        Err(stop) => {
            problems.push(stop.problem);
            None
        }
    }
}

/// Reads the text of a source, or one that differs from it in letters alone and not in length.
pub(super) fn parse_text(
    source: &Source,
    text: &str,
    problems: &mut Problems,
) -> Result<Option<Node>, Stop> {
    let offsets = Offsets::of(text);
    let mut builder = Builder { source, offsets, open: Vec::new(), root: None, n_nodes: 0 };
    for event in Parser::new_from_str(text) {
        match event {
            Ok((event, span)) => builder
                .take(event, span, problems)
                .map_err(|problem| Stop { problem, slip: None })?,
            Err(error) => {
                let at = builder.offsets.byte(error.marker().index());
                let place = Place::at(source, at..at);
                return Err(match slip::at(text, at) {
                    Some((slip, value)) => {
                        let problem = problems::needs_quotes(place, error.info(), slip);
                        Stop { problem, slip: Some(value) }
                    }
                    None => Stop { problem: problems::not_yaml(place, error.info()), slip: None },
                });
            }
        }
    }
    Ok(builder.root)
}

/// Turns the parser's character positions into bytes.
struct Offsets {
    /// Byte offset of every character, and the length of the text at the end.
    bytes: Option<Vec<u32>>,
    length: usize,
}

impl Offsets {
    fn of(text: &str) -> Self {
        let bytes = (!text.is_ascii()).then(|| {
            let starts = text.char_indices().map(|(at, _)| at);
            starts.chain([text.len()]).map(|at| u32::try_from(at).unwrap_or(u32::MAX)).collect()
        });
        Self { bytes, length: text.len() }
    }

    fn byte(&self, character: usize) -> usize {
        match &self.bytes {
            Some(bytes) => bytes.get(character).map_or(self.length, |&byte| byte as usize),
            None => character.min(self.length),
        }
    }

    fn range(&self, span: Span) -> Range<usize> {
        let start = self.byte(span.start.index());
        start..self.byte(span.end.index()).max(start)
    }
}

/// A list or block that is still open.
enum Open {
    List {
        span: Range<usize>,
        items: Vec<Node>,
    },
    Map {
        span: Range<usize>,
        entries: Vec<Entry>,
        known: Known,
        key: Option<(String, Range<usize>)>,
    },
}

/// Keys of a block that were met, each with its place.
type Known = BTreeMap<String, Range<usize>>;

struct Builder<'a> {
    source: &'a Source,
    offsets: Offsets,
    open: Vec<Open>,
    root: Option<Node>,
    n_nodes: usize,
}

type Step = Result<(), Diagnostic>;

impl Builder<'_> {
    fn take(&mut self, event: Event<'_>, span: Span, problems: &mut Problems) -> Step {
        let range = self.offsets.range(span);
        let place = Place::at(self.source, range.clone());
        match event {
            Event::DocumentStart(_) if self.root.is_some() => {
                return Err(problems::second_document(place));
            }
            // An alias can only follow an anchor, so it is never met.
            Event::Alias(_)
            | Event::Scalar(_, _, 1.., _)
            | Event::SequenceStart(1.., _)
            | Event::MappingStart(1.., _) => return Err(problems::anchor(place)),
            Event::Scalar(_, _, _, Some(_))
            | Event::SequenceStart(_, Some(_))
            | Event::MappingStart(_, Some(_)) => return Err(problems::tag(place)),
            Event::Scalar(text, style, ..) => {
                let is_plain = style == ScalarStyle::Plain;
                let empty = is_plain && matches!(&*text, "" | "~" | "null");
                let span = trimmed(self.source.text(), range);
                // A value that is cut from its first letter on is empty: it begins behind its key.
                let end = if text.is_empty() { self.value_start(span.end) } else { span.end };
                if let Some(lost) = cut::after(self.source.text(), end).filter(|_| is_plain) {
                    let words = self.source.text().get(lost.clone()).unwrap_or_default();
                    problems.push(problems::cut_text(Place::at(self.source, lost), words));
                }
                if self.awaits_key() {
                    return self.key(text.into_owned(), span, problems);
                }
                let content =
                    if empty { Content::Empty } else { Content::Scalar(text.into_owned()) };
                let whole =
                    if span.is_empty() { self.nothing_before(span.start) } else { span.clone() };
                return self.close(Node { span, whole, content });
            }
            Event::SequenceStart(..) => {
                self.enter(place, Open::List { span: range, items: Vec::new() })?;
            }
            Event::MappingStart(..) => {
                self.enter(
                    place,
                    Open::Map { span: range, entries: Vec::new(), known: Known::new(), key: None },
                )?;
            }
            Event::SequenceEnd | Event::MappingEnd => return self.leave(range.end),
            _ => {}
        }
        Ok(())
    }

    /// Where the value of the key that was read last begins, or `otherwise`.
    fn value_start(&self, otherwise: usize) -> usize {
        let Some(Open::Map { key: Some((_, span)), .. }) = self.open.last() else {
            return otherwise;
        };
        let behind = self.source.text().get(span.end..).unwrap_or_default();
        let n_blanks = behind.len() - behind.trim_start_matches(' ').len();
        span.end + n_blanks + usize::from(behind[n_blanks..].starts_with(':'))
    }

    /// The place of an empty value: the parser reports it if the next thing begins.
    fn nothing_before(&self, start: usize) -> Range<usize> {
        let end = self.source.text().get(..start).map_or(0, |before| before.trim_end().len());
        end..end
    }

    fn awaits_key(&self) -> bool {
        matches!(self.open.last(), Some(Open::Map { key: None, .. }))
    }

    fn key(&mut self, text: String, span: Range<usize>, problems: &mut Problems) -> Step {
        self.count(&span)?;
        let Some(Open::Map { known, key, .. }) = self.open.last_mut() else { return Ok(()) };
        if let Some(first) = known.get(&text) {
            let first = Place::at(self.source, first.clone());
            let second = Place::at(self.source, span.clone());
            problems.push(problems::duplicate_key(second, &text, first));
        }
        *key = Some((text, span));
        Ok(())
    }

    fn enter(&mut self, place: Place, open: Open) -> Step {
        if self.awaits_key() {
            return Err(problems::key_is_no_word(place));
        }
        if self.open.len() == MAX_DEPTH {
            return Err(problems::too_deep(place, MAX_DEPTH));
        }
        self.open.push(open);
        Ok(())
    }

    /// Closes a list or block; `end` is where the parser saw its end, which for one without brackets
    /// is where the next thing begins.
    fn leave(&mut self, end: usize) -> Step {
        let node = match self.open.pop() {
            Some(Open::List { span, items }) => {
                let last = items.last().map(|item| item.whole.end);
                let whole = self.extent(&span, last, end);
                let span = items.first().map_or(span, |item| item.span.clone());
                Node { span, whole, content: Content::List(items) }
            }
            Some(Open::Map { span, entries, .. }) => {
                let last =
                    entries.last().map(|entry| entry.value.whole.end.max(entry.key_span.end));
                let whole = self.extent(&span, last, end);
                let span = entries.first().map_or(span, |entry| entry.key_span.clone());
                Node { span, whole, content: Content::Map(entries) }
            }
            None => return Ok(()),
        };
        self.close(node)
    }

    /// From the first letter of a list or block to its last.
    fn extent(&self, begin: &Range<usize>, last: Option<usize>, end: usize) -> Range<usize> {
        let text = self.source.text();
        let is_bracketed = text.get(begin.start..).is_some_and(|text| text.starts_with(['[', '{']));
        let end = if is_bracketed {
            closing(text, last.unwrap_or(begin.start + 1)).unwrap_or(end)
        } else {
            last.unwrap_or(begin.end)
        };
        begin.start..end.max(begin.start)
    }

    /// Hands a finished value to the list or block around it.
    fn close(&mut self, node: Node) -> Step {
        self.count(&node.span)?;
        match self.open.last_mut() {
            Some(Open::List { items, .. }) => items.push(node),
            Some(Open::Map { entries, known, key, .. }) => {
                if let Some((key, key_span)) = key.take() {
                    // A second value under the same key was reported; the first one counts.
                    if !known.contains_key(&key) {
                        known.insert(key.clone(), key_span.clone());
                        entries.push(Entry { key, key_span, value: node });
                    }
                }
            }
            None => self.root = Some(node),
        }
        Ok(())
    }

    fn count(&mut self, span: &Range<usize>) -> Step {
        self.n_nodes += 1;
        if MAX_NODES < self.n_nodes {
            return Err(problems::too_many_nodes(Place::at(self.source, span.clone()), MAX_NODES));
        }
        Ok(())
    }
}

/// Where the bracket ends that closes a list or block whose last value ends at `from`: only commas, white
/// space and comments are in between. The parser's own mark of it may lie behind a comment.
fn closing(text: &str, from: usize) -> Option<usize> {
    let mut is_comment = false;
    for (at, c) in text.get(from..)?.char_indices() {
        match c {
            '\n' => is_comment = false,
            '#' => is_comment = true,
            ']' | '}' if !is_comment => return Some(from + at + 1),
            _ => {}
        }
    }
    None
}

/// The span without white space at its end.
fn trimmed(text: &str, range: Range<usize>) -> Range<usize> {
    let length = text.get(range.clone()).map_or(0, |part| part.trim_end().len());
    range.start..range.start + length
}
