//! Values of the test ride for sentences: what was typed, what the track shows.

use serde::Serialize;

use crate::assessment::ride::judged::TestRide;
use crate::assessment::ride::{CutOff, Ride};
use crate::document::format;
use crate::document::wording::Wording;
use crate::sheet::findings;
use crate::sheet::profile::Units;
use crate::sheet::text::Text;

/// The test ride.
#[derive(Debug, Serialize)]
pub(super) struct RideFacts {
    /// As typed.
    typed_distance: Option<String>,
    /// As typed.
    typed_climb: Option<String>,
    /// As typed, else as recorded.
    distance: Option<String>,
    /// As typed, else as recorded.
    climb: Option<String>,
    cut_off: Option<String>,
    /// The same with its uncertainty, as typed.
    cut_off_raw: Option<String>,
    /// Way that the help runs on.
    run_on: Option<String>,
    /// Speed of the walk assistance.
    walk: Option<String>,
    errors: Option<String>,
    noise: Option<String>,
    /// Speed up to which the bike may help.
    limit: Option<String>,
    recorded: Option<Recorded>,
}

/// What the track shows.
#[derive(Debug, Serialize)]
struct Recorded {
    distance: String,
    moving: Option<String>,
    climb: Option<String>,
    gaps: usize,
    /// How long it was held.
    held_for: Option<String>,
}

/// The facts of a ride.
pub(super) fn of(
    ride: &findings::Ride,
    judged: Option<&TestRide>,
    units: Units,
    wording: &Wording,
) -> RideFacts {
    let text = |text: &Option<Text>| text.as_ref().map(|text| text.0.clone());
    let recorded = judged.and_then(|judged| judged.recorded.as_ref());
    let recorded = recorded.map(|track| self::recorded(track, units, wording));
    let typed = |way: &Option<crate::sheet::quantity::Distance>| {
        way.as_ref().map(|way| format::distance(&way.0, units, wording))
    };
    let of_track =
        |value: fn(&Recorded) -> Option<&String>| recorded.as_ref().and_then(value).cloned();
    let limit = judged.and_then(|judged| judged.limit);
    RideFacts {
        typed_distance: typed(&ride.distance),
        typed_climb: typed(&ride.climb),
        distance: typed(&ride.distance).or_else(|| of_track(|track| Some(&track.distance))),
        climb: typed(&ride.climb).or_else(|| of_track(|track| track.climb.as_ref())),
        cut_off: ride.cut_off.as_ref().map(|speed| format::speed(&speed.0.value, units, wording)),
        cut_off_raw: ride.cut_off.as_ref().map(|speed| measured(&speed.0, units, wording)),
        run_on: ride.run_on.as_ref().map(|way| format::quantity(&way.0.value, wording)),
        walk: ride.walk_assist.as_ref().map(|speed| format::speed(&speed.0.value, units, wording)),
        errors: text(&ride.error_codes),
        noise: text(&ride.noise),
        limit: limit.map(|limit| format::kmh(limit.kmh, units, wording)),
        recorded,
    }
}

/// True if the recording gives a climb. Heights that change while nothing is ridden are the receiver's.
pub(super) fn has_climb(track: &Ride) -> bool {
    100.0 < track.distance_m && track.climb.is_ok()
}

fn recorded(track: &Ride, units: Units, wording: &Wording) -> Recorded {
    let held_for = match track.cut_off {
        CutOff::Held { seconds, .. } => Some(seconds),
        _ => None,
    };
    let climb = track.climb.as_ref().ok().filter(|_| has_climb(track));
    Recorded {
        distance: format::way(track.distance_m, units, wording),
        moving: track.moving_s.map(|moving| format::duration(moving, wording)),
        climb: climb.map(|climb| format::height(climb.up_m, units, wording)),
        gaps: track.gaps.len(),
        held_for: held_for.map(|seconds| format::duration(seconds, wording)),
    }
}

/// A measured speed with its uncertainty.
fn measured(reading: &crate::sheet::bench::Reading, units: Units, wording: &Wording) -> String {
    let value = format::speed(&reading.value, units, wording);
    match &reading.uncertainty {
        Some(by) => format!("{value} ± {}", format::speed(by, units, wording)),
        None => value,
    }
}
