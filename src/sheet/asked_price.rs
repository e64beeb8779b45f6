//! What is asked for a way that is offered: one price, a price from-to, or the most it will be.
//!
//! In: `£240.00`, `£180 to £240`, `at most £240`; out: [`AskedPrice`]. A price that only says from
//! where it starts binds nobody and is not read.

use super::price::Price;
use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AskedPrice {
    /// One price.
    Fixed(Price),
    /// From the first to the second, which is more.
    Between(Price, Price),
    /// Not more than this.
    AtMost(Price),
}

impl Default for AskedPrice {
    fn default() -> Self {
        Self::Fixed(Price::default())
    }
}

const FORM: &str = "price, from-to or at most";
const EXAMPLE: &str = "£180.00 to £240.00";
const AT_MOST: &str = "at most ";
const TO: &str = " to ";

impl AskedPrice {
    /// True if it is one price.
    pub fn is_fixed(self) -> bool {
        matches!(self, Self::Fixed(_))
    }

    /// The most that will be charged.
    pub fn most(self) -> Price {
        match self {
            Self::Fixed(price) | Self::Between(_, price) | Self::AtMost(price) => price,
        }
    }
}

impl Value for AskedPrice {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, FORM) else { return Self::default() };
        let (place, comma) = (reader.place(node), reader.decimal_comma);
        let price = |text: &str| Price::of(text.trim(), comma, &place);
        let read = if let Some(most) = text.strip_prefix(AT_MOST) {
            price(most).map(Self::AtMost)
        } else if let Some((from, to)) = text.split_once(TO) {
            price(from).and_then(|from| {
                let to = price(to)?;
                let grows = from.currency == to.currency && from.amount < to.amount;
                let wrong = || problems::wrong_form(place.clone(), FORM, text, EXAMPLE);
                grows.then_some(Self::Between(from, to)).ok_or_else(wrong)
            })
        } else {
            price(text).map(Self::Fixed)
        };
        read.unwrap_or_else(|problem| {
            reader.report(problem);
            Self::default()
        })
    }

    fn shape() -> Shape {
        let one = Price::pattern();
        let pattern = format!("^({AT_MOST})?{one}$|^{one}{TO}{one}$");
        Shape::Form { name: FORM, pattern, example: EXAMPLE }
    }
}
