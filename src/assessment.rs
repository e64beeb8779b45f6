//! The assessment stage: what follows from a sheet and its photos.
//!
//! In: [`Sheet`] and [`Workshop`]; out: [`Assessment`]. A value that cannot be computed is absent with
//! its reason; nothing is guessed and nothing is worded here.

pub mod cause;
pub mod cost;
pub mod problems;

use crate::diagnostic::{Diagnostic, Problems};
use crate::sheet::{Sheet, Workshop};
use cause::Weighing;
use cause::stated::{Agreement, Reason};
use cost::Bill;

/// What follows from a sheet.
pub struct Assessment {
    /// What is charged, where the sheet and the rate card tell.
    pub bill: Option<Bill>,
    /// What the signs say of the cause.
    pub weighing: Weighing,
}

/// Assesses a job.
pub fn assess(sheet: &Sheet, workshop: &Workshop, problems: &mut Problems) -> Assessment {
    let weighing = cause::weigh(&sheet.fields, Vec::new(), &[]);
    problems.extend(doubts(sheet, &weighing));
    Assessment { bill: cost::bill(sheet, workshop, problems), weighing }
}

/// Where the stated cause goes further than the signs; the statement stands all the same.
fn doubts(sheet: &Sheet, weighing: &Weighing) -> Vec<Diagnostic> {
    let Some((cause, stated)) = sheet.fields.cause.as_ref().zip(weighing.stated.as_ref()) else {
        return Vec::new();
    };
    let place = sheet.place(&cause.main.span);
    let mut doubts = Vec::new();
    if let Agreement::NotCarried(reason) = stated.agreement {
        doubts.push(match reason {
            Reason::OtherCause(other) => {
                problems::speaks_for_other(place.clone(), stated.main, other, weighing)
            }
            Reason::SignsSettleIt(carried) => {
                problems::signs_settle_it(place.clone(), carried, weighing)
            }
            Reason::SignsSettleNothing => {
                problems::signs_settle_nothing(place.clone(), stated.main, weighing)
            }
            Reason::NoSign => problems::no_sign(place.clone(), stated.main),
            Reason::NotShownFaultless => problems::not_shown_faultless(place.clone()),
        });
    }
    let bare = stated.contributing_not_carried.iter();
    doubts.extend(bare.map(|cause| problems::contributing_bare(place.clone(), *cause)));
    if stated.neglect_undated {
        doubts.push(problems::neglect_undated(place));
    }
    let unproven = weighing.unproven.iter();
    doubts.extend(unproven.map(|one| problems::no_evidence(sheet.place(&one.span), one.sign)));
    doubts
}
