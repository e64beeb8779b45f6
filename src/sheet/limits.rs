//! What no text of a sheet or profile may hold: characters that nobody sees, words that no line holds.
//!
//! In: the marked tree, where escapes such as `"\\e"` have become characters; out: problems at the text.
//! Characters that no font has are looked for elsewhere (document).

use super::encoding::is_forbidden;
use super::problems;
use super::yaml::{Content, Node};
use crate::diagnostic::source::Source;
use crate::diagnostic::{Place, Problems};

/// Most letters of one word. Typst tries every place of a long word for a break: a word of 200 000
/// letters takes it minutes, and the longest that people write (an address of the web) has hundreds.
const MAX_WORD: usize = 1_000;
/// Most letters of one field: some three pages.
const MAX_TEXT: usize = 10_000;

/// Reports every text of a tree that cannot go to paper, workshop-only remarks included.
pub fn check(source: &Source, node: &Node, problems: &mut Problems) {
    match &node.content {
        Content::Empty => {}
        Content::Scalar(text) => check_text(text, &Place::at(source, node.span.clone()), problems),
        Content::List(items) => items.iter().for_each(|item| check(source, item, problems)),
        Content::Map(entries) => {
            for entry in entries {
                let key = Place::at(source, entry.key_span.clone());
                check_text(&entry.key, &key, problems);
                check(source, &entry.value, problems);
            }
        }
    }
}

fn check_text(text: &str, place: &Place, problems: &mut Problems) {
    if let Some(c) = text.chars().find(|&c| is_forbidden(c)) {
        problems.push(problems::control_character(place.clone(), c));
    }
    let longest = text.split_whitespace().map(letters).max().unwrap_or(0);
    if MAX_WORD < longest {
        problems.push(problems::long_word(place.clone(), longest, MAX_WORD));
    } else if MAX_TEXT < letters(text) {
        problems.push(problems::long_text(place.clone(), letters(text), MAX_TEXT));
    }
}

fn letters(text: &str) -> usize {
    text.chars().count()
}
