//! Messages on the stated cause: where it goes further than the signs.

use crate::assessment::cause::Weighing;
use crate::assessment::cause::scored_sign::ScoredSign;
use crate::assessment::cause::scores::RootCause;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::catalogue::{SIGNS, Sign};
use crate::sheet::vocabulary::{CauseKind, OriginKind};

const JUDGEMENT: &str =
    "add the signs that led you there, or let the report say `in our judgement`";

/// The signs point to another cause than the one stated.
pub fn speaks_for_other(
    place: Place,
    stated: CauseKind,
    other: CauseKind,
    weighing: &Weighing,
) -> Diagnostic {
    let (stated_word, other) = (stated.word(), other.word());
    let message = format!("the signs do not support `{stated_word}`: they point to `{other}`");
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

/// No sign on the sheet supports the stated cause.
pub fn no_sign(place: Place, stated: CauseKind) -> Diagnostic {
    let message = format!("no sign on this sheet supports `{}`", stated.word());
    Diagnostic::warning("cause/not-carried", place, message).hint(JUDGEMENT)
}

/// No fault is stated without the test that shows it.
pub fn not_shown_faultless(place: Place) -> Diagnostic {
    let message = "`no-fault-found` is stated without a test that shows it";
    Diagnostic::warning("cause/not-carried", place, message).hint(
        "add the sign `faultless-on-swap` if it ran with a battery and display known to be good",
    )
}

/// A contributing cause that no sign supports.
pub fn contributing_bare(place: Place, cause: CauseKind) -> Diagnostic {
    let message = format!("no sign on this sheet supports the contributing `{}`", cause.word());
    Diagnostic::warning("cause/contributing-not-carried", place, message)
        .hint("add its signs, or leave it out")
}

/// A contributing cause with more signs against it than for it.
pub fn contributing_outweighed(place: Place, cause: CauseKind, weighing: &Weighing) -> Diagnostic {
    let word = cause.word();
    let message = format!("more signs are against the contributing `{word}` than for it");
    Diagnostic::warning("cause/contributing-not-carried", place, message)
        .maybe_hint(both_sides(cause, weighing))
        .hint("add what shows it, or leave it out")
}

/// Riding on is stated without a day from which it could be noticed.
pub fn neglect_undated(place: Place) -> Diagnostic {
    let message = "`wear-over-time` is stated without a dated sign that the rider could notice";
    Diagnostic::warning("cause/neglect-undated", place, message).hint(
        "add `arrival: noticed: {date: …, sign: noise}`; until then the report only says that it ran \
         on for some time",
    )
}

/// Running on is stated without damage that comes only with running time.
pub fn neglect_bare(place: Place) -> Diagnostic {
    let message = "`wear-over-time` is stated without damage that comes only by running on";
    Diagnostic::warning("cause/neglect-bare", place, message).hint(
        "add such a sign, as `races-worn-deep`; until then the report says nothing of riding on",
    )
}

/// Riding on is stated of a rider who came within days.
pub fn neglect_prompt(place: Place) -> Diagnostic {
    let message = "`wear-over-time` is stated, but the unit came in within days of the first sign";
    Diagnostic::warning("cause/neglect-prompt", place, message)
        .hint("leave it out, or correct `arrival: noticed:`; the report says nothing of riding on")
}

/// An origin beside a main cause that it cannot belong to.
pub fn origin_elsewhere(place: Place, origin: OriginKind, main: CauseKind) -> Diagnostic {
    let message = format!("`{}` is not an origin of `{}`", origin.word(), main.word());
    Diagnostic::warning("cause/origin-elsewhere", place, message).hint(
        "it goes with `main: mechanical`; overload, assembly, material and age also with \
         `electrical`",
    )
}

/// An origin that no sign supports.
pub fn origin_bare(place: Place, origin: OriginKind) -> Diagnostic {
    let message = format!("no sign on this sheet supports the origin `{}`", origin.word());
    let speak = SIGNS.iter().filter(|row| row.origin.contains(&origin)).take(3);
    let names: Vec<String> = speak.map(|row| format!("`{}`", row.sign)).collect();
    Diagnostic::warning("cause/origin-not-carried", place, message)
        .hint(format!("add its signs, such as {}, or leave it out", names.join(", ")))
}

/// A sign that counts and rests on words alone.
pub fn no_evidence(place: Place, sign: Sign) -> Diagnostic {
    let message = format!("`{}` counts towards the cause, and no photo shows it", sign.name());
    Diagnostic::warning("cause/no-evidence", place, message)
        .hint("add a photo to its finding, or the reading under `bench:`")
}

/// The signs for and against a cause in one line.
fn both_sides(cause: CauseKind, weighing: &Weighing) -> Option<String> {
    let (for_it, against) = weighing.for_and_against(RootCause::of(cause)?);
    let listed = |signs: &[&ScoredSign]| match signs {
        [] => "none".to_owned(),
        _ => {
            let name = |one: &&ScoredSign| {
                let not = if one.seen { "" } else { "not " };
                format!("{not}`{}`", one.sign.name())
            };
            signs.iter().map(name).collect::<Vec<_>>().join(", ")
        }
    };
    Some(format!("for `{}`: {}; against: {}", cause.word(), listed(&for_it), listed(&against)))
}

/// A fault of the unit is stated though the bike's behaviour points past it.
pub fn elsewhere_on_bike(place: Place, stated: CauseKind) -> Diagnostic {
    let message = format!(
        "`{}` is stated, and what the bike did points to battery, display or wiring",
        stated.word()
    );
    Diagnostic::warning("cause/elsewhere", place, message)
        .hint("look there too before the unit goes back, and say what came of it in `cause: note:`")
}
