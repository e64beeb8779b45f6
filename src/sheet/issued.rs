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

const PROFILE_HEAD: &str =
    "# What of the workshop profile bears on this job: other models are left out.\n";

/// The part of a workshop profile that bears on a job with a unit of this model, as YAML text.
pub fn relevant_profile(tree: &Node, model: Option<&str>) -> String {
    let mut profile = value(tree);
    if let Some(Value::Sequence(models)) = profile.get_mut("models") {
        models.retain(|one| one.get("model").and_then(Value::as_str) == model && model.is_some());
    }
    let body = serde_yaml::to_string(&profile).unwrap_or_default();
    format!("{PROFILE_HEAD}{body}")
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
