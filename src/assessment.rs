//! The assessment stage: what follows from a sheet and its photos.
//!
//! In: [`Sheet`] and [`Workshop`]; out: [`Assessment`]. A value that cannot be computed is absent with
//! its reason; nothing is guessed and nothing is worded here.

pub mod bench;
pub mod cause;
pub mod cost;
pub mod problems;

use crate::diagnostic::{Diagnostic, Problems};
use crate::sheet::{Sheet, Workshop};
use bench::input::Input;
use bench::line::Line;
use bench::own::Own;
use bench::torque::Screws;
use cause::Weighing;
use cause::stated::{Agreement, Reason};
use cost::Bill;

/// What follows from a sheet.
pub struct Assessment {
    /// What is charged, where the sheet and the rate card tell.
    pub bill: Option<Bill>,
    /// What the signs say of the cause.
    pub weighing: Weighing,
    /// Bench checks and torques, each figure with its limit and verdict.
    pub bench: Vec<Line>,
}

/// Assesses a job.
pub fn assess(sheet: &Sheet, workshop: &Workshop, problems: &mut Problems) -> Assessment {
    let weighing = cause::weigh(&sheet.fields, Vec::new(), &[]);
    problems.extend(doubts(sheet, &weighing));
    Assessment {
        bill: cost::bill(sheet, workshop, problems),
        weighing,
        bench: bench_lines(sheet, workshop, problems),
    }
}

/// The lines of every bench check and of every torque, in the order of the sheet.
fn bench_lines(sheet: &Sheet, workshop: &Workshop, problems: &mut Problems) -> Vec<Line> {
    let fields = &sheet.fields;
    let own = Own::of(&workshop.fields, fields.unit.model.as_ref().map(|model| model.0.as_str()));
    let mut lines = Vec::new();
    for check in &fields.bench {
        let found = bench::run(&Input::from(check), &own);
        let place = sheet.place(&check.check.span);
        // One check may have several figures that lack the same.
        let lacks = found.iter().find_map(|line| problems::undetermined(place.clone(), line));
        problems.extend(lacks);
        lines.extend(found);
    }
    for torque in fields.work.iter().flat_map(|work| &work.torque) {
        let screws = Screws {
            screws: torque.screws.0.clone(),
            set: torque.set.0.clone(),
            thread: torque.thread.as_ref().map(|thread| thread.0.clone()),
            friction: None,
        };
        lines.push(bench::torque::run(&screws, &own));
    }
    lines
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
