//! Blanks of a starter that nobody has filled in: `___` in the place of a value.
//!
//! In: a marked tree; out: the tree without them, as if their lines were not there, and their places.
//! A field that is needed is then missing, and says so by itself.

use std::ops::Range;

use super::yaml::{Content, Entry, Node};

/// What stands in the place of a value that is still to be written.
pub const BLANK: &str = "___";

/// Takes the blanks out of a tree; returns the place of each, in the order of the text.
pub(super) fn take_out(node: &mut Node) -> Vec<Range<usize>> {
    let mut places = Vec::new();
    walk(node, &mut places);
    places
}

fn walk(node: &mut Node, places: &mut Vec<Range<usize>>) {
    match &mut node.content {
        Content::List(items) => items.retain_mut(|item| is_kept(item, places)),
        Content::Map(entries) => {
            entries.retain_mut(|entry: &mut Entry| is_kept(&mut entry.value, places));
        }
        Content::Empty | Content::Scalar(_) => {}
    }
}

/// False for a blank, and for a list or block in which there was nothing else.
fn is_kept(node: &mut Node, places: &mut Vec<Range<usize>>) -> bool {
    if matches!(&node.content, Content::Scalar(text) if text.contains(BLANK)) {
        places.push(node.span.clone());
        return false;
    }
    let before = places.len();
    walk(node, places);
    let is_empty = match &node.content {
        Content::List(items) => items.is_empty(),
        Content::Map(entries) => entries.is_empty(),
        Content::Empty | Content::Scalar(_) => false,
    };
    !(is_empty && before < places.len())
}
