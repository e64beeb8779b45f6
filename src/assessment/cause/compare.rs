//! Holds the stated cause against the signs.

use super::continued_use::ContinuedUse;
use super::evidence::Noticing;
use super::order;
use super::origins;
use super::outcome::Weighing;
use super::scored_sign::{ScoredSign, is_in_order};
use super::scores::RootCause;
use super::stated::{Agreement, Reason, Stated, StatedOrigin};
use super::verdict::{Support, is_supported};
use crate::sheet::catalogue::sign::Role;
use crate::sheet::findings::Cause;
use crate::sheet::vocabulary::CauseKind;

/// Compares the stated cause with the signs.
pub fn stated(cause: &Cause, weighing: &Weighing) -> Stated {
    let main = cause.main.value;
    let contributing = cause.contributing.iter().map(|one| one.value);
    let says_neglect = contributing.clone().chain([main]).any(|kind| kind == CauseKind::Neglect);
    let is_prompt = matches!(weighing.noticing, Noticing::Promptly(_));
    let not_carried = |kind: &CauseKind| match RootCause::of(*kind) {
        // Whether it is dated is a warning of its own.
        Some(RootCause::Neglect) => !speaks_at_all(RootCause::Neglect, weighing),
        Some(fault) => !has_a_part(fault, main, weighing),
        None => false,
    };
    let carried = |kind: &CauseKind| {
        RootCause::of(*kind).is_some_and(|fault| has_a_part(fault, main, weighing))
    };
    Stated {
        main,
        agreement: agreement(cause, weighing),
        contributing_carried: contributing.clone().filter(carried).collect(),
        contributing_not_carried: contributing.filter(not_carried).collect(),
        neglect_undated: says_neglect
            && weighing.continued_use == ContinuedUse::Undated
            && !is_prompt,
        neglect_bare: says_neglect && weighing.continued_use == ContinuedUse::No,
        neglect_prompt: says_neglect
            && weighing.continued_use == ContinuedUse::Undated
            && is_prompt,
        origin: cause.origin.as_ref().map(|origin| StatedOrigin {
            kind: origin.value,
            fits: origins::fits(origin.value, main),
            shown: weighing.origins.iter().any(|(kind, _)| *kind == origin.value),
        }),
    }
}

fn agreement(cause: &Cause, weighing: &Weighing) -> Agreement {
    let main = cause.main.value;
    let verdict = &weighing.verdict;
    let no = Agreement::Unsupported;
    match RootCause::of(main) {
        _ if verdict.main == main => Agreement::Supported,
        // If several causes are carried, a person may weigh their order otherwise.
        Some(fault)
            if verdict.support == Support::Mixed && verdict.contributing.contains(&fault) =>
        {
            Agreement::Supported
        }
        // Something wore first, whatever is to be seen of it now, and was then ridden on.
        Some(fault) if is_then_ridden_on(fault, cause, weighing) => Agreement::Supported,
        Some(fault) if !speaks_at_all(fault, weighing) => no(Reason::NoSign),
        Some(_) if verdict.main == CauseKind::Undetermined => no(Reason::SignsSettleNothing),
        Some(_) => no(Reason::OtherCause(verdict.main)),
        None if main == CauseKind::NoFaultFound => no(Reason::NotShownFaultless),
        // To leave it open is right unless one cause is well supported or the swap was faultless.
        None => match verdict.support {
            Support::WellSupported | Support::NoFaultFound => {
                no(Reason::SignsSettleIt(verdict.main))
            }
            _ => Agreement::Supported,
        },
    }
}

/// True if the signs carry a cause beside a main one.
///
/// Wear, age or an earlier repair that opened a way for the water had its part in it, however much
/// the water then is against mechanics alone (rule 6: wear of the seal, then water). So had what
/// a sign shows to be the consequence of the main cause (rule 5).
fn has_a_part(fault: RootCause, main: CauseKind, weighing: &Weighing) -> bool {
    let opened_a_way = |one: &ScoredSign| {
        one.speaks_for(RootCause::Mechanical)
            && one.sign.0.has(Role::WayIn)
            && !one.sign.0.origin.is_empty()
    };
    let is_behind_water = fault == RootCause::Mechanical && main == CauseKind::Ingress;
    let followed = || {
        let steps = order::steps(&weighing.signs, weighing.totals);
        steps.iter().any(|step| step.first.kind() == main && step.then == fault)
    };
    is_supported(fault, &weighing.signs, weighing.totals)
        || followed()
        || (is_behind_water && weighing.signs.iter().any(opened_a_way))
}

/// True if the signs support dated riding on, and the sheet states a first fault that they support
/// for too, with riding on as contributing.
fn is_then_ridden_on(fault: RootCause, cause: &Cause, weighing: &Weighing) -> bool {
    let adds_neglect = cause.contributing.iter().any(|one| one.value == CauseKind::Neglect);
    weighing.verdict.main == CauseKind::Neglect
        && weighing.is_dated()
        && adds_neglect
        && is_supported(fault, &weighing.signs, weighing.totals)
}

/// True if some sign supports a cause, whatever is against it.
pub fn speaks_for_kind(kind: CauseKind, weighing: &Weighing) -> bool {
    RootCause::of(kind).is_some_and(|fault| speaks_at_all(fault, weighing))
}

/// True if some sign of a fault, and not only of good order, supports a cause.
fn speaks_at_all(fault: RootCause, weighing: &Weighing) -> bool {
    // Riding on without a date gives no points, and is still what its signs mean.
    let speaks = |one: &ScoredSign| match fault {
        RootCause::Neglect => one.seen && 0 < one.points.of(fault),
        _ => one.speaks_for(fault),
    };
    weighing.signs.iter().any(|one| speaks(one) && !is_in_order(one))
}
