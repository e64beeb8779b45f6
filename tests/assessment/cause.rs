//! The weighing of causes: what every module here builds its cases from.

/// What must hold for any signs in any order.
mod always;
/// Jobs as a repairer would write them down.
pub mod cases;
/// What explains what.
mod explained;
/// Cases made to break it.
mod hostile;
/// What each role of a sign does.
mod roles;
/// What the sheet's typed fields and findings give.
mod sheet;
/// Stated causes and the warnings on them.
mod stated;
/// The cases that stand beside the table of signs.
mod table;
/// The unit or the rest of the bike.
mod triage;

use chrono::NaiveDate;
use splitcase::assessment::cause::evidence::{Evidence, Origin};
use splitcase::assessment::cause::scores::RootCause;
use splitcase::assessment::cause::verdict::Support;
use splitcase::assessment::cause::{Weighing, judge};
use splitcase::sheet::catalogue::{SIGNS, Sign};
use splitcase::sheet::vocabulary::{CauseKind, CheckKind};

fn sign(short: &str) -> Sign {
    let row = SIGNS.iter().find(|row| row.r#ref == short || row.sign == short);
    Sign(row.unwrap_or_else(|| panic!("no sign {short}")))
}

fn with_origin(shorts: &[&str]) -> Vec<(Sign, Origin)> {
    shorts.iter().map(|one| (sign(one), Origin::Bench(CheckKind::RunningNoise))).collect()
}

fn evidence(seen: &[&str], not_seen: &[&str]) -> Evidence {
    let (seen, not_seen) = (with_origin(seen), with_origin(not_seen));
    Evidence { seen, not_seen, ..Evidence::default() }
}

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2025, 12, 20).unwrap()
}

fn of(seen: &[&str]) -> Weighing {
    judge(&evidence(seen, &[]), None, &[])
}

fn dated(seen: &[&str], not_seen: &[&str]) -> Weighing {
    judge(&Evidence { noticed: Some(day()), ..evidence(seen, not_seen) }, None, &[])
}

fn points(weighing: &Weighing) -> [i32; 4] {
    [RootCause::Ingress, RootCause::Neglect, RootCause::Mechanical, RootCause::Electrical]
        .map(|fault| weighing.totals.of(fault))
}

fn says(weighing: &Weighing) -> (Support, CauseKind, Vec<RootCause>) {
    let verdict = &weighing.verdict;
    (verdict.support, verdict.main, verdict.contributing.clone())
}
