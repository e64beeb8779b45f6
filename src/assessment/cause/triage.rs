//! Triage at arrival: is the drive unit the likelier place, or something else on the bike?
//!
//! In: the five fields of `bike-check`; out: [`Triage`] with what each field points to. The fields
//! are free text: only the words of the tables below are understood, any other text counts nothing.
//! Common practice of the trade, no published source; it sends nobody away, it says where to look.

use crate::sheet::findings::BikeCheck;
use crate::sheet::text::Text;

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
    /// Fields whose text is not understood.
    pub not_understood: Vec<Told>,
}

/// What a word of a field means.
#[derive(Clone, Copy, PartialEq)]
enum Meaning {
    /// As it should be.
    Well,
    /// Gone altogether.
    Gone,
    /// Comes and goes.
    Unsteady,
    /// There, but not as it should be.
    Poor,
}

const DISPLAY: &[(&str, Meaning)] =
    &[("on", Meaning::Well), ("off", Meaning::Gone), ("flickering", Meaning::Unsteady)];
const BATTERY: &[(&str, Meaning)] =
    &[("on", Meaning::Well), ("charging", Meaning::Well), ("off", Meaning::Gone)];
const ASSISTANCE: &[(&str, Meaning)] = &[
    ("full", Meaning::Well),
    ("weak", Meaning::Poor),
    ("none", Meaning::Gone),
    ("cuts out", Meaning::Unsteady),
];
const QUIET: &[&str] = &["silent", "none"];

/// Tells the drive unit from the rest of the bike.
pub fn triage(check: &BikeCheck) -> Triage {
    let mut points = Vec::new();
    let mut not_understood = Vec::new();
    let mut read = |field: Told, text: &Option<Text>, table: &[(&str, Meaning)]| {
        let text = text.as_ref()?.0.to_lowercase();
        let found = table.iter().find(|(word, _)| *word == text).map(|(_, meaning)| *meaning);
        not_understood.extend(found.is_none().then_some(field));
        found
    };
    let display = read(Told::Display, &check.display, DISPLAY);
    let battery = read(Told::Battery, &check.battery, BATTERY);
    let assistance = read(Told::Assistance, &check.assistance, ASSISTANCE);
    let has_codes = check.error_codes.as_ref().map(|text| text.0.to_lowercase() != "none");
    let is_loud = check.noise.as_ref().map(|text| !QUIET.contains(&text.0.to_lowercase().as_str()));

    // A dead or flickering display, or a dead battery, is a fault before the unit in the supply.
    let supply_fails = [(Told::Display, display), (Told::Battery, battery)];
    for (field, meaning) in supply_fails {
        if matches!(meaning, Some(Meaning::Gone | Meaning::Unsteady)) {
            points.push((field, Place::ElsewhereOnBike));
        }
    }
    let supply_stands = display == Some(Meaning::Well) && battery == Some(Meaning::Well);
    let help_fails = matches!(assistance, Some(Meaning::Gone | Meaning::Unsteady | Meaning::Poor));
    // The electronics are awake and report while the help fails: the fault is behind the supply.
    if supply_stands && help_fails && has_codes == Some(true) {
        points.push((Told::ErrorCodes, Place::DriveUnit));
    }
    // Weak help on a standing supply: drag or a failing motor. None or broken help without code or
    // sound may as well be a sensor or cable on the frame, and points nowhere.
    if supply_stands && assistance == Some(Meaning::Poor) {
        points.push((Told::Assistance, Place::DriveUnit));
    }
    // What can be heard turns: bearings, gears, clutch.
    if is_loud == Some(true) {
        points.push((Told::Noise, Place::DriveUnit));
    }
    Triage { likelier: likelier(&points), points, not_understood }
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
