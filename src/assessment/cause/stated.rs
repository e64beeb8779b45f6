//! Whether the signs carry the cause that the technician states.
//!
//! In: the sheet's `cause:` and the verdict; out: [`Agreement`]. The stated cause prints in any case;
//! if it is not carried the paper says so by its wording, and `check` warns.

use crate::sheet::vocabulary::{CauseKind, OriginKind};

/// What the technician states, beside what the signs say.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated {
    /// The main cause as stated.
    pub main: CauseKind,
    /// Whether the signs carry it.
    pub agreement: Agreement,
    /// Contributing causes as stated that the signs carry: more for them than against them, a clear
    /// sign of their own, or what opened a way for the water; riding on only if it is dated.
    pub contributing_carried: Vec<CauseKind>,
    /// Contributing causes as stated that no sign shows, or more signs are against.
    pub contributing_not_carried: Vec<CauseKind>,
    /// Running on is stated, but no day is known from which the rider could notice.
    pub neglect_undated: bool,
    /// Running on is stated without damage that needs running time (rule 2).
    pub neglect_bare: bool,
    /// Running on is stated, but the rider came within days of the first sign.
    pub neglect_prompt: bool,
    /// Where the fault comes from, as stated.
    pub origin: Option<StatedOrigin>,
}

/// Where a fault comes from, as stated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StatedOrigin {
    /// The word of the sheet.
    pub kind: OriginKind,
    /// True if it can be stated beside this main cause.
    pub fits: bool,
    /// True if a seen sign supports it.
    pub shown: bool,
}

/// Whether the signs carry a stated cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// They do: *the evidence shows*.
    Supported,
    /// They do not: *in our judgement*.
    Unsupported(Reason),
}

/// Why a stated cause is not carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The signs support another cause, or for no fault.
    OtherCause(CauseKind),
    /// The signs settle nothing.
    SignsSettleNothing,
    /// No sign supports it.
    NoSign,
    /// Stated as open, though one cause is well supported.
    SignsSettleIt(CauseKind),
    /// Stated as faultless without `faultless-on-swap`.
    NotShownFaultless,
}
