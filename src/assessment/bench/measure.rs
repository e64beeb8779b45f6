//! What the figures of bench lines are, and how they are computed. Values are not here.
//!
//! The figure that a check is named after needs no row here; a further one of the same check does.

use crate::assessment::sources::SourceId;
use crate::sheet::vocabulary::CheckKind;

/// What a figure is. Its unit is that of its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// The one that a bench check is named after.
    Of(CheckKind),
    /// Largest deviation of three windings' resistances from their mean, %.
    WindingUnbalance,
    /// Rise above the surroundings by a thermometer, K.
    RiseByThermometer,
    /// Voltage of the worst group of cells, V.
    CellVoltage,
    /// Difference between the highest and the lowest group of cells, V.
    CellSpread,
    /// Torque that screws were set to, N m.
    Torque,
    /// Speed at which the motor stops assisting, km/h or mph.
    CutOffSpeed,
    /// Distance that the motor runs on, m.
    RunOn,
    /// Speed of the walk assistance, km/h or mph.
    WalkSpeed,
    /// Length of the test ride, km.
    RideDistance,
}

/// Every measure that is not a check's own.
const FURTHER: [Measure; 9] = [
    Measure::WindingUnbalance,
    Measure::RiseByThermometer,
    Measure::CellVoltage,
    Measure::CellSpread,
    Measure::Torque,
    Measure::CutOffSpeed,
    Measure::RunOn,
    Measure::WalkSpeed,
    Measure::RideDistance,
];

impl Measure {
    /// Its key in the wordings and in tables: the check's name if it is the check's own figure.
    pub fn word(self) -> &'static str {
        match self {
            Self::Of(check) => check.word(),
            Self::WindingUnbalance => "winding-resistance-unbalance",
            Self::RiseByThermometer => "temperature-rise-thermometer",
            Self::CellVoltage => "battery-voltage-cell",
            Self::CellSpread => "battery-voltage-spread",
            Self::Torque => "torque",
            Self::CutOffSpeed => "cut-off",
            Self::RunOn => "run-on",
            Self::WalkSpeed => "walk",
            Self::RideDistance => "distance",
        }
    }

    /// The measure with this key, if there is one.
    pub fn of_word(word: &str) -> Option<Self> {
        let own = CheckKind::ALL.iter().map(|check| Self::Of(*check));
        own.chain(FURTHER).find(|measure| measure.word() == word)
    }
}

/// How a figure was computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Method {
    /// Stable key, by which a wording is chosen.
    pub rule: &'static str,
    /// The source that it follows, if one was read.
    pub source: Option<SourceId>,
}
