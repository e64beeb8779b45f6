//! Whether the signs carry the cause that the technician states.
//!
//! In: the sheet's `cause:` and the verdict; out: [`Agreement`]. The stated cause prints in any case;
//! where it is not carried the paper says so by its wording, and `check` warns.

use super::Weighing;
use super::ran_on::RanOn;
use super::scores::Fault;
use super::verdict::{Support, is_in_order};
use crate::sheet::findings::Cause;
use crate::sheet::vocabulary::CauseKind;

/// What the technician states, beside what the signs say.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated {
    /// The main cause as stated.
    pub main: CauseKind,
    /// Whether the signs carry it.
    pub agreement: Agreement,
    /// Contributing causes as stated that no sign shows.
    pub contributing_not_carried: Vec<CauseKind>,
    /// Running on is stated, but no day is known from which the rider could notice.
    pub neglect_undated: bool,
    /// Running on is stated without damage that needs running time (rule 2).
    pub neglect_bare: bool,
}

/// Whether the signs carry a stated cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// They do: *the evidence shows*.
    Carried,
    /// They do not: *in our judgement*.
    NotCarried(Reason),
}

/// Why a stated cause is not carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The signs speak for another cause, or for no fault.
    OtherCause(CauseKind),
    /// The signs settle nothing.
    SignsSettleNothing,
    /// No sign speaks for it.
    NoSign,
    /// Stated as open, though one cause is well supported.
    SignsSettleIt(CauseKind),
    /// Stated as faultless without `faultless-on-swap`.
    NotShownFaultless,
}

/// Compares the stated cause with the signs.
pub fn stated(cause: &Cause, weighing: &Weighing) -> Stated {
    let main = cause.main.value;
    let not_carried =
        |kind: &CauseKind| Fault::of(*kind).is_some_and(|fault| !speaks_at_all(fault, weighing));
    let contributing = cause.contributing.iter().map(|one| one.value);
    let says_neglect = contributing.clone().chain([main]).any(|kind| kind == CauseKind::Neglect);
    Stated {
        main,
        agreement: agreement(main, weighing),
        contributing_not_carried: contributing.filter(not_carried).collect(),
        neglect_undated: says_neglect && weighing.ran_on == RanOn::Undated,
        neglect_bare: says_neglect && weighing.ran_on == RanOn::No,
    }
}

fn agreement(main: CauseKind, weighing: &Weighing) -> Agreement {
    let verdict = &weighing.verdict;
    let no = Agreement::NotCarried;
    match Fault::of(main) {
        _ if verdict.main == main => Agreement::Carried,
        // Where several causes are carried, a person may weigh their order otherwise.
        Some(fault)
            if verdict.support == Support::Mixed && verdict.contributing.contains(&fault) =>
        {
            Agreement::Carried
        }
        Some(fault) if !speaks_at_all(fault, weighing) => no(Reason::NoSign),
        Some(_) if verdict.main == CauseKind::Undetermined => no(Reason::SignsSettleNothing),
        Some(_) => no(Reason::OtherCause(verdict.main)),
        None if main == CauseKind::NoFaultFound => no(Reason::NotShownFaultless),
        // To leave it open is right unless one cause is well supported or the swap was faultless.
        None => match verdict.support {
            Support::WellSupported | Support::NoFaultFound => {
                no(Reason::SignsSettleIt(verdict.main))
            }
            _ => Agreement::Carried,
        },
    }
}

/// True where some sign of a fault, and not only of good order, speaks for a cause.
fn speaks_at_all(fault: Fault, weighing: &Weighing) -> bool {
    weighing.signs.iter().any(|one| one.speaks_for(fault) && !is_in_order(one))
}
