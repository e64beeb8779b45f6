//! Primary before consequence: which of two causes a sign shows to have come first.
//!
//! In: weighed signs and the table `orders.yaml`; out: [`Step`]s from a cause to the one before it.
//! Engineering judgement, no published source.

use std::sync::LazyLock;

use serde::Deserialize;

use super::scored_sign::ScoredSign;
use super::scores::{PerCause, RootCause, weight};
use super::site;
use crate::sheet::catalogue::{Sign, embedded};

/// One cause that came before another, and the sign that shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// The earlier cause.
    pub first: RootCause,
    /// The one that followed.
    pub then: RootCause,
    /// The sign that shows the order; `None` if rule 2 alone does (running on follows a fault).
    pub by: Option<Sign>,
}

/// A row of the table of orders.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// The earlier cause.
    pub first: RootCause,
    /// The one that followed.
    pub then: RootCause,
    /// Any of these shows it.
    pub by: Vec<Sign>,
    /// Any of these leaves it open.
    #[serde(default)]
    pub unless: Vec<Sign>,
    /// It must be on the casing half where the water was found.
    #[serde(default, rename = "same-half")]
    pub same_half: bool,
}

/// The table of orders; a sign that the catalogue does not have cannot load.
pub static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| embedded(include_str!("orders.yaml")));

/// Every step that the signs show and the earlier cause can bear; two that contradict each other are
/// both left out.
///
/// A strong sign shows it if the earlier cause has six points when what supports the consequence
/// is not held against it (water is against mechanics, unless it came in through the crack). A
/// weaker one only if the earlier cause has three points as it is.
pub fn steps(signs: &[ScoredSign], totals: PerCause<i32>) -> Vec<Step> {
    let shown: Vec<Step> = ROWS.iter().filter_map(|row| step(row, signs, totals)).collect();
    let contradicted = |step: &Step| {
        shown.iter().any(|other| other.first == step.then && other.then == step.first)
    };
    shown.iter().filter(|step| !contradicted(step)).copied().collect()
}

/// The step of a row, if a sign shows it, none leaves it open and its cause can bear it.
fn step(row: &Row, signs: &[ScoredSign], totals: PerCause<i32>) -> Option<Step> {
    let seen = |names: &[Sign]| -> Vec<&ScoredSign> {
        signs.iter().filter(|one| one.seen && names.contains(&one.sign)).collect()
    };
    let can_bear = |one: &&ScoredSign| match weight(one.sign) {
        3 => without_consequence(row.first, row.then, signs) >= 6,
        _ => totals.of(row.first) >= 3,
    };
    let is_placed =
        |one: &&ScoredSign| !row.same_half || site::is_on_the_half_of_the_water(one, signs);
    let open = seen(&row.unless);
    let is_open = |one: &ScoredSign| {
        open.iter().any(|other| !row.same_half || !site::share_a_part(one, other))
    };
    let shown = seen(&row.by).into_iter().filter(is_placed).find(can_bear)?;
    let step = Step { first: row.first, then: row.then, by: Some(shown.sign) };
    (!is_open(shown)).then_some(step)
}

/// Points of a cause without those that signs of its consequence hold against it.
fn without_consequence(first: RootCause, then: RootCause, signs: &[ScoredSign]) -> i32 {
    let own = signs.iter().map(|one| (one.used_points.of(first), one.speaks_for(then)));
    own.filter(|(points, speaks)| *points > 0 || !speaks).map(|(points, _)| points).sum()
}

/// The way from a cause back to the first one: empty if it is the first itself.
pub fn way_back(from: RootCause, signs: &[ScoredSign], totals: PerCause<i32>) -> Vec<Step> {
    let mut way: Vec<Step> = Vec::new();
    let mut at = from;
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
