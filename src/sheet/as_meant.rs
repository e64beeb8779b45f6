//! What was typed -> what was meant, if it can mean one thing only.
//!
//! In: the marked tree and its shape; out: the tree with keys in the letters of the definition
//! (`Job:`, `Washed with:`) and blocks in the place of the one word or pair that people write for
//! them (`customer: Nadia Ferrow`, `- overhaul: £280.00`). Nothing is reported. Old names of fields are `renamed`.

use super::reader::INTERNAL;
use super::shape::{RecordShape, Shape};
use super::spelling::as_word;
use super::yaml::{Content, Entry, Node};

/// Blocks for which one word is enough, with the field that the word is.
const ONE_WORD: &[(&str, &str)] =
    &[("Cause", "main"), ("Customer", "name"), ("Decision", "option"), ("PartLine", "what")];

/// Blocks that people write as one pair, with the fields of its key and its value.
const ONE_PAIR: &[(&str, &str, &str)] = &[("Offer", "kind", "price")];

/// True for a block in whose place one word is read.
pub(super) fn takes_one_word(name: &str) -> bool {
    ONE_WORD.iter().any(|(own, _)| *own == name)
}

/// Puts a file into the letters and blocks of its definition.
pub(super) fn settle(tree: &mut Node, shape: &Shape) {
    match shape {
        Shape::List(of) => match &mut tree.content {
            Content::List(items) => items.iter_mut().for_each(|item| settle(item, of)),
            _ => settle(tree, of),
        },
        Shape::Either(forms) => forms.iter().for_each(|form| settle(tree, form)),
        Shape::Record(record) => {
            as_block(tree, record);
            let Content::Map(entries) = &mut tree.content else { return };
            join_thousands(entries);
            spell_keys(entries, record);
            as_pair(entries, record);
            for entry in entries {
                let field = record.fields.iter().find(|field| is_key(&entry.key, field));
                if let Some(field) = field {
                    settle(&mut entry.value, &field.shape);
                }
            }
        }
        _ => {}
    }
}

/// The word alone, as a block with the field that it is.
fn as_block(node: &mut Node, record: &RecordShape) {
    let one = ONE_WORD.iter().find(|(name, _)| *name == record.name);
    if let Some((_, key)) = one
        && matches!(node.content, Content::Scalar(_))
    {
        let value = std::mem::take(node);
        let (span, key_span, whole) = (value.span.clone(), value.span.clone(), value.whole.clone());
        let entry = Entry { key: (*key).to_owned(), key_span, value };
        *node = Node { span, whole, content: Content::Map(vec![entry]) };
    }
}

/// `{mileage: 1,840 mi}`, which a comma divides in braces, as the number that it is.
fn join_thousands(entries: &mut Vec<Entry>) {
    let n_digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    for at in (1..entries.len()).rev() {
        let (key, is_bare) = {
            let one = &entries[at];
            (one.key.clone(), matches!(one.value.content, Content::Empty))
        };
        if let Content::Scalar(number) = &mut entries[at - 1].value.content
            && is_bare
            && n_digits(&key) == 3
            && (1..=3).contains(&number.len())
            && n_digits(number) == number.len()
        {
            *number = format!("{number},{key}");
            entries.remove(at);
        }
    }
}

/// `- overhaul: £280.00` as `{kind: overhaul, price: £280.00}`.
fn as_pair(entries: &mut Vec<Entry>, record: &RecordShape) {
    let pair = ONE_PAIR.iter().find(|(name, ..)| *name == record.name);
    let (Some((_, key_field, value_field)), [one]) = (pair, entries.as_slice()) else { return };
    let field = record.fields.iter().find(|field| field.key == *key_field);
    let word = as_word(&one.key);
    let is_word = matches!(field.map(|field| &field.shape),
        Some(Shape::Words { words, .. }) if words.iter().any(|one| one.word == word));
    if is_word && let Some(Entry { key_span, value, .. }) = entries.pop() {
        let (span, whole) = (key_span.clone(), key_span.clone());
        let kind = Node { span, whole, content: Content::Scalar(word) };
        let entry =
            |key: &str, value| Entry { key: key.to_owned(), key_span: key_span.clone(), value };
        *entries = vec![entry(key_field, kind), entry(value_field, value)];
    }
}

fn spell_keys(entries: &mut [Entry], record: &RecordShape) {
    let is_known = |key: &str| record.fields.iter().any(|field| is_key(key, field));
    for at in 0..entries.len() {
        let typed = &entries[at].key;
        let meant = as_word(typed);
        let is_free = entries.iter().all(|entry| entry.key != meant);
        if is_free && !is_known(typed) && (is_known(&meant) || meant == INTERNAL) {
            entries[at].key = meant;
        }
    }
}

fn is_key(key: &str, field: &super::shape::FieldShape) -> bool {
    field.key == key || field.was == Some(key)
}
