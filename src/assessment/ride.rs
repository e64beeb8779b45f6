//! The test ride: a recorded track and what the sheet says of the ride, as facts without a place.
//!
//! In: the bytes of a GPX 1.1 file, or the values typed in the sheet; out: [`Ride`] or [`Refusal`].
//! No latitude, longitude, time of day or height above the sea leaves this module: positions live in
//! types that only it can name, and what comes out are lengths, times and height differences. Drawing
//! and words are not here, nor is the verdict on readings of a bench.

mod clean;
mod cleaned;
mod climb;
mod curve;
mod cut_off;
mod geodesy;
mod gpx;
pub mod judged;
mod pace;
mod pause;
mod proof;
mod recorded;
mod refusal;
pub mod rule;
mod timeline;
mod typed;

use std::ops::RangeInclusive;

use pause::tenths;

pub use cleaned::Cleaned;
pub use climb::{Climb, NoClimb, hysteresis};
pub use curve::CurvePoint;
pub use cut_off::{AssistLimit, CutOff};
pub use geodesy::distance;
pub use pace::Speeds;
pub use pause::Pause;
pub use proof::{Proof, Unproven};
pub use recorded::Ride;
pub use refusal::Refusal;
pub use typed::{Remark, TypedRide, compare};

/// The facts of a ride from the bytes of its GPX file.
///
/// # Errors
/// [`Refusal`] if the file is not a GPX track, is hostile or damaged, or holds fewer than two usable
/// points. Anything less is cleaned and counted in [`Ride::cleaned`].
pub fn read(bytes: &[u8], limit: Option<AssistLimit>) -> Result<Ride, Refusal> {
    let track = gpx::track(bytes)?;
    let (path, cleaned) = clean::clean(track)?;
    let pace = pace::pace(&path);
    let heights = climb::levels(&path, &pace.along);
    let distance = pace.along.last().copied().unwrap_or_default();
    let shown = curve::shown(distance);
    let shown = shown.as_ref();
    let gaps = path.gaps(&pace.along);
    let cleaned = Cleaned { height_jumps: heights.jumps, ..cleaned };
    Ok(Ride {
        day: path.day,
        points: path.samples.len(),
        distance_m: tenths(distance),
        elapsed_s: path.elapsed().map(tenths),
        moving_s: pace.moving.map(tenths),
        stops: inside(&pace.stops, shown),
        gaps: inside(&gaps, shown),
        curve: curve::curve(&pace, &heights.levels, shown),
        cut_off: cut_off::cut_off(&path, &pace, limit),
        proof: proof::proof(&path, &pace, &cleaned),
        speed: pace.speeds,
        climb: heights.climb,
        cleaned,
    })
}

/// The pauses in the part that may be seen.
fn inside(pauses: &[Pause], shown: Option<&RangeInclusive<f64>>) -> Vec<Pause> {
    let Some(shown) = shown else { return Vec::new() };
    let is_shown = |pause: &&Pause| shown.contains(&pause.at_m);
    let rounded =
        |pause: &Pause| Pause { at_m: pause.at_m.round(), seconds: pause.seconds.map(f64::round) };
    pauses.iter().filter(is_shown).map(rounded).collect()
}
