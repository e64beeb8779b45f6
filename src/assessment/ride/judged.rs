//! The test ride of a job: its track, its typed values, and both against the rules of the place.
//!
//! In: the sheet's `ride` block, the bytes of its track, the workshop's set of rules; out: [`TestRide`]
//! and problems. What the ride looks like on paper is not here.

use super::{AssistLimit, Ride, TypedRide, compare, read};
use crate::assessment::bench::check_result::CheckResult;
use crate::assessment::bench::measure::Measure;
use crate::assessment::bench::ride_limits::rules::rule_set;
use crate::assessment::bench::ride_limits::{self, RideReadings};
use crate::assessment::bench::verdict::Verdict;
use crate::assessment::problems::ride as problems;
use crate::diagnostic::Problems;
use crate::sheet::bench::Reading;
use crate::sheet::vocabulary::YesNo;
use crate::sheet::{ProfileFile, Sheet, findings};

/// The test ride of a job.
#[derive(Debug)]
pub struct TestRide {
    /// What the track shows, if there is one that can be read.
    pub recorded: Option<Ride>,
    /// What the sheet says.
    pub typed: TypedRide,
    /// Speed up to which the bike may help, if the workshop names its rules.
    pub limit: Option<AssistLimit>,
    /// Readings of the ride against the rules of the place.
    pub lines: Vec<CheckResult>,
}

/// Judges the ride of a sheet; `None` if there was none.
pub fn judge(
    sheet: &Sheet,
    workshop: &ProfileFile,
    track: Option<&[u8]>,
    problems: &mut Problems,
) -> Option<TestRide> {
    let ride = sheet.fields.ride.as_ref()?;
    let rules = sheet.fields.unit.rules.or(workshop.fields.rules);
    let rules = rules.and_then(|rules| rule_set(rules.word()));
    let limit = rules.map(AssistLimit::of);
    let recorded = recorded(sheet, ride, track, limit, problems);
    let typed = TypedRide::of(ride);
    let place = sheet.place(&ride.span);
    let is_unread = recorded.is_none() && ride.track.is_some();
    for remark in compare(&typed, recorded.as_ref()).iter().filter(|_| !is_unread) {
        problems.push(problems::remark(place.clone(), remark, recorded.is_some()));
    }
    let lines = ride_limits::run(&readings(ride), rules);
    // A ride that is too short is reported already.
    let outside = |line: &&CheckResult| {
        line.measure != Measure::RideDistance
            && line.after.as_ref().is_some_and(|stage| stage.verdict == Verdict::Outside)
    };
    for line in lines.iter().filter(outside) {
        problems.push(problems::outside_rules(place.clone(), line));
    }
    Some(TestRide { recorded, typed, limit, lines })
}

fn recorded(
    sheet: &Sheet,
    ride: &findings::Ride,
    track: Option<&[u8]>,
    limit: Option<AssistLimit>,
    problems: &mut Problems,
) -> Option<Ride> {
    let (name, bytes) = ride.track.as_ref().zip(track)?;
    read(bytes, limit)
        .map_err(|refusal| problems.push(problems::track(sheet.place(&name.span), &refusal)))
        .ok()
}

fn readings(ride: &findings::Ride) -> RideReadings {
    let distance = ride.distance.as_ref();
    RideReadings {
        cut_off: ride.cut_off.as_ref().map(|speed| speed.0.clone()),
        run_on: ride.run_on.as_ref().map(|way| way.0.clone()),
        brake_switches: ride.brake_switches.map(|answer| answer == YesNo::Yes),
        walk: ride.walk_assist.as_ref().map(|speed| speed.0.clone()),
        distance: distance.map(|way| Reading::of(way.0.clone())),
    }
}
