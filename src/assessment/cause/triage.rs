//! Triage at arrival: is the drive unit the likelier place, or something else on the bike?
//!
//! In: the five fields of `bike-check`; out: [`Triage`] with what each field points to.
//! Common practice of the trade, no published source; it sends nobody away, it says where to look.

use crate::sheet::findings::BikeCheck;
use crate::sheet::vocabulary::{Assistance, BatteryState, BikeNoise, DisplayState};

/// A field of the check on the bike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// The display.
    Display,
    /// The battery.
    Battery,
    /// Codes on the display.
    ErrorCodes,
    /// The help.
    Assistance,
    /// The sound.
    Noise,
}

impl Told {
    /// Its key in the wordings.
    pub fn word(self) -> &'static str {
        match self {
            Self::Display => "display",
            Self::Battery => "battery",
            Self::ErrorCodes => "error-codes",
            Self::Assistance => "assistance",
            Self::Noise => "noise",
        }
    }
}

/// Where a fault may lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// In the drive unit.
    DriveUnit,
    /// In battery, display, cables or sensors on the frame.
    ElsewhereOnBike,
}

/// The likelier place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Likelier {
    /// Everything that points points there.
    Only(Place),
    /// Some fields point to the unit, some elsewhere: look at both.
    Both,
    /// Nothing points anywhere.
    NotTold,
}

/// What the check on the bike tells.
#[derive(Clone, Debug, PartialEq)]
pub struct Triage {
    /// The likelier place.
    pub likelier: Likelier,
    /// The fields that point somewhere, in the order of the sheet.
    pub points: Vec<(Told, Place)>,
}

/// Tells the drive unit from the rest of the bike.
pub fn triage(check: &BikeCheck) -> Triage {
    let mut points = Vec::new();
    let has_codes = check.error_codes.as_ref().map(|text| text.0.to_lowercase() != "none");
    let is_loud = check.noise.map(|noise| noise != BikeNoise::Silent);

    // A dead or flickering display, or a dead battery, is a fault before the unit in the supply.
    if matches!(check.display, Some(DisplayState::Off | DisplayState::Flickering)) {
        points.push((Told::Display, Place::ElsewhereOnBike));
    }
    if check.battery == Some(BatteryState::Off) {
        points.push((Told::Battery, Place::ElsewhereOnBike));
    }
    let battery_stands = matches!(check.battery, Some(BatteryState::On | BatteryState::Charging));
    let supply_stands = check.display == Some(DisplayState::On) && battery_stands;
    let help_fails = check.assistance.is_some_and(|help| help != Assistance::Full);
    // The electronics are awake and report while the help fails: the fault is behind the supply.
    if supply_stands && help_fails && has_codes == Some(true) {
        points.push((Told::ErrorCodes, Place::DriveUnit));
    }
    // Weak help on a standing supply: drag or a failing motor. None or broken help without code or
    // sound may as well be a sensor or cable on the frame, and points nowhere.
    if supply_stands && check.assistance == Some(Assistance::Weak) {
        points.push((Told::Assistance, Place::DriveUnit));
    }
    // What can be heard turns: bearings, gears, clutch.
    if is_loud == Some(true) {
        points.push((Told::Noise, Place::DriveUnit));
    }
    Triage { likelier: likelier(&points), points }
}

fn likelier(points: &[(Told, Place)]) -> Likelier {
    match points.first() {
        None => Likelier::NotTold,
        Some((_, place)) if points.iter().all(|(_, other)| other == place) => {
            Likelier::Only(*place)
        }
        Some(_) => Likelier::Both,
    }
}
