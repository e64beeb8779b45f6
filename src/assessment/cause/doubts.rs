//! What to report if the stated cause goes further than the signs; it is printed as stated.
//!
//! In: a sheet and its weighing; out: warnings at their places.

use super::compare;
use super::outcome::Weighing;
use super::scores::RootCause;
use super::stated::{Agreement, Reason};
use super::triage::{Site as Elsewhere, Suspect, Triage};
use crate::assessment::problems::cause as problems;
use crate::diagnostic::Diagnostic;
use crate::sheet::Sheet;

/// Every doubt, in the order of what it is about.
pub fn doubts(sheet: &Sheet, weighing: &Weighing, triage: Option<&Triage>) -> Vec<Diagnostic> {
    let Some((cause, stated)) = sheet.fields.cause.as_ref().zip(weighing.stated.as_ref()) else {
        return Vec::new();
    };
    let place = sheet.place(&cause.main.span);
    let mut doubts = Vec::new();
    if let Agreement::Unsupported(reason) = stated.agreement {
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
    let is_elsewhere =
        triage.is_some_and(|triage| triage.likelier == Suspect::Only(Elsewhere::ElsewhereOnBike));
    // A note on the cause says what came of looking there.
    if is_elsewhere && cause.note.is_none() && RootCause::of(stated.main).is_some() {
        doubts.push(problems::elsewhere_on_bike(place.clone(), stated.main));
    }
    let bare = cause.contributing.iter();
    let bare = bare.filter(|one| stated.contributing_not_carried.contains(&one.value));
    doubts.extend(bare.map(|one| {
        let place = sheet.place(&one.span);
        match compare::speaks_for_kind(one.value, weighing) {
            true => problems::contributing_outweighed(place, one.value, weighing),
            false => problems::contributing_bare(place, one.value),
        }
    }));
    if stated.neglect_bare {
        doubts.push(problems::neglect_bare(place.clone()));
    }
    if stated.neglect_prompt {
        doubts.push(problems::neglect_prompt(place.clone()));
    }
    if stated.neglect_undated {
        doubts.push(problems::neglect_undated(place));
    }
    if let Some((origin, stated)) = cause.origin.as_ref().zip(stated.origin) {
        let place = sheet.place(&origin.span);
        if !stated.fits {
            doubts.push(problems::origin_elsewhere(place, stated.kind, cause.main.value));
        } else if !stated.shown {
            doubts.push(problems::origin_bare(place, stated.kind));
        }
    }
    let unproven = weighing.unproven.iter();
    doubts.extend(unproven.map(|one| problems::no_evidence(sheet.place(&one.span), one.sign)));
    doubts
}
