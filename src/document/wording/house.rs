//! A workshop's own wording file: read within bounds, and held against the built-in one of its language,
//! or against the English one.
//!
//! In: the file and the built-in one; out: its words, or problems at their place: a key that is missing
//! would be printed as a key, and one that nobody asks for is a slip of the finger.

use serde::de::DeserializeOwned;
use serde_yaml::Value;

use crate::diagnostic::source::Source;
use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::problems;
use crate::document::wording::grammar;
use crate::sheet::limits;
use crate::sheet::yaml::{self, Content, Entry, Node};

/// Reads a wording file; problems are added to `found`. A file of sentences need hold only some, and
/// the names in them are checked when they are written. Words in a form of the grammar have keys of their
/// own, which end in one of `endings`.
pub fn read<T: DeserializeOwned>(
    source: &Source,
    built_in: &Source,
    endings: &[&str],
    of_sentences: bool,
    found: &mut Vec<Diagnostic>,
) -> Option<T> {
    let mut problems = Problems::default();
    let tree = yaml::parse(source, &mut problems);
    if let Some(tree) = &tree {
        limits::check(source, tree, &mut problems);
    }
    if problems.has_errors() {
        found.extend(problems.into_sorted());
        return None;
    }
    let expected: Value = serde_yaml::from_str(built_in.text()).unwrap_or_default();
    let mut reader = Held { source, endings, of_sentences, found, n_problems: 0 };
    let words = reader.value(&tree.unwrap_or_default(), &expected, "the file");
    if 0 < reader.n_problems {
        return None;
    }
    let read = serde_yaml::from_value(words);
    read.map_err(|error| found.push(problems::wording(Place::whole(source), &error))).ok()
}

/// A file that is held against another.
struct Held<'a> {
    source: &'a Source,
    endings: &'a [&'a str],
    of_sentences: bool,
    found: &'a mut Vec<Diagnostic>,
    n_problems: usize,
}

impl Held<'_> {
    fn report(&mut self, problem: Diagnostic) {
        self.n_problems += 1;
        self.found.push(problem);
    }

    fn place(&self, node: &Node) -> Place {
        Place::at(self.source, node.span.clone())
    }

    fn value(&mut self, node: &Node, expected: &Value, key: &str) -> Value {
        match (expected, &node.content) {
            (Value::Mapping(words), Content::Map(entries)) => {
                self.unknown_keys(entries, words);
                let pairs = words.iter().filter_map(|(name, expected)| {
                    let text = name.as_str()?;
                    match entries.iter().find(|entry| entry.key == text) {
                        Some(entry) => {
                            Some((name.clone(), self.value(&entry.value, expected, text)))
                        }
                        None if self.of_sentences => None,
                        None => {
                            self.report(problems::missing_word(self.place(node), text));
                            None
                        }
                    }
                });
                let mut pairs: serde_yaml::Mapping = pairs.collect();
                for entry in entries.iter().filter(|entry| !words.contains_key(&entry.key)) {
                    let Some(which) = self.word_in_form(&entry.key, words) else { continue };
                    let expected = words.get(which).cloned().unwrap_or_default();
                    let value = self.value(&entry.value, &expected, &entry.key);
                    pairs.insert(entry.key.clone().into(), value);
                }
                Value::Mapping(pairs)
            }
            (Value::Sequence(expected), Content::List(items)) => {
                let is_count_right = expected.len() == items.len() || key != "months";
                if !is_count_right || items.is_empty() {
                    let list = format!("a list of {}", expected.len());
                    self.report(problems::word_kind(self.place(node), key, &list));
                }
                let first = expected.first().cloned().unwrap_or_default();
                let of = |at: usize| expected.get(at).unwrap_or(&first);
                let items = items.iter().enumerate();
                Value::Sequence(items.map(|(at, item)| self.value(item, of(at), key)).collect())
            }
            (Value::Mapping(_), _) => self.wrong(node, key, "a block of words"),
            (Value::Sequence(_), _) => self.wrong(node, key, "a list of words"),
            (expected, Content::Scalar(text)) if !text.trim().is_empty() => {
                if !self.of_sentences {
                    self.gaps(node, text, expected.as_str().unwrap_or_default());
                }
                Value::String(text.clone())
            }
            (Value::String(expected), _) if expected.is_empty() => Value::String(String::new()),
            (_, Content::Empty | Content::Scalar(_)) => {
                self.report(problems::missing_word(self.place(node), key));
                Value::Null
            }
            _ => self.wrong(node, key, "words"),
        }
    }

    fn wrong(&mut self, node: &Node, key: &str, expected: &str) -> Value {
        self.report(problems::word_kind(self.place(node), key, expected));
        Value::Null
    }

    fn unknown_keys(&mut self, entries: &[Entry], words: &serde_yaml::Mapping) {
        let known: Vec<&str> = words.keys().filter_map(Value::as_str).collect();
        let is_known = |key: &str| known.contains(&key) || self.word_in_form(key, words).is_some();
        let unknown: Vec<&Entry> = entries.iter().filter(|entry| !is_known(&entry.key)).collect();
        for entry in unknown {
            let place = Place::at(self.source, entry.key_span.clone());
            self.report(problems::unknown_word(place, &entry.key, &known));
        }
    }

    /// The key of the words that a key of their own holds in a form; empty for the class of a name.
    fn word_in_form<'k>(&self, key: &'k str, words: &serde_yaml::Mapping) -> Option<&'k str> {
        if key == grammar::CLASS {
            return Some("");
        }
        let (which, ending) = key.rsplit_once('-')?;
        (self.endings.contains(&ending) && words.contains_key(which)).then_some(which)
    }

    /// Names in braces that the built-in words do not have.
    fn gaps(&mut self, node: &Node, text: &str, expected: &str) {
        let known = gaps(expected);
        for gap in gaps(text).into_iter().filter(|gap| !known.contains(gap)) {
            self.report(problems::unknown_gap(self.place(node), gap, &known));
        }
    }
}

/// The names in braces, in whichever form they are asked for.
fn gaps(text: &str) -> Vec<&str> {
    let inner = text.split('{').skip(1).filter_map(|part| part.split_once('}'));
    inner.filter_map(|(inner, _)| grammar::gap(inner)).collect()
}
