//! Messages on the test ride.

use crate::assessment::bench::check_result::CheckResult;
use crate::assessment::bench::measure::Measure;
use crate::assessment::bench::verdict::Origin;
use crate::assessment::ride::{Proof, Refusal, Remark, Unproven, rule};
use crate::diagnostic::{Diagnostic, Place};

/// A track that cannot be read: the report does without it.
pub fn track(place: Place, refusal: &Refusal) -> Diagnostic {
    let (code, hint) = match refusal {
        // A track file that is empty, cut short or broken.
        Refusal::Empty | Refusal::CutShort | Refusal::Broken { .. } => {
            ("ride/track-damaged", "export it again from the device that recorded it")
        }
        // A track that is larger than a test ride can be.
        Refusal::TooLarge(_) | Refusal::TooManyPoints => {
            ("ride/track-large", "export only the test ride")
        }
        // A track file of another form than GPX 1.1.
        Refusal::NotUtf8
        | Refusal::DocumentType
        | Refusal::TooDeep
        | Refusal::NotGpx
        | Refusal::Version(_) => ("ride/track-form", "export the ride as GPX 1.1"),
        // A GPX file without a track.
        Refusal::NoTrack { .. } => ("ride/track-empty", "record the ride and export its track"),
        // A track with too few points to show a ride.
        Refusal::TooFewPoints(_) => {
            ("ride/too-few-points", "record with a point every few seconds")
        }
    };
    Diagnostic::warning(code, place, refusal.to_string())
        .hint(format!("{hint}; or leave out `track:` and type the values"))
}

/// What a ride does not prove, or where sheet and track differ.
pub fn remark(place: Place, remark: &Remark, is_recorded: bool) -> Diagnostic {
    let ride = if is_recorded { "the recorded ride" } else { "the ride" };
    let length = rule::LENGTH.value;
    let (code, message, hint) = match remark {
        // A test ride that is too short to prove a repair.
        Remark::Proof(Proof::TooShort) => (
            "ride/too-short",
            format!("{ride} is shorter than {length} m, too short to prove a repair"),
            "ride at least a kilometre; the report says that it was too short",
        ),
        // A test ride that was hardly faster than walking.
        Remark::Proof(Proof::TooSlow | Proof::Enough) => (
            "ride/too-slow",
            format!("less than {length} m of {ride} are faster than walking"),
            "ride with the help on; the report says that it was too slow",
        ),
        // A test ride of which too little is known to prove a repair.
        Remark::Proof(Proof::NotDetermined(why)) => {
            let (what, hint) = unproven(*why);
            ("ride/unproven", format!("{ride} does not prove the repair: {what}"), hint)
        }
        // A track of another day than the ride on the sheet.
        Remark::OtherDay { recorded, typed } => (
            "ride/other-day",
            format!("the track was recorded on {recorded} (UTC), the sheet says {typed}"),
            "check the file and the day",
        ),
        // A track of another length than the ride on the sheet.
        Remark::OtherLength { recorded, typed } => (
            "ride/other-distance",
            format!("the track is {recorded:.0} m long, the sheet says {:.0} m", typed.round()),
            "leave `distance:` out, or check the file",
        ),
    };
    Diagnostic::warning(code, place, message).hint(hint)
}

fn unproven(why: Unproven) -> (&'static str, &'static str) {
    match why {
        Unproven::NoSpeed => {
            ("how fast it was is not known", "add `cut-off:`, or a track whose points have times")
        }
        Unproven::MuchDropped => (
            "more than a fifth of the track's points had to be dropped",
            "record again under open sky, or type the values",
        ),
        Unproven::MuchLost => (
            "more time is lost in gaps than was ridden",
            "record again under open sky, or type the values",
        ),
        Unproven::NoLength => ("its length is not known", "add `distance:` or a `track:`"),
    }
}

/// A reading of the ride outside the rules of the place.
pub fn outside_rules(place: Place, line: &CheckResult) -> Diagnostic {
    let what = match line.measure {
        Measure::CutOffSpeed => "the motor stops assisting at a higher speed",
        Measure::RunOn => "the motor runs on further",
        _ => "the walk assist is faster",
    };
    let source = match line.limit.as_ref().map(|limit| limit.origin) {
        Some(Origin::Published(source)) => source.citation(),
        _ => "common practice",
    };
    let message = format!("{what} than the rules allow: {source}");
    Diagnostic::warning("ride/outside-rules", place, message)
        .hint("check local rules and inform the owner; the report says so too")
}
