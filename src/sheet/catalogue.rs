//! The parts of drive units and the signs that they can show, as two tables a person can edit.
//!
//! In: `catalogue/parts.yaml` and `catalogue/signs.yaml`, embedded; out: [`Part`] and [`Sign`].
//! Their printed names are in the wordings; signs are weighed elsewhere.

pub(in crate::sheet) mod embedded;
pub mod group;
mod part;
pub mod sign;

use std::sync::LazyLock;

use serde::de::Error;
use serde::{Deserialize, Deserializer};

use super::problems;
use super::reader::{Reader, Value};
use super::shape::{Choice, Shape};
use super::spelling::as_word;
use super::yaml::Node;
use sign::SignRow;

pub use embedded::embedded;
pub use part::{OTHER, PARTS, Part, PartRow};

/// Every sign, in the order of the table.
pub static SIGNS: LazyLock<Vec<SignRow>> =
    LazyLock::new(|| embedded(include_str!("catalogue/signs.yaml")));

/// Defines a name that must be in a table.
macro_rules! named {
    ($(#[doc = $about:literal])+ $name:ident, $row:ident, $field:ident, $rows:ident, $what:literal, $unknown:path) => {
        $(#[doc = $about])+
        #[derive(Clone, Copy, Debug)]
        pub struct $name(pub &'static $row);

        impl Default for $name {
            /// The stand-in of a name that could not be read: the first row.
            fn default() -> Self {
                Self(&$rows[0])
            }
        }

        impl PartialEq for $name {
            fn eq(&self, other: &Self) -> bool {
                std::ptr::eq(self.0, other.0)
            }
        }

        impl $name {
            /// The name as typed.
            pub fn name(self) -> &'static str {
                &self.0.$field
            }

            /// The row of a name, in whatever letters it is typed.
            pub fn known(typed: &str) -> Option<Self> {
                let meant = as_word(typed);
                $rows.iter().find(|row| row.$field == meant).map(Self)
            }

            /// Every name as a choice.
            pub fn choices() -> Vec<Choice> {
                $rows.iter().map(|row| row.choice()).collect()
            }
        }

        impl Value for $name {
            fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
                let Some(text) = reader.scalar(node, $what) else { return Self::default() };
                if let Some(known) = Self::known(text) {
                    return known;
                }
                let place = reader.place(node);
                reader.report($unknown(place, text, &Self::choices()));
                Self::default()
            }

            fn shape() -> Shape {
                Shape::Words { name: $what, words: Self::choices() }
            }
        }
    };
}

named!(
    /// A sign that was seen, measured or reported.
    Sign, SignRow, sign, SIGNS, "sign", problems::no_such_sign
);

impl<'de> Deserialize<'de> for Sign {
    /// A sign by its name, for tables of rules that are embedded.
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let name = String::deserialize(from)?;
        let row = SIGNS.iter().find(|row| row.sign == name);
        row.map(Self).ok_or_else(|| D::Error::custom(format!("there is no sign `{name}`")))
    }
}
