//! The copy of a sheet that a customer's PDF carries: the same fields without workshop-only remarks.
//!
//! It is written anew from the marked tree, so comments of the original are left out as well.

use serde_yaml::{Mapping, Value};

use super::reader::INTERNAL;
use super::yaml::{Content, Node};

const HEAD: &str =
    "# Copy of the findings sheet as issued. Remarks for the workshop alone are left out.\n";

/// The customer's copy as YAML text; reads back to the same values.
pub fn copy(tree: &Node) -> String {
    // A mapping of strings always serialises; an empty copy would fail the tests.
    let body = serde_yaml::to_string(&value(tree)).unwrap_or_default();
    format!("{HEAD}{body}")
}

fn value(node: &Node) -> Value {
    match &node.content {
        Content::Empty => Value::Null,
        Content::Scalar(text) => Value::String(text.clone()),
        Content::List(items) => Value::Sequence(items.iter().map(value).collect()),
        Content::Map(entries) => {
            let kept = entries.iter().filter(|entry| entry.key != INTERNAL);
            Value::Mapping(
                kept.map(|entry| (Value::String(entry.key.clone()), value(&entry.value)))
                    .collect::<Mapping>(),
            )
        }
    }
}

/// Every text of a tree but workshop-only remarks, with its place: what may come to paper.
pub fn texts(node: &Node) -> Vec<(&str, std::ops::Range<usize>)> {
    match &node.content {
        Content::Empty => Vec::new(),
        Content::Scalar(text) => vec![(text, node.span.clone())],
        Content::List(items) => items.iter().flat_map(texts).collect(),
        Content::Map(entries) => entries
            .iter()
            .filter(|entry| entry.key != INTERNAL)
            .flat_map(|entry| texts(&entry.value))
            .collect(),
    }
}
