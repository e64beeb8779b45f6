//! Why a unit failed: a transparent weighing of the signs, and how it agrees with the technician.
//!
//! In: a findings sheet, signs that other stages found, a workshop's own scores; out: [`Weighing`],
//! in which every point of every total can be traced to its sign. Nothing is worded here, and the
//! technician's stated cause is never changed.

mod compare;
pub mod continued_use;
pub mod doubts;
pub mod evidence;
pub mod order;
pub mod origins;
mod outcome;
pub mod proof;
pub mod scored_sign;
pub mod scores;
pub mod site;
pub mod stated;
pub mod triage;
pub mod verdict;
pub mod water;
pub mod weighing;

use crate::sheet::catalogue::Sign;
use crate::sheet::catalogue::sign::Role;
use crate::sheet::findings::{Cause, FindingsSheet};
use evidence::{Evidence, Origin};
use scores::{HouseScore, Scale};

pub use outcome::Weighing;

/// Weighs the causes of a job. `extra` are signs that other stages found, such as the bench.
pub fn weigh(sheet: &FindingsSheet, extra: Vec<(Sign, Origin)>, house: &[HouseScore]) -> Weighing {
    judge(&Evidence::gather(sheet, extra), sheet.cause.as_ref(), house)
}

/// Weighs evidence that is already gathered.
pub fn judge(evidence: &Evidence, cause: Option<&Cause>, house: &[HouseScore]) -> Weighing {
    let scale = Scale { house };
    let mut signs = weighing::gather(evidence, scale);
    let continued_use = continued_use::continued_use(&signs, evidence);
    weighing::count(&mut signs, continued_use);
    let totals = weighing::totals(&signs);
    let verdict = verdict::verdict(&signs, totals, continued_use);
    let safety = signs.iter().filter(|one| one.seen && one.sign.0.has(Role::Safety));
    let safety = safety.map(|one| one.sign).collect();
    let mut weighing = Weighing {
        totals,
        ranking: verdict::ranking(totals),
        verdict,
        origins: origins::origins(&signs),
        noticing: evidence.noticing,
        house_values: signs.iter().any(|one| scale.is_house_value(one.sign)),
        signs,
        stated: None,
        continued_use,
        safety,
        beside_no_fault: Vec::new(),
        unproven: Vec::new(),
    };
    weighing.beside_no_fault = weighing.beside_no_fault();
    weighing.unproven = proof::unproven(&weighing.signs, evidence);
    weighing.stated = cause.map(|cause| compare::stated(cause, &weighing));
    weighing
}
