//! Messages on bench checks that lack something.

use crate::assessment::bench::check_result::CheckResult;
use crate::assessment::bench::verdict::{Reason, Verdict};
use crate::diagnostic::{Diagnostic, Place};

/// A bench check that lacks something, so that its figure or verdict cannot be determined.
///
/// A check without any limit is no mistake of the sheet and gives none; what a ride lacks is said
/// where it is printed.
pub fn undetermined(place: Place, line: &CheckResult) -> Option<Diagnostic> {
    let stages = [&line.before, &line.after].into_iter().flatten();
    let reason = stages.into_iter().find_map(|stage| match &stage.verdict {
        Verdict::NotDetermined(Reason::NoLimit) => None,
        Verdict::NotDetermined(reason) => Some(reason),
        _ => None,
    })?;
    let (code, message, hint) = match reason {
        Reason::NoLimit | Reason::BrakeSwitchesUnknown => return None,
        // A bench check with too few readings, or too many.
        Reason::ReadingCount { needed, found } => {
            let message = format!("this check needs {needed} readings; found {found}");
            return Some(
                Diagnostic::warning("bench/reading-count", place, message)
                    .hint("give every phase-to-phase reading in one list"),
            );
        }
        // A figure that is carried to another temperature, without the one it was read at.
        Reason::MissingTemperature => (
            "bench/missing-temperature",
            "a temperature is missing, which the correction needs",
            "add `at: 21 degC`",
        ),
        // A rise of temperature without the temperature that it rises above.
        Reason::MissingAmbient => (
            "bench/missing-ambient",
            "the surroundings' temperature is missing",
            "add `ambient: 22 degC`",
        ),
        // A rise by resistance that has one of its two resistances.
        Reason::MissingColdOrHot => (
            "bench/missing-cold-or-hot",
            "a rise by resistance needs both resistances",
            "add `cold:` and `hot:`",
        ),
        // A reading that no instrument gives, such as 0 ohm of a winding.
        Reason::NotPositive | Reason::OutOfRange => {
            ("bench/out-of-range", "this value cannot be a reading", "check number and unit")
        }
        // An insulation resistance at a temperature for which its correction does not hold.
        Reason::TemperatureOutsideRule => (
            "bench/outside-rule",
            "the correction rule does not hold at this temperature",
            "measure between 10 and 40 degC",
        ),
        // A sound level without its background, or with one that is nearly as loud.
        Reason::BackgroundTooLoud | Reason::MissingBackground => (
            "bench/background",
            "the background hides the unit's own sound",
            "measure it and add `background:`",
        ),
        // A check of a bearing whose designation is not given or not known.
        Reason::MissingBearing | Reason::UnknownBearing | Reason::NotInTable => (
            "bench/unknown-bearing",
            "no bearing that is known here is named",
            "write `bearing: 6804-2RS C3`",
        ),
        // A bearing seat whose tolerance zone is not given or not known.
        Reason::MissingZone | Reason::UnknownZone => (
            "bench/unknown-zone",
            "no tolerance zone known for this seat is named",
            "write `zone: k5` for a shaft, `H7` for a bore",
        ),
        // The voltage of a battery pack without the number of its cells.
        Reason::MissingCells => {
            ("bench/missing-cells", "the number of cells is missing", "add `cells: 10`")
        }
        // A figure that is computed from a reading over the meter's range.
        Reason::OverRange => (
            "bench/over-range",
            "this check computes with its readings, and one was over the meter's range",
            "measure on a wider range, or leave the reading out",
        ),
        // Something in a list of hall states that is not one.
        Reason::NotAState => (
            "bench/not-a-state",
            "something here is not a hall state",
            "three digits of 0 and 1, or one from 0 to 7",
        ),
    };
    Some(Diagnostic::warning(code, place, message).hint(hint))
}
