//! Groups and roles of parts, and the places that a sign is tied to, as types: a misspelt one in a
//! table cannot load.
//!
//! In: words of `parts.yaml` and `signs.yaml`, by serde; out: [`PartGroup`], [`PartRole`],
//! [`SignPlace`]. What follows from them is decided in `assessment`.

use serde::de::Error;
use serde::{Deserialize, Deserializer};

/// Where a part belongs; a sign says by group where it may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the words say it")]
pub enum PartGroup {
    Case,
    Seals,
    Bearings,
    Gears,
    Clutch,
    Shaft,
    Sensors,
    Motor,
    Electronics,
    Wiring,
    Fasteners,
    /// Parts of the bike, and the battery.
    OutsideTheUnit,
    /// The part that the table lacks.
    Other,
}

impl PartGroup {
    /// Every group, in the order of the table.
    pub const ALL: [Self; 13] = [
        Self::Case,
        Self::Seals,
        Self::Bearings,
        Self::Gears,
        Self::Clutch,
        Self::Shaft,
        Self::Sensors,
        Self::Motor,
        Self::Electronics,
        Self::Wiring,
        Self::Fasteners,
        Self::OutsideTheUnit,
        Self::Other,
    ];

    /// The groups whose parts carry current.
    pub const ELECTRICAL: [Self; 3] = [Self::Sensors, Self::Electronics, Self::Wiring];

    /// Its word in the tables and in messages.
    pub fn word(self) -> &'static str {
        match self {
            Self::Case => "case",
            Self::Seals => "seals",
            Self::Bearings => "bearings",
            Self::Gears => "gears",
            Self::Clutch => "clutch",
            Self::Shaft => "shaft",
            Self::Sensors => "sensors",
            Self::Motor => "motor",
            Self::Electronics => "electronics",
            Self::Wiring => "wiring",
            Self::Fasteners => "fasteners",
            Self::OutsideTheUnit => "outside-the-unit",
            Self::Other => "other",
        }
    }

    fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|group| group.word() == word)
    }
}

impl<'de> Deserialize<'de> for PartGroup {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let word = String::deserialize(from)?;
        let group = Self::of(&word);
        group.ok_or_else(|| D::Error::custom(format!("there is no group of parts `{word}`")))
    }
}

/// What rules do with a part beyond its group.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PartRole {
    /// Renewed whenever the case is opened, whatever the fault.
    Routine,
    /// A seat in the case, which its bearing wears out.
    BearingSeat,
    /// The winding of the motor: electrical, though it belongs to the motor.
    Winding,
    /// The battery, which has dangers of its own.
    Battery,
    /// The display of the bike: electrical, though it is outside the unit.
    Display,
    /// Grease: found and renewed like a part, though it is none.
    Grease,
}

/// Where a sign may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SignPlace {
    /// The whole unit: booking in, bench and tests after the repair.
    Unit,
    /// A part of this group.
    On(PartGroup),
}

impl SignPlace {
    /// Its word in the table of signs and in messages.
    pub fn word(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::On(group) => group.word(),
        }
    }
}

impl<'de> Deserialize<'de> for SignPlace {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let word = String::deserialize(from)?;
        if word == Self::Unit.word() {
            return Ok(Self::Unit);
        }
        // No sign is of the part that the table lacks.
        let group = PartGroup::of(&word).filter(|group| *group != PartGroup::Other);
        let group = group.map(Self::On);
        group.ok_or_else(|| D::Error::custom(format!("there is no place of signs `{word}`")))
    }
}
