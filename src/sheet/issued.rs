//! The copy of a sheet that a customer's PDF carries: the same fields without what is workshop only.
//!
//! In: the marked tree and the definition of the sheet; out: YAML text that reads back to the same
//! values. Comments are left out, and a word that a customer never reads is written by its second.

use serde_yaml::{Mapping, Value};

use super::findings::FindingsSheet;
use super::prices::fill::Priced;
use super::profile::Naming;
use super::reader::{INTERNAL, Value as _};
use super::shape::{Printed, Shape};
use super::technicians;
use super::vocabulary::CauseKind;
use super::yaml::{Content, Node};

const HEAD: &str =
    "# Copy of the findings sheet as issued. What is for the workshop alone is left out.\n";

/// The customer's copy as YAML text, technicians named as `naming` says; reads back to the same values.
pub fn copy(tree: &Node, naming: Naming) -> String {
    let mut copy = value(tree, Some(&FindingsSheet::shape()));
    technicians::name_in_copy(&mut copy, naming);
    // A mapping of strings always serialises; an empty copy would fail the tests.
    let body = serde_yaml::to_string(&copy).unwrap_or_default();
    format!("{HEAD}{body}")
}

const PROFILE_HEAD: &str =
    "# What of the workshop profile bears on this job: other models and prices are left out.\n";

/// The part of a workshop profile that bears on a job with a unit of this model and with these prices
/// of the workshop's list, as YAML text.
pub fn relevant_profile(tree: &Node, model: Option<&str>, priced: &[Priced]) -> String {
    let mut profile = value(tree, None);
    if let Value::Mapping(profile) = &mut profile {
        profile.shift_remove("parts");
        let mut rows: Vec<Value> = Vec::new();
        for row in priced.iter().map(|one| value(&one.row, None)) {
            if !rows.contains(&row) {
                rows.push(row);
            }
        }
        if !rows.is_empty() {
            profile.insert("parts".into(), Value::Sequence(rows));
        }
    }
    if let Some(Value::Sequence(models)) = profile.get_mut("models") {
        models.retain(|one| one.get("model").and_then(Value::as_str) == model && model.is_some());
    }
    let body = serde_yaml::to_string(&profile).unwrap_or_default();
    format!("{PROFILE_HEAD}{body}")
}

/// A node as issued. `shape` is what the sheet's definition says of it; `None` if it says nothing.
fn value(node: &Node, shape: Option<&Shape>) -> Value {
    match &node.content {
        Content::Empty => Value::Null,
        Content::Scalar(text) => Value::String(issued_word(text, shape).to_owned()),
        Content::List(items) => {
            let of = shape.map(|shape| if let Shape::List(of) = shape { of } else { shape });
            Value::Sequence(items.iter().map(|item| value(item, of)).collect())
        }
        Content::Map(entries) => {
            let fields = shape.and_then(Shape::record).map_or(&[][..], |record| &record.fields);
            let mut kept = Mapping::new();
            for entry in entries.iter().filter(|entry| entry.key != INTERNAL) {
                let field = fields.iter().find(|field| field.key == entry.key);
                if field.is_none_or(|field| field.printed != Printed::WorkshopOnly) {
                    let shape = field.map(|field| &field.shape);
                    kept.insert(Value::String(entry.key.clone()), value(&entry.value, shape));
                }
            }
            Value::Mapping(kept)
        }
    }
}

/// A word of the sheet as a customer may read it: a cause is a matter of time, never of a person.
fn issued_word<'a>(text: &'a str, shape: Option<&Shape>) -> &'a str {
    let is_cause = matches!((shape, CauseKind::shape()),
        (Some(Shape::Words { name, .. }), Shape::Words { name: cause, .. }) if *name == cause);
    let known = CauseKind::ALL.iter().filter(|_| is_cause).find(|one| one.also() == Some(text));
    known.map_or(text, |one| one.word())
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
