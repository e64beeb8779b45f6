//! What follows from all cases together: shares, distances, repairs that held, costs, days.
//!
//! In: cases; out: [`Overview`], in the order in which it is read. Nothing in it names a person or a job.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use super::case::Case;
use super::held::{self, Held};
use super::quartiles::Quartiles;
use super::scores::{self, Compared, Observed};
use super::share::{FEWEST_JOBS, Share};
use super::survival::{self, Observation, Step};
use super::weibull::Weibull;
use crate::assessment::cause::scores::HouseScore;
use crate::sheet::vocabulary::CauseKind;

/// Fewest units, and failures among them, that a curve is drawn of. (Workshop judgement.)
pub const FEWEST_UNITS: usize = 10;
/// See [`FEWEST_UNITS`].
pub const FEWEST_FAILURES: usize = 5;

/// All of it.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Overview {
    /// What it rests on.
    pub jobs: Jobs,
    /// Causes that were stated, the most frequent first.
    pub causes: Vec<Named>,
    /// What was not explained, of all closed jobs.
    pub unexplained: Vec<Named>,
    /// Causes by model, use and washing habit.
    pub groups: Vec<Grouped>,
    /// How far units run before they first fail.
    pub distance: Distance,
    /// Repairs by kind, and units that came back.
    pub repairs: Vec<Held>,
    /// Bills by kind of work and currency.
    pub costs: Vec<Cost>,
    /// Days from arrival to return by kind of work.
    pub days: Vec<Days>,
    /// The scores of signs against the stated causes, if that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scores: Option<Compared>,
}

/// The jobs that were read.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Jobs {
    /// With an outcome.
    pub closed: usize,
    /// Without one yet.
    pub open: usize,
    /// Whose sheets cannot be used.
    pub unread: usize,
    /// Day of the first arrival of a closed job.
    pub from: Option<NaiveDate>,
    /// Day of the last one.
    pub to: Option<NaiveDate>,
}

/// A share with its name.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Named {
    /// A word of the sheet: `ingress`.
    pub name: String,
    /// How many.
    pub share: Share,
}

/// The causes of jobs that have something in common.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Grouped {
    /// What they have in common: `model`, `used-for`, `washed-with`.
    pub by: &'static str,
    /// Its groups, the largest first.
    pub groups: Vec<Group>,
    /// Groups of fewer than [`FEWEST_JOBS`] jobs, which say nothing by themselves.
    pub small: usize,
    /// Jobs in those.
    pub jobs_in_small: usize,
}

/// One group.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Group {
    /// The model, or a word of the sheet.
    pub name: String,
    /// Its causes, the most frequent first.
    pub causes: Vec<Named>,
}

/// Distances to the first failure.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Distance {
    /// Units with a serial number and a distance.
    pub units: usize,
    /// Those that had failed.
    pub failures: usize,
    /// The curve; empty if there are too few of either.
    pub steps: Vec<Step>,
    /// Kilometres by which half had failed.
    pub median_km: Option<f64>,
    /// A distribution through them.
    pub weibull: Option<Weibull>,
}

/// Bills of a kind of work.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Cost {
    /// A word of the sheet: `overhaul`.
    pub kind: String,
    /// The currency.
    pub currency: String,
    /// The bills, with tax.
    pub total: Quartiles,
    /// Share of parts in what was billed for parts and work.
    pub parts: Option<f64>,
    /// Hours of work.
    pub hours: Option<Quartiles>,
}

/// Days of a kind of work.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Days {
    /// A word of the sheet: `overhaul`.
    pub kind: String,
    /// Days from arrival to return.
    pub days: Quartiles,
}

/// What all cases say together, and of the scores in force if they are given.
pub fn learn(
    mut cases: Vec<Case>,
    open: usize,
    unread: usize,
    scores: Option<&[HouseScore]>,
) -> Overview {
    cases.sort_by(|a, b| (a.arrived, &a.number).cmp(&(b.arrived, &b.number)));
    let day = |case: Option<&Case>| case.map(|case| case.arrived);
    let (from, to) = (day(cases.first()), day(cases.last()));
    let jobs = Jobs { closed: cases.len(), open, unread, from, to };
    let all: Vec<&Case> = cases.iter().collect();
    let observed: Vec<Observed> = cases.iter().filter_map(|case| case.observed.clone()).collect();
    Overview {
        jobs,
        causes: causes(&all),
        unexplained: unexplained(&cases),
        groups: groups(&cases),
        distance: distance(&cases),
        repairs: held::held(&cases),
        costs: costs(&cases),
        days: days_by_kind(&cases),
        scores: scores.map(|house| scores::compare(&observed, house)),
    }
}

/// The stated causes of cases, the most frequent first.
fn causes(cases: &[&Case]) -> Vec<Named> {
    let stated: Vec<CauseKind> = cases.iter().filter_map(|case| case.cause).collect();
    let named = CauseKind::ALL.iter().filter_map(|cause| {
        let count = stated.iter().filter(|one| *one == cause).count();
        let share = Share::of(count, stated.len()).filter(|_| 0 < count)?;
        Some(Named { name: cause.word().to_owned(), share })
    });
    let mut named: Vec<Named> = named.collect();
    named.sort_by_key(|one| std::cmp::Reverse(one.share.count));
    named
}

