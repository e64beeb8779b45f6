//! The overview as files for other programs: one JSON, and a CSV (RFC 4180) for each of its tables.
//!
//! In: an [`Overview`]; out: file names with their text. Distances are kilometres, shares from 0 to 1.

use super::learned::Overview;
use super::likelihood::{Counts, Likelihood};
use super::quartiles::Quartiles;
use super::scores::{self, Compared};
use super::share::Share;
use crate::failure::Failure;
use crate::spreadsheet::csv;

/// The JSON, for scripts and inside the PDF.
///
/// # Errors
/// It cannot be written, which memory does not refuse.
pub fn json(overview: &Overview) -> Result<String, Failure> {
    let text = serde_json::to_string_pretty(overview);
    text.map(|text| text + "\n").map_err(|error| Failure::new("write the overview", error))
}

/// The tables: name of the file and its text.
///
/// # Errors
/// As of [`json`].
pub fn csvs(overview: &Overview) -> Result<Vec<(&'static str, String)>, Failure> {
    let causes = overview
        .causes
        .iter()
        .map(|one| [&["", "", &one.name].map(str::to_owned)[..], &share(&one.share)].concat());
    let grouped = overview.groups.iter().flat_map(|grouped| {
        grouped.groups.iter().flat_map(|group| {
            group.causes.iter().map(|one| {
                let names = [grouped.by, &group.name, &one.name].map(str::to_owned);
                [&names[..], &share(&one.share)].concat()
            })
        })
    });
    let steps = overview.distance.steps.iter().map(|step| {
        let counts = [step.km.to_string(), step.at_risk.to_string(), step.failures.to_string()];
        [&counts[..], &[step.surviving, step.low, step.high].map(|one| one.to_string())].concat()
    });
    let repairs = overview.repairs.iter().map(|row| {
        [vec![row.kind.clone()], share(&row.came_back).to_vec(), quarters(row.days.as_ref())]
            .concat()
    });
    let costs = overview.costs.iter().map(|row| {
        let head = vec![row.kind.clone(), row.currency.clone()];
        let parts = row.parts.map_or_else(String::new, |parts| parts.to_string());
        [head, quarters(Some(&row.total)), vec![parts], quarters(row.hours.as_ref())].concat()
    });
    let days = overview
        .days
        .iter()
        .map(|row| [vec![row.kind.clone()], quarters(Some(&row.days))].concat());
    let of_share = ["jobs", "of", "share", "low", "high"];
    let with = |head: &[&'static str], tail: &[&'static str]| [head, tail].concat();
    let jobs = ["jobs", "lower-quarter", "median", "upper-quarter"];
    Ok(vec![
        ("causes.csv", csv(&with(&["by", "group", "cause"], &of_share), causes.chain(grouped))?),
        ("distance.csv", csv(&["km", "at-risk", "failures", "surviving", "low", "high"], steps)?),
        (
            "repairs.csv",
            csv(&with(&["kind", "came-back", "of", "share", "low", "high"], &jobs), repairs)?,
        ),
        (
            "costs.csv",
            csv(
                &[
                    &["kind", "currency"][..],
                    &jobs,
                    &[
                        "share-of-parts",
                        "jobs-with-hours",
                        "hours-lower-quarter",
                        "hours-median",
                        "hours-upper-quarter",
                    ],
                ]
                .concat(),
                costs,
            )?,
        ),
        ("days.csv", csv(&with(&["kind"], &jobs), days)?),
    ])
}

/// The compared scores: the rows that would change as a table, and as they would stand in a profile.
///
/// # Errors
/// As of [`json`].
pub fn scores(compared: &Compared) -> Result<[(&'static str, String); 2], Failure> {
    let rows = compared.rows.iter().map(|row| {
        let Counts { seen_with, with, seen_without, without } = row.counts;
        let Likelihood { ratio, low, high } = row.likelihood;
        let names = [row.sign, row.cause].map(str::to_owned);
        let scores = [row.score, row.proposed].map(|one| one.to_string());
        let counts = [seen_with, with, seen_without, without].map(|one| one.to_string());
        [&names[..], &scores, &counts, &[ratio, low, high].map(|one| one.to_string())].concat()
    });
    let head = [
        "sign",
        "cause",
        "score",
        "proposed",
        "seen-with",
        "with",
        "seen-without",
        "without",
        "ratio",
        "low",
        "high",
    ];
    Ok([("scores.csv", csv(&head, rows)?), ("scores-proposed.yaml", scores::proposal(compared))])
}

fn share(share: &Share) -> [String; 5] {
    let part = share.count as f64 / share.of as f64;
    let ends = [part, share.low, share.high].map(|one| one.to_string());
    let [part, low, high] = ends;
    [share.count.to_string(), share.of.to_string(), part, low, high]
}

fn quarters(quarters: Option<&Quartiles>) -> Vec<String> {
    quarters.map_or_else(
        || vec![String::new(); 4],
        |one| {
            let figures = [one.lower, one.median, one.upper].map(|one| one.to_string());
            [vec![one.count.to_string()], figures.to_vec()].concat()
        },
    )
}
