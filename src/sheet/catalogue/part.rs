//! The parts of drive units, as a table a person can edit, and how a sheet names one.
//!
//! In: `catalogue/parts.yaml`, embedded, and what was typed; out: [`Part`]. A name that the table
//! lacks is a warning: the part is then `other`, and `called.rs` keeps the typed words as its name.
//! Printed names are wordings.

use std::sync::LazyLock;

use serde::de::Error;
use serde::{Deserialize, Deserializer};

use super::embedded::embedded;
use super::group::{PartGroup, PartRole};
use crate::sheet::problems;
use crate::sheet::reader::{Reader, Value};
use crate::sheet::shape::{Choice, Shape};
use crate::sheet::spelling::as_word;
use crate::sheet::vocabulary::UnitKind;
use crate::sheet::yaml::Node;

/// A row of the table of parts.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PartRow {
    /// Name as typed in a sheet.
    pub part: String,
    /// Group of parts, to which signs are tied.
    pub group: PartGroup,
    /// Kinds of unit that have it; `hub` is every hub.
    #[serde(deserialize_with = "unit_kinds")]
    pub kinds: Vec<UnitKind>,
    /// True if its failure can hurt somebody.
    #[serde(default)]
    pub safety: bool,
    /// What rules do with it, beyond its group.
    #[serde(default)]
    pub roles: Vec<PartRole>,
    /// Other words of the trade for it, by which a mistyped name is answered.
    #[serde(default)]
    pub also: Vec<String>,
}

impl PartRow {
    /// The part as one of a list to choose from.
    pub fn choice(&self) -> Choice {
        let on = self.kinds.iter().map(|kind| kind.word().to_owned()).collect();
        Choice { also: self.also.clone(), on, ..Choice::plain(&*self.part) }
    }

    /// True if a unit of this kind has the part; a hub of which no more is known may have any
    /// part of a hub.
    pub fn is_of(&self, kind: UnitKind) -> bool {
        self.kinds.iter().any(|own| match kind {
            UnitKind::MidDrive => *own == kind,
            UnitKind::Hub => own.family() == kind,
            UnitKind::HubGeared | UnitKind::HubDirect => *own == kind || *own == UnitKind::Hub,
        })
    }
}

/// The words of the sheet for the kinds of unit.
fn unit_kinds<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<UnitKind>, D::Error> {
    let words = Vec::<String>::deserialize(from)?;
    let kind = |word: &String| {
        let kind = UnitKind::ALL.iter().find(|kind| kind.word() == word);
        kind.copied().ok_or_else(|| D::Error::custom(format!("there is no kind of unit `{word}`")))
    };
    words.iter().map(kind).collect()
}

/// Every part, in the order of the table.
pub static PARTS: LazyLock<Vec<PartRow>> = LazyLock::new(|| embedded(include_str!("parts.yaml")));

/// The name of a part that the table lacks.
pub const OTHER: &str = "other";

/// A part of the unit.
#[derive(Clone, Copy, Debug)]
pub struct Part(pub &'static PartRow);

impl Default for Part {
    /// The part that the table lacks, which no check holds anything against.
    fn default() -> Self {
        let row = PARTS.iter().find(|row| row.part == OTHER);
        Self(row.unwrap_or(&PARTS[0]))
    }
}

impl PartialEq for Part {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

impl Part {
    /// The part of a name, in whatever letters it is typed.
    pub fn known(typed: &str) -> Option<Self> {
        let meant = as_word(typed);
        PARTS.iter().find(|row| row.part == meant).map(Self)
    }

    /// Every part that has a name of its own, as a list to choose from.
    pub fn choices() -> Vec<Choice> {
        PARTS.iter().filter(|row| row.part != OTHER).map(PartRow::choice).collect()
    }

    /// The name as typed.
    pub fn name(self) -> &'static str {
        &self.0.part
    }

    /// Where it belongs.
    pub fn group(self) -> PartGroup {
        self.0.group
    }

    /// True if rules do with it what the role says.
    pub fn has(self, role: PartRole) -> bool {
        self.0.roles.contains(&role)
    }

    /// True for a part that the table lacks: it is printed under its own name and scored by nothing.
    pub fn is_other(self) -> bool {
        self.0.part == OTHER
    }
}

impl Value for Part {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "part") else { return Self::default() };
        if let Some(known) = Self::known(text) {
            return known;
        }
        let place = reader.place(node);
        reader.report(problems::unknown_part(place, text, &Self::choices()));
        Self::default()
    }

    fn shape() -> Shape {
        Shape::Words { name: "part", words: PARTS.iter().map(PartRow::choice).collect() }
    }
}
