//! Every message of the assessment stage, with its code.

use super::bench::line::Line;
use super::bench::verdict::{Reason, Verdict};
use super::cause::Weighing;
use super::cause::scores::Fault;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::catalogue::Sign;
use crate::sheet::vocabulary::CauseKind;

/// A price in a currency that is not the workshop's.
pub fn other_currency(place: Place, found: &str, workshop: &str) -> Diagnostic {
    let message = format!("this price is in {found}, the workshop charges in {workshop}");
    Diagnostic::error("cost/other-currency", place, message)
        .hint("give it in the workshop's currency; nothing is converted")
}

/// Working time without a rate to charge it at.
pub fn no_rate(place: Place) -> Diagnostic {
    Diagnostic::error("cost/no-rate", place, "there is no hourly rate to charge this time at")
        .hint("add `rates: {hour: £48.00}` to `workshop.yaml`, or an agreed `price:` here")
}

const JUDGEMENT: &str =
    "add the signs that led you there, or let the report say `in our judgement`";

/// The signs speak for another cause than the one stated.
pub fn speaks_for_other(
    place: Place,
    stated: CauseKind,
    other: CauseKind,
    weighing: &Weighing,
) -> Diagnostic {
    let (stated_word, other) = (stated.word(), other.word());
    let message = format!("the signs do not carry `{stated_word}`: they speak for `{other}`");
    Diagnostic::warning("cause/not-carried", place, message)
        .maybe_hint(both_sides(stated, weighing))
        .hint(JUDGEMENT)
}

/// The signs leave it open, a cause is stated.
pub fn signs_settle_nothing(place: Place, stated: CauseKind, weighing: &Weighing) -> Diagnostic {
    let message = format!("the signs do not settle it, `{}` is stated", stated.word());
    Diagnostic::warning("cause/not-carried", place, message)
        .maybe_hint(both_sides(stated, weighing))
        .hint(JUDGEMENT)
}

/// The cause is left open, the signs settle it.
pub fn signs_settle_it(place: Place, carried: CauseKind, weighing: &Weighing) -> Diagnostic {
    let message = format!("the cause is stated as open, the signs carry `{}`", carried.word());
    Diagnostic::warning("cause/not-carried", place, message)
        .maybe_hint(both_sides(carried, weighing))
        .hint(JUDGEMENT)
}

/// No sign on the sheet speaks for the stated cause.
pub fn no_sign(place: Place, stated: CauseKind) -> Diagnostic {
    let message = format!("no sign on this sheet speaks for `{}`", stated.word());
    Diagnostic::warning("cause/not-carried", place, message).hint(JUDGEMENT)
}

/// No fault is stated without the test that shows it.
pub fn not_shown_faultless(place: Place) -> Diagnostic {
    let message = "`no-fault-found` is stated without a test that shows it";
    Diagnostic::warning("cause/not-carried", place, message).hint(
        "add the sign `faultless-on-swap` if it ran with a battery and display known to be good",
    )
}

/// A contributing cause that no sign speaks for.
pub fn contributing_bare(place: Place, cause: CauseKind) -> Diagnostic {
    let message = format!("no sign on this sheet speaks for the contributing `{}`", cause.word());
    Diagnostic::warning("cause/contributing-not-carried", place, message)
        .hint("add its signs, or leave it out")
}

/// Riding on is stated without a day from which it could be noticed.
pub fn neglect_undated(place: Place) -> Diagnostic {
    let message = "`neglect` is stated without a dated sign that the rider could notice";
    Diagnostic::warning("cause/neglect-undated", place, message).hint(
        "add `arrival: noticed: {date: …, sign: noise}`; until then the report speaks of time run",
    )
}

/// A sign that counts and rests on words alone.
pub fn no_evidence(place: Place, sign: Sign) -> Diagnostic {
    let message = format!("`{}` counts towards the cause, and no photo shows it", sign.name());
    Diagnostic::warning("cause/no-evidence", place, message)
        .hint("add a photo to its finding, or the reading under `bench:`")
}

/// The signs for and against a cause in one line.
fn both_sides(cause: CauseKind, weighing: &Weighing) -> Option<String> {
    let (for_it, against) = weighing.for_and_against(Fault::of(cause)?);
    let listed = |signs: &[&super::cause::weighing::Weighed]| match signs {
        [] => "none".to_owned(),
        _ => {
            let name = |one: &&super::cause::weighing::Weighed| {
                let not = if one.seen { "" } else { "not " };
                format!("{not}`{}`", one.sign.name())
            };
            signs.iter().map(name).collect::<Vec<_>>().join(", ")
        }
    };
    Some(format!("for `{}`: {}; against: {}", cause.word(), listed(&for_it), listed(&against)))
}

/// A bench check that lacks something, so that its figure or verdict cannot be determined.
///
/// A check without any limit is no mistake of the sheet and gives none.
pub fn undetermined(place: Place, line: &Line) -> Option<Diagnostic> {
    let stages = [&line.before, &line.after].into_iter().flatten();
    let reason = stages.into_iter().find_map(|stage| match &stage.verdict {
        Verdict::NotDetermined(Reason::NoLimit) => None,
        Verdict::NotDetermined(reason) => Some(reason),
        _ => None,
    })?;
    let (code, message, hint) = match reason {
        Reason::NoLimit => return None,
        Reason::ReadingCount { needed, found } => {
            let message = format!("this check needs {needed} readings, {found} stand here");
            return Some(
                Diagnostic::warning("bench/reading-count", place, message)
                    .hint("give every phase-to-phase reading in one list"),
            );
        }
        Reason::MissingTemperature => (
            "bench/missing-temperature",
            "a temperature is missing, which the correction needs",
            "add `at: 21 degC`",
        ),
        Reason::MissingAmbient => (
            "bench/missing-ambient",
            "the surroundings' temperature is missing",
            "add `ambient: 22 degC`",
        ),
        Reason::MissingColdOrHot => (
            "bench/missing-cold-or-hot",
            "a rise by resistance needs both resistances",
            "add `cold:` and `hot:`",
        ),
        Reason::NotPositive | Reason::OutOfRange => {
            ("bench/out-of-range", "this value cannot be a reading", "check number and unit")
        }
        Reason::TemperatureOutsideRule => (
            "bench/outside-rule",
            "the correction rule does not hold at this temperature",
            "measure between 10 and 40 degC",
        ),
        Reason::BackgroundTooLoud | Reason::MissingBackground => (
            "bench/background",
            "the background hides the unit's own sound",
            "measure it and add `background:`",
        ),
        Reason::MissingBearing | Reason::UnknownBearing | Reason::NotInTable => (
            "bench/unknown-bearing",
            "no deep groove ball bearing known here is named",
            "write `bearing: 6804-2RS C3`",
        ),
        Reason::MissingZone | Reason::UnknownZone => (
            "bench/unknown-zone",
            "no tolerance zone known for this seat is named",
            "write `zone: k5` for a shaft, `H7` for a bore",
        ),
        Reason::MissingCells => {
            ("bench/missing-cells", "the number of cells is missing", "add `cells: 10`")
        }
        // Torques and rides say so where they print; the sheet need not know.
        Reason::MissingThread | Reason::BrakeSwitchesUnknown => return None,
        Reason::NotAState => (
            "bench/not-a-state",
            "something here is no hall state",
            "three digits of 0 and 1, or one from 0 to 7",
        ),
    };
    Some(Diagnostic::warning(code, place, message).hint(hint))
}
