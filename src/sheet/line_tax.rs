//! Which tax falls on one line of a bill, if it is not what the workshop file says for its kind.
//!
//! In: `none`, `all`, a rate such as `5 %`, or the name of one of the workshop's taxes; out:
//! [`LineTax`]. Whether a name is known is looked at where the bill is added up.

use super::quantity::Share;
use super::reader::{Reader, Value};
use super::shape::{Choice, Shape};
use super::text::Text;
use super::yaml::{Content, Node};

/// The tax of one line.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum LineTax {
    /// None at all.
    None,
    /// Every tax of the workshop file.
    #[default]
    All,
    /// The workshop's tax at another rate.
    Rate(Share),
    /// One tax of several, by its name.
    Named(String),
}

impl Value for LineTax {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        match &node.content {
            Content::Scalar(word) if word == "none" => Self::None,
            Content::Scalar(word) if word == "all" => Self::All,
            Content::Scalar(text) if text.contains('%') => Self::Rate(Share::read(node, reader)),
            _ => Self::Named(Text::read(node, reader).0),
        }
    }

    fn shape() -> Shape {
        let words = [("none", "No tax."), ("all", "Every tax of `workshop.yaml`.")];
        let words = words.map(|(word, about)| Choice { about, ..Choice::plain(word) }).to_vec();
        Shape::Either(vec![
            Shape::Words { name: "tax of a line", words },
            Share::shape(),
            Shape::Text,
        ])
    }
}
