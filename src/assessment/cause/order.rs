//! Primary before consequence: which of two causes a sign shows to have come first.
//!
//! In: weighed signs; out: [`Step`]s from a cause to the one before it. The rows are cautions and
//! rules 3 to 6 of the table of signs: engineering judgement, no published source.

use super::scores::{Fault, PerCause, is_one_of, weight};
use super::weighing::{Weighed, is_clear};
use crate::sheet::catalogue::Sign;

/// One cause that came before another, and the sign that shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// The earlier cause.
    pub first: Fault,
    /// The one that followed.
    pub then: Fault,
    /// The sign that shows the order; `None` where rule 2 alone does (running on follows a fault).
    pub by: Option<Sign>,
}

/// A row of the table of orders.
struct Row {
    first: Fault,
    then: Fault,
    /// Any of these shows it.
    by: &'static [&'static str],
    /// Any of these leaves it open.
    unless: &'static [&'static str],
}

const ROWS: &[Row] = &[
    // SA22: a cracked casing lets the water in; not where another way in was found.
    Row {
        first: Fault::Mechanical,
        then: Fault::Ingress,
        by: &["SA22"],
        unless: &["SA19", "SA20", "SB10"],
    },
    // SC06: fatigue that starts at a rust pit.
    Row { first: Fault::Ingress, then: Fault::Mechanical, by: &["SC06"], unless: &[] },
    // SE17, SE13, SE12: burnt or dead where water had come; the board is not dry (rule 4).
    Row {
        first: Fault::Ingress,
        then: Fault::Electrical,
        by: &["SE17", "SE13", "SE12"],
        unless: &[],
    },
    // SE16: burnt by blocked mechanics; the electrical fault is the consequence (rule 4).
    Row { first: Fault::Mechanical, then: Fault::Electrical, by: &["SE16"], unless: &[] },
];

/// Every step that the signs show and the earlier cause can bear; two that contradict each other are
/// both left out.
///
/// A strong sign shows it where the earlier cause has six points when what speaks for the consequence
/// is not held against it (water speaks against mechanics, unless it came in through the crack). A
/// weaker one only where the earlier cause has three points as it stands.
pub fn steps(signs: &[Weighed], totals: PerCause<i32>) -> Vec<Step> {
    let shown: Vec<Step> = ROWS.iter().filter_map(|row| step(row, signs, totals)).collect();
    let contradicted = |step: &Step| {
        shown.iter().any(|other| other.first == step.then && other.then == step.first)
    };
    shown.iter().filter(|step| !contradicted(step)).copied().collect()
}

/// The step of a row, where a sign shows it, none leaves it open and its cause can bear it.
fn step(row: &Row, signs: &[Weighed], totals: PerCause<i32>) -> Option<Step> {
    let seen = |refs: &'static [&str]| {
        signs.iter().filter(move |one| one.seen && is_one_of(one.sign, refs))
    };
    let can_bear = |one: &&Weighed| match weight(one.sign) {
        3 => without_consequence(row.first, row.then, signs) >= 6,
        _ => totals.of(row.first) >= 3,
    };
    if seen(row.unless).next().is_some() {
        return None;
    }
    let by = seen(row.by).find(can_bear)?.sign;
    Some(Step { first: row.first, then: row.then, by: Some(by) })
}

/// Points of a cause without those that signs of its consequence hold against it.
fn without_consequence(first: Fault, then: Fault, signs: &[Weighed]) -> i32 {
    let own = signs.iter().map(|one| (one.taken.of(first), one.speaks_for(then)));
    own.filter(|(points, speaks)| *points > 0 || !speaks).map(|(points, _)| points).sum()
}

/// The way from a cause back to the first one: empty where it is the first itself.
///
/// Running on follows whatever first fault is proved by itself (rule 2 and rule 5).
pub fn way_back(from: Fault, signs: &[Weighed], totals: PerCause<i32>) -> Vec<Step> {
    let mut way: Vec<Step> = Vec::new();
    let mut at = from;
    if at == Fault::Neglect {
        let first = Fault::ALL.into_iter().find(|fault| is_proved(*fault, signs, totals));
        if let Some(first) = first {
            way.push(Step { first, then: at, by: None });
            at = first;
        }
    }
    let known = steps(signs, totals);
    while let Some(step) = known.iter().find(|step| step.then == at) {
        let seen_before = step.first == from || way.iter().any(|other| other.then == step.first);
        if seen_before {
            break;
        }
        way.push(*step);
        at = step.first;
    }
    way
}

/// What rule 1 asks for before water is more than pointed to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WaterProof {
    /// Water or its trace inside.
    pub trace: bool,
    /// A way in.
    pub path: bool,
    /// Insulation that came back on drying.
    pub recovery: bool,
}

impl WaterProof {
    /// Looks for the three.
    pub fn of(signs: &[Weighed]) -> Self {
        const TRACE_LINKS: &[&str] =
            &["water", "steel-rust", "board-corrosion", "grease", "hall", "sensor"];
        let trace = |one: &Weighed| {
            let shown = TRACE_LINKS.contains(&one.link) || is_one_of(one.sign, &["SB10", "SB14"]);
            shown && is_clear(one, Fault::Ingress) && one.sign.0.kind != "told"
        };
        let path = |one: &Weighed| {
            (one.link == "path" || is_one_of(one.sign, &["SA22"])) && one.speaks_for(Fault::Ingress)
        };
        let recovery = |one: &Weighed| one.seen && is_one_of(one.sign, &["SE04", "SF03"]);
        Self {
            trace: signs.iter().any(trace),
            path: signs.iter().any(path),
            recovery: signs.iter().any(recovery),
        }
    }

    /// Trace and path, or recovery.
    pub fn holds(self) -> bool {
        (self.trace && self.path) || self.recovery
    }
}

/// True where a first fault stands by itself: at least six points, and rule 1 for water or a mark of
/// overload or local fatigue for mechanics (rule 3). An electrical fault wears nothing out.
fn is_proved(fault: Fault, signs: &[Weighed], totals: PerCause<i32>) -> bool {
    const MARKS: &[&str] = &["SA22", "SC05", "SC07", "SD02", "SD09", "SD10"];
    totals.of(fault) >= 6
        && match fault {
            Fault::Ingress => WaterProof::of(signs).holds(),
            Fault::Mechanical => signs.iter().any(|one| one.seen && is_one_of(one.sign, MARKS)),
            Fault::Electrical | Fault::Neglect => false,
        }
}
