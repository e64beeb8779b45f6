//! Bench checks: readings, limits and rules -> lines with figures, verdicts and their sources.
//!
//! ```text
//!  Input, Own ──► CHECKS row ──► Line: before, after, change, limit, method, remarks
//! ```
//!
//! A reading outside its limit is a result, never an error; what cannot be computed is "not
//! determined" with its reason. A check is added by one file and one row of [`CHECKS`]. Torque of
//! screws ([`torque`]) and the test ride ([`ride_limits`]) give the same lines from their own
//! readings. Nothing is worded or rounded for print here.

pub mod back_emf;
pub mod battery;
pub mod bearing;
pub mod clearance;
pub mod fit;
pub mod hall;
pub mod input;
pub mod insulation;
pub mod line;
pub mod measure;
pub mod no_load;
pub mod noise;
pub mod own;
pub mod play;
pub mod reading;
pub mod remark;
pub mod ride_limits;
pub mod seat;
pub mod temperature_rise;
pub mod torque;
pub mod unbalance;
pub mod verdict;
pub mod winding;

use crate::sheet::quantity::unit::Dimension;
use input::Input;
use line::Line;
use own::Own;

/// A bench check.
pub struct Check {
    /// Its name as typed in a sheet.
    pub name: &'static str,
    /// What its readings measure; `None` where they are states.
    pub dimension: Option<Dimension>,
    /// Computes its lines.
    pub run: fn(&Input, &Own) -> Vec<Line>,
}

const fn check(
    name: &'static str,
    dimension: Dimension,
    run: fn(&Input, &Own) -> Vec<Line>,
) -> Check {
    Check { name, dimension: Some(dimension), run }
}

/// Every bench check.
pub const CHECKS: &[Check] = &[
    check("crank-axial-play", Dimension::Length, play::crank_axial),
    check("crank-radial-play", Dimension::Length, play::crank_radial),
    check("axle-play", Dimension::Length, play::axle),
    check("winding-resistance", Dimension::Resistance, winding::run),
    check("insulation-resistance", Dimension::Resistance, insulation::run),
    check("no-load-current", Dimension::Current, no_load::run),
    check("running-noise", Dimension::SoundLevel, noise::run),
    check("back-emf", Dimension::Voltage, back_emf::run),
    check("temperature-rise", Dimension::Temperature, temperature_rise::run),
    Check { name: "hall-states", dimension: None, run: hall::run },
    check("shaft-seat", Dimension::Length, seat::shaft),
    check("housing-seat", Dimension::Length, seat::housing),
    check("bearing-clearance", Dimension::Length, clearance::run),
    check("battery-voltage", Dimension::Voltage, battery::run),
];

/// The lines of a check; none where no check has its name, which the sheet's reader rules out.
pub fn run(input: &Input, own: &Own) -> Vec<Line> {
    let check = CHECKS.iter().find(|check| check.name == input.check);
    check.map_or_else(Vec::new, |check| (check.run)(input, own))
}
