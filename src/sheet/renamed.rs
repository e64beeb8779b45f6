//! Fields under the name that they had one version ago.
//!
//! In: the marked tree and its shape; out: the tree with the names of today, and a warning at each
//! old one. The next version forgets the old names: take `was` out of the definition then.

use super::problems;
use super::shape::{RecordShape, Shape};
use super::yaml::{Content, Entry, Node};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};

/// Gives every field of a file the name of today.
pub(super) fn rename(source: &Source, tree: &mut Node, shape: &Shape, problems: &mut Problems) {
    match (&mut tree.content, shape) {
        (Content::List(items), Shape::List(of)) => {
            for item in items {
                rename(source, item, of, problems);
            }
        }
        (Content::Map(entries), Shape::Record(record)) => {
            rename_keys(source, entries, record, problems);
            for entry in entries {
                let field = record.fields.iter().find(|field| field.key == entry.key);
                if let Some(field) = field {
                    rename(source, &mut entry.value, &field.shape, problems);
                }
            }
        }
        (_, Shape::Either(forms)) => {
            for form in forms {
                rename(source, tree, form, problems);
            }
        }
        _ => {}
    }
}

fn rename_keys(
    source: &Source,
    entries: &mut Vec<Entry>,
    record: &RecordShape,
    problems: &mut Problems,
) {
    for field in &record.fields {
        let Some(old) = field.was else { continue };
        let Some(at) = entries.iter().position(|entry| entry.key == old) else { continue };
        // A name that another field has taken over means that field.
        if record.fields.iter().any(|other| other.key == old) {
            continue;
        }
        let place = Place::at(source, entries[at].key_span.clone());
        if entries.iter().any(|entry| entry.key == field.key) {
            problems.push(problems::named_twice(place, old, &field.key));
            entries.remove(at);
        } else {
            problems.push(problems::old_name(place, old, &field.key));
            entries[at].key.clone_from(&field.key);
        }
    }
}