fn unexplained(cases: &[Case]) -> Vec<Named> {
    let names_a_fault = |case: &Case| {
        !matches!(case.cause, None | Some(CauseKind::Undetermined | CauseKind::NoFaultFound))
    };
    let counts = [
        (
            "no-fault-found",
            cases.iter().filter(|one| one.cause == Some(CauseKind::NoFaultFound)).count(),
        ),
        (
            "undetermined",
            cases.iter().filter(|one| one.cause == Some(CauseKind::Undetermined)).count(),
        ),
        ("judged", cases.iter().filter(|one| names_a_fault(one) && !one.is_carried).count()),
        ("no-cause-stated", cases.iter().filter(|one| one.cause.is_none()).count()),
    ];
    let named = counts.into_iter().filter_map(|(name, count)| {
        Some(Named { name: name.to_owned(), share: Share::of(count, cases.len())? })
    });
    named.collect()
}

fn groups(cases: &[Case]) -> Vec<Grouped> {
    let model = |case: &Case| case.model.clone().into_iter().collect::<Vec<String>>();
    let uses = |case: &Case| case.uses.iter().map(|one| one.word().to_owned()).collect();
    let washing =
        |case: &Case| case.washing.iter().map(|one| one.word().to_owned()).collect::<Vec<String>>();
    vec![
        grouped("model", cases, &model),
        grouped("used-for", cases, &uses),
        grouped("washed-with", cases, &washing),
    ]
}

fn grouped(by: &'static str, cases: &[Case], names: &dyn Fn(&Case) -> Vec<String>) -> Grouped {
    let mut members: BTreeMap<String, Vec<&Case>> = BTreeMap::new();
    for case in cases.iter().filter(|case| case.cause.is_some()) {
        for name in names(case) {
            members.entry(name).or_default().push(case);
        }
    }
    let (large, small): (Vec<_>, Vec<_>) =
        members.into_iter().partition(|(_, cases)| FEWEST_JOBS <= cases.len());
    let jobs_in_small = small.iter().map(|(_, cases)| cases.len()).sum();
    let mut large: Vec<(String, Vec<&Case>)> = large;
    large.sort_by_key(|(_, cases)| std::cmp::Reverse(cases.len()));
    let groups = large.into_iter().map(|(name, cases)| Group { name, causes: causes(&cases) });
    Grouped { by, groups: groups.collect(), small: small.len(), jobs_in_small }
}

/// One row a unit: the distance of its first failure or, if it never failed here, of its last visit.
fn distance(cases: &[Case]) -> Distance {
    let mut units: BTreeMap<&str, Observation> = BTreeMap::new();
    for case in cases {
        let (Some(serial), Some(km)) = (&case.came, case.km) else { continue };
        let now = Observation { at: km, failed: case.failed };
        let unit = units.entry(serial).or_insert(now);
        if !unit.failed && unit.at < km {
            *unit = now;
        }
    }
    let units: Vec<Observation> = units.into_values().collect();
    let failures = units.iter().filter(|unit| unit.failed).count();
    let is_enough = FEWEST_UNITS <= units.len() && FEWEST_FAILURES <= failures;
    let steps = if is_enough { survival::kaplan_meier(&units) } else { Vec::new() };
    let (median_km, weibull) = (survival::median(&steps), Weibull::fit(&units, &steps));
    Distance { units: units.len(), failures, steps, median_km, weibull }
}

/// Cases by their kind of work, in the order of the alphabet.
fn by_kind(cases: &[Case]) -> BTreeMap<&'static str, Vec<&Case>> {
    let mut kinds: BTreeMap<&'static str, Vec<&Case>> = BTreeMap::new();
    for case in cases {
        kinds.entry(case.kind.unwrap_or(case.outcome.word())).or_default().push(case);
    }
    kinds
}

fn costs(cases: &[Case]) -> Vec<Cost> {
    let mut rows = Vec::new();
    for (kind, cases) in by_kind(cases) {
        let mut currencies: BTreeMap<&str, Vec<&super::case::Charged>> = BTreeMap::new();
        for charged in cases.iter().filter_map(|case| case.charged.as_ref()) {
            currencies.entry(&charged.currency).or_default().push(charged);
        }
        for (currency, bills) in currencies {
            let figures = |of: fn(&super::case::Charged) -> f64| -> Vec<f64> {
                bills.iter().map(|bill| of(bill)).collect()
            };
            let Some(total) = Quartiles::of(&figures(|bill| bill.total)) else { continue };
            let parts: f64 = figures(|bill| bill.parts).iter().sum();
            let both = parts + figures(|bill| bill.labour).iter().sum::<f64>();
            let hours: Vec<f64> =
                figures(|bill| bill.hours).into_iter().filter(|hours| 0.0 < *hours).collect();
            rows.push(Cost {
                kind: kind.to_owned(),
                currency: currency.to_owned(),
                total,
                parts: (0.0 < both).then_some(parts / both),
                hours: Quartiles::of(&hours),
            });
        }
    }
    rows
}

fn days_by_kind(cases: &[Case]) -> Vec<Days> {
    let rows = by_kind(cases).into_iter().filter_map(|(kind, cases)| {
        let days = cases.iter().filter_map(|case| Some((case.returned? - case.arrived).num_days()));
        let days: Vec<f64> = days.filter(|days| 0 <= *days).map(|days| days as f64).collect();
        Some(Days { kind: kind.to_owned(), days: Quartiles::of(&days)? })
    });
    rows.collect()
}
