//! What the sentences may speak of on the test ride: what was typed, what the track shows.

use serde::Serialize;

use crate::assessment::ride::judged::TestRide;
use crate::assessment::ride::{CutOff, Proof, Ride};
use crate::document::format;
use crate::document::wording::Wording;
use crate::sheet::findings;
use crate::sheet::profile::Units;
use crate::sheet::text::Text;

/// The test ride.
#[derive(Debug, Serialize)]
pub(super) struct RideFacts {
    /// As typed, else as recorded.
    distance: Option<String>,
    /// As typed, else as recorded.
    climb: Option<String>,
    cut_off: Option<String>,
    /// Way that the help runs on.
    run_on: Option<String>,
    /// Speed of the walk assistance.
    walk: Option<String>,
    errors: Option<String>,
    noise: Option<String>,
    /// Speed up to which the bike may help.
    limit: Option<String>,
    /// What the ride is worth: `enough`, `too-short`, `too-slow`, `not-known`.
    proof: &'static str,
    recorded: Option<Recorded>,
}

/// What the track shows.
#[derive(Debug, Serialize)]
struct Recorded {
    distance: String,
    moving: Option<String>,
    climb: Option<String>,
    stops: usize,
    gaps: usize,
    fastest: Option<String>,
    /// `held`, `passed`, `not-reached`, `not-known`.
    cut_off: &'static str,
    /// Speed that was held near the limit.
    held: Option<String>,
    /// How long it was held.
    held_for: Option<String>,
    dropped: usize,
    points: usize,
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
        distance: typed(&ride.distance).or_else(|| of_track(|track| Some(&track.distance))),
        climb: typed(&ride.climb).or_else(|| of_track(|track| track.climb.as_ref())),
        cut_off: ride.cut_off.as_ref().map(|speed| format::speed(&speed.0.value, units, wording)),
        run_on: ride.run_on.as_ref().map(|way| format::quantity(&way.0.value, wording)),
        walk: ride.walk_assist.as_ref().map(|speed| format::speed(&speed.0.value, units, wording)),
        errors: text(&ride.errors),
        noise: text(&ride.noise),
        limit: limit.map(|limit| format::kmh(limit.kmh, units, wording)),
        proof: judged.map_or("not-known", proof),
        recorded,
    }
}

fn proof(judged: &TestRide) -> &'static str {
    match judged.recorded.as_ref().map_or_else(|| judged.typed.proof(), |track| track.proof) {
        Proof::Enough => "enough",
        Proof::TooShort => "too-short",
        Proof::TooSlow => "too-slow",
        Proof::NotDetermined(_) => "not-known",
    }
}

fn recorded(track: &Ride, units: Units, wording: &Wording) -> Recorded {
    let speed = |kmh: f64| format::kmh(kmh, units, wording);
    let (cut_off, held, held_for) = match track.cut_off {
        CutOff::Held { kmh, seconds } => ("held", Some(speed(kmh)), Some(seconds)),
        CutOff::Passed { .. } => ("passed", None, None),
        CutOff::NotReached { .. } => ("not-reached", None, None),
        CutOff::NotDetermined => ("not-known", None, None),
    };
    Recorded {
        distance: format::way(track.distance_m, units, wording),
        moving: track.moving_s.map(|moving| format::duration(moving, wording)),
        // Heights that change while nothing is ridden are the receiver's.
        climb: track
            .climb
            .as_ref()
            .ok()
            .filter(|_| 100.0 < track.distance_m)
            .map(|climb| format::height(climb.up_m, units, wording)),
        stops: track.stops.len(),
        gaps: track.gaps.len(),
        fastest: track.speed.map(|speeds| speed(speeds.max)),
        cut_off,
        held,
        held_for: held_for.map(|seconds| format::duration(seconds, wording)),
        dropped: track.cleaned.lost(),
        points: track.cleaned.read,
    }
}
