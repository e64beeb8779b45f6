//! How far a job is, by its sheet alone, and what a paper still lacks there.
//!
//! In: a sheet; out: its [`Stage`], and the names of fields as they are typed. Which paper belongs to
//! which stage is `papers`.

use crate::sheet::findings::FindingsSheet;
use crate::sheet::vocabulary::OptionKind;

/// How far a job is. Each stage has its papers, and an earlier one's were issued before.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// It came in, and nobody has opened it.
    Arrived,
    /// It was opened, and nothing is offered yet.
    Opened,
    /// The owner has a choice to make.
    Offered,
    /// The owner has decided, or the work has begun.
    Decided,
    /// It has an outcome.
    Closed,
}

/// How far a job is. The last thing that was typed decides, whatever was left out before it.
pub fn stage(sheet: &FindingsSheet) -> Stage {
    let has_begun = sheet.decision.is_some()
        || sheet.work.is_some()
        || sheet.exchange.is_some()
        || sheet.ride.is_some()
        || sheet.returned.is_some();
    if sheet.outcome.is_some() {
        Stage::Closed
    } else if has_begun {
        Stage::Decided
    } else if !sheet.options.is_empty() {
        Stage::Offered
    } else if sheet.strip_down.is_some() {
        Stage::Opened
    } else {
        Stage::Arrived
    }
}

/// What a paper lacks that needs no more than every sheet has.
pub fn nothing(_: &FindingsSheet) -> Vec<&'static str> {
    Vec::new()
}

/// What a paper on the options lacks.
pub fn options(sheet: &FindingsSheet) -> Vec<&'static str> {
    if sheet.options.is_empty() { vec!["options"] } else { Vec::new() }
}

/// What a paper on a closed job lacks: the outcome, and before it what the outcome will rest on, by
/// what the owner decided.
pub fn outcome(sheet: &FindingsSheet) -> Vec<&'static str> {
    if sheet.outcome.is_some() {
        return Vec::new();
    }
    let decided = sheet.decision.as_ref().map(|decision| decision.option.value);
    let basis = match decided {
        None => None,
        Some(OptionKind::Exchange | OptionKind::NewUnit) => {
            Some(("exchange", sheet.exchange.is_some()))
        }
        Some(OptionKind::ReturnAsItIs) => Some(("strip-down", sheet.strip_down.is_some())),
        Some(OptionKind::SingleBearing | OptionKind::Overhaul | OptionKind::OverhaulPlusParts) => {
            Some(("work", sheet.work.is_some()))
        }
    };
    let basis = basis.filter(|(_, is_there)| !is_there).map(|(field, _)| field);
    basis.into_iter().chain(["outcome"]).collect()
}
