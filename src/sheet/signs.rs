//! A list of signs as typed: known ones, and others in words of one's own.
//!
//! In: a list node; out: [`Signs`], in the order of the sheet. A word that the catalogue does not
//! know is a warning and kept as an other sign, since it was seen all the same.

use std::ops::Deref;

use super::catalogue::Sign;
use super::problems;
use super::reader::{Field, Marked, Reader, Value, record};
use super::shape::Shape;
use super::text::{Text, as_words};
use super::yaml::{Content, Node};
use crate::diagnostic::Diagnostic;

/// One entry of a list of signs.
#[derive(Clone, Debug, PartialEq)]
pub enum SignEntry {
    /// A sign of the catalogue, which is weighed.
    Known(Sign),
    /// A sign in words of one's own, as `glowing-blue` or `{other: glowing blue}`: printed, never weighed.
    Other(Text),
}

/// The signs of a place of the sheet.
///
/// It derefs to the known ones, which is what rules look at; papers print [`Signs::entries`].
#[derive(Clone, Debug, Default)]
pub struct Signs {
    entries: Vec<Marked<SignEntry>>,
    known: Vec<Marked<Sign>>,
}

record! {
    /// A sign that the catalogue does not have.
    pub struct OtherSign {
        /// What there is, as a phrase; it is printed as typed and never weighed.
        other: Text, "a dead wasp in the air vent";
    }
}

impl Signs {
    /// Every entry in the order of the sheet.
    pub fn entries(&self) -> &[Marked<SignEntry>] {
        &self.entries
    }

    /// The words of signs that the catalogue does not have, in the order of the sheet.
    pub fn others(&self) -> impl Iterator<Item = &str> {
        self.entries.iter().filter_map(|entry| match &entry.value {
            SignEntry::Other(text) => Some(text.0.as_str()),
            SignEntry::Known(_) => None,
        })
    }

    fn add(&mut self, node: &Node, reader: &mut Reader<'_>) {
        let span = node.span.clone();
        let entry = match &node.content {
            Content::Map(_) => SignEntry::Other(OtherSign::read(node, reader).other),
            Content::Scalar(text) => match Sign::known(text) {
                Some(sign) => SignEntry::Known(sign),
                None => {
                    let place = reader.place(node);
                    reader.report(problems::unknown_sign(place, text, &Sign::choices()));
                    let typed = Text::read(node, reader).0;
                    let is_one_word = !typed.contains(char::is_whitespace);
                    SignEntry::Other(Text(if is_one_word { as_words(&typed) } else { typed }))
                }
            },
            Content::List(_) | Content::Empty => {
                reader.scalar(node, "sign");
                return;
            }
        };
        if let SignEntry::Known(sign) = entry {
            self.known.push(Marked { value: sign, span: span.clone() });
        }
        self.entries.push(Marked { value: entry, span });
    }
}

impl Deref for Signs {
    type Target = [Marked<Sign>];

    fn deref(&self) -> &Self::Target {
        &self.known
    }
}

impl<'a> IntoIterator for &'a Signs {
    type Item = &'a Marked<Sign>;
    type IntoIter = std::slice::Iter<'a, Marked<Sign>>;

    fn into_iter(self) -> Self::IntoIter {
        self.known.iter()
    }
}

impl Field for Signs {
    const REQUIRED: bool = false;

    fn read_field(
        node: Option<&Node>,
        _: impl FnOnce() -> Diagnostic,
        reader: &mut Reader<'_>,
    ) -> Self {
        let mut signs = Self::default();
        let Some(node) = node else { return signs };
        match &node.content {
            Content::List(items) => items.iter().for_each(|item| signs.add(item, reader)),
            // One sign is a list of one.
            _ => signs.add(node, reader),
        }
        signs
    }

    fn field_shape() -> Shape {
        let one = Shape::Either(vec![Sign::shape(), Shape::Text, OtherSign::shape()]);
        Shape::List(Box::new(one))
    }
}
