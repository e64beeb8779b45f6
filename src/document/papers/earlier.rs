//! A sheet as it was at an earlier stage of its job: what was typed later is taken off.
//!
//! In: the fields of a sheet and a stage; out: the fields that it had then. So a paper that is made again
//! at a later stage says what it said when it was issued, and nothing that came after.

use super::due::Stage;
use crate::sheet::findings::FindingsSheet;

/// The fields that a sheet had at a stage.
pub fn at(stage: Stage, sheet: &FindingsSheet) -> FindingsSheet {
    let mut then = sheet.clone();
    if stage < Stage::Closed {
        then.outcome = None;
        then.returned = None;
        then.in_short = None;
        if let Some(billing) = &mut then.billing {
            billing.paid = None;
            billing.paid_by = None;
        }
    }
    if stage < Stage::Decided {
        then.decision = None;
        then.work = None;
        then.exchange = None;
        then.ride = None;
        for check in &mut then.bench {
            check.after.clear();
            check.fields.after = None;
            check.fields.states_after.clear();
        }
        for finding in then.strip_down.iter_mut().flat_map(|strip| &mut strip.findings) {
            finding.action = None;
            finding.photos_after.clear();
        }
    }
    if stage < Stage::Offered {
        then.options.clear();
        then.options_valid_to = None;
    }
    if stage < Stage::Opened {
        then.strip_down = None;
        then.cause = None;
        then.bench.clear();
    }
    then
}
