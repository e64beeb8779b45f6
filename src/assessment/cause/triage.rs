//! Triage at arrival: is the drive unit the likelier place, or something else on the bike?
//!
//! In: `bike-check` and the kind of unit; out: [`Triage`] with what each field points to. Codes are
//! never read: only what the technician says that they point to counts.
//! Common practice of the trade, no published source; it sends nobody away, it says where to look.

use crate::sheet::findings::BikeCheck;
use crate::sheet::vocabulary::{
    Assistance, BatteryState, BikeNoise, CodesPointTo, DisplayState, Tried, UnitKind,
};

/// A field of the check on the bike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckField {
    /// The display.
    Display,
    /// The battery.
    Battery,
    /// Codes on the display, by `codes-point-to`.
    ErrorCodes,
    /// The help, which is weak.
    Assistance,
    /// The help, which is missing though everything is on and no code shows.
    NoHelp,
    /// The sound.
    Noise,
    /// The remote at the handlebar.
    Remote,
    /// The switches of the brake levers.
    BrakeSwitch,
    /// The throttle.
    Throttle,
    /// Cables and plugs on the frame.
    Wiring,
    /// The charger.
    Charger,
}

impl CheckField {
    /// Every field that can point somewhere.
    pub const ALL: [Self; 11] = [
        Self::Display,
        Self::Battery,
        Self::ErrorCodes,
        Self::Assistance,
        Self::NoHelp,
        Self::Noise,
        Self::Remote,
        Self::BrakeSwitch,
        Self::Throttle,
        Self::Wiring,
        Self::Charger,
    ];

    /// Its key in the wordings.
    pub fn word(self) -> &'static str {
        match self {
            Self::Display => "display",
            Self::Battery => "battery",
            Self::ErrorCodes => "error-codes",
            Self::Assistance => "assistance",
            Self::NoHelp => "no-help",
            Self::Noise => "noise",
            Self::Remote => "remote",
            Self::BrakeSwitch => "brake-switch",
            Self::Throttle => "throttle",
            Self::Wiring => "wiring",
            Self::Charger => "charger",
        }
    }
}

/// Where a fault may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Site {
    /// In the drive unit.
    DriveUnit,
    /// In battery, display, cables or sensors on the frame.
    ElsewhereOnBike,
}

/// The likelier place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Suspect {
    /// Everything that points points there.
    Only(Site),
    /// Some fields point to the unit, some elsewhere: look at both.
    Both,
    /// Nothing points anywhere.
    NotTold,
}

/// What the check on the bike says.
#[derive(Clone, Debug, PartialEq)]
pub struct Triage {
    /// The likelier place.
    pub likelier: Suspect,
    /// The fields that point somewhere, in the order of the sheet.
    pub points: Vec<(CheckField, Site)>,
}

/// Separates the drive unit from the rest of the bike.
pub fn triage(check: &BikeCheck, kind: UnitKind) -> Triage {
    let mut points = Vec::new();
    let has_no_code = check.error_codes.as_ref().is_none_or(|text| is_none(&text.0));
    let is_loud = check.noise.is_some_and(|noise| noise != BikeNoise::Silent);

    // A dead or flickering display, or a dead battery, is a fault before the unit in the supply.
    if matches!(check.display, Some(DisplayState::Off | DisplayState::Flickering)) {
        points.push((CheckField::Display, Site::ElsewhereOnBike));
    }
    if check.battery == Some(BatteryState::Off) {
        points.push((CheckField::Battery, Site::ElsewhereOnBike));
    }
    let has_battery = matches!(check.battery, Some(BatteryState::On | BatteryState::Charging));
    let has_supply = check.display == Some(DisplayState::On) && has_battery;
    // A sensor may be in the unit or on the frame, and points nowhere.
    match check.codes_point_to {
        Some(CodesPointTo::Unit) => points.push((CheckField::ErrorCodes, Site::DriveUnit)),
        Some(CodesPointTo::Battery | CodesPointTo::Display | CodesPointTo::Wiring) => {
            points.push((CheckField::ErrorCodes, Site::ElsewhereOnBike));
        }
        Some(CodesPointTo::Sensor | CodesPointTo::Unknown) | None => {}
    }
    // Weak help while the supply is good: drag or a failing motor. Everything on, no code and no
    // help at all: in a mid-drive, which has its sensors inside, the unit is the first suspect; a hub
    // has them on the frame.
    let is_weak = check.assistance == Some(Assistance::Weak);
    let is_gone = check.assistance == Some(Assistance::NoHelp)
        && has_no_code
        && check.codes_point_to.is_none()
        && kind == UnitKind::MidDrive;
    if has_supply && is_weak {
        points.push((CheckField::Assistance, Site::DriveUnit));
    }
    if has_supply && is_gone {
        points.push((CheckField::NoHelp, Site::DriveUnit));
    }
    // What can be heard turns: bearings, gears, clutch.
    if is_loud {
        points.push((CheckField::Noise, Site::DriveUnit));
    }
    let tried = [
        (CheckField::Remote, check.remote),
        (CheckField::BrakeSwitch, check.brake_switch),
        (CheckField::Throttle, check.throttle),
        (CheckField::Wiring, check.wiring),
        (CheckField::Charger, check.charger),
    ];
    let faulty = tried.into_iter().filter(|(_, state)| *state == Some(Tried::Faulty));
    points.extend(faulty.map(|(field, _)| (field, Site::ElsewhereOnBike)));
    Triage { likelier: likelier(&points), points }
}

fn is_none(codes: &str) -> bool {
    codes.eq_ignore_ascii_case("none")
}

fn likelier(points: &[(CheckField, Site)]) -> Suspect {
    match points.first() {
        None => Suspect::NotTold,
        Some((_, place)) if points.iter().all(|(_, other)| other == place) => Suspect::Only(*place),
        Some(_) => Suspect::Both,
    }
}
