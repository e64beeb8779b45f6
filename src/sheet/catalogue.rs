//! The parts of drive units and the signs that can stand on them, as two tables a person can edit.
//!
//! In: `catalogue/parts.yaml` and `catalogue/signs.yaml`, embedded; out: [`Part`] and [`Sign`].
//! Their printed names stand in the wordings, what signs speak for is weighed elsewhere.

mod near;
mod part;

use std::sync::LazyLock;

use serde::Deserialize;

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

pub use part::{OTHER, PARTS, Part, PartRow};

/// A row of the table of signs.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignRow {
    /// Name as typed in a sheet.
    pub sign: String,
    /// Id in the table of signs, such as `SC01`.
    pub r#ref: String,
    /// Part groups that it may stand on.
    pub on: Vec<String>,
    /// How it is found: seen, measured, told and the like.
    pub kind: String,
    /// What it speaks for (+2) or against (-2), by cause.
    pub scores: Scores,
    /// How much it weighs by itself: strong, medium, weak.
    pub strength: String,
    /// Term of ISO 15243:2017 or ISO 10825, where there is one.
    #[serde(default)]
    pub iso: Option<String>,
    /// The link of the chain of events that it is an observation of.
    pub link: String,
    /// First event, consequence, or either.
    #[serde(default)]
    pub damage: Option<String>,
    /// Letter of its table.
    pub group: String,
    /// Ids of the facts that its scores rest on; none means judgement.
    #[serde(default)]
    pub source: Vec<String>,
}

/// Scores of a sign, from -2 (clearly against) to +2 (clearly for).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the causes are documented at `CauseKind`")]
pub struct Scores {
    pub ingress: i8,
    pub neglect: i8,
    pub mechanical: i8,
    pub electrical: i8,
}

/// Every sign, in the order of the table.
pub static SIGNS: LazyLock<Vec<SignRow>> =
    LazyLock::new(|| embedded(include_str!("catalogue/signs.yaml")));

#[expect(
    clippy::expect_used,
    reason = "an embedded table that does not parse is our own mistake, and tests read both"
)]
fn embedded<T: for<'a> Deserialize<'a>>(text: &str) -> Vec<T> {
    serde_yaml::from_str(text).expect("the embedded catalogue is well-formed")
}

/// Defines a name that must stand in a table.
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
        }

        impl Value for $name {
            fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
                let Some(text) = reader.scalar(node, $what) else { return Self::default() };
                if let Some(row) = $rows.iter().find(|row| row.$field == text) {
                    return Self(row);
                }
                let names: Vec<&str> = $rows.iter().map(|row| row.$field.as_str()).collect();
                let place = reader.place(node);
                reader.report($unknown(place, text, &names));
                Self::default()
            }

            fn shape() -> Shape {
                let words = $rows.iter().map(|row| row.$field.clone()).collect();
                Shape::Words { name: $what, words }
            }
        }
    };
}

named!(
    /// A sign that was seen, measured or told.
    Sign, SignRow, sign, SIGNS, "sign", problems::unknown_sign
);
