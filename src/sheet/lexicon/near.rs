//! The words of one list that come nearest to one that is not in it, for "did you mean".

use super::entry::Entry;
use super::index::Index;
use crate::sheet::shape::Choice;

/// Likeness from which a word may be meant at all.
const LIKE: f64 = 0.35;
/// How far behind the nearest another one may be and still be offered.
const BEHIND: f64 = 0.2;
/// Likeness from which a word is as good as named, so that others would only distract.
const NAMED: f64 = 0.95;
const BEHIND_NAMED: f64 = 0.16;

/// The words that come nearest, the nearest first, at most `most`; none if nothing is near.
pub fn nearest(kind: &str, typed: &str, choices: &[Choice], most: usize) -> Vec<String> {
    let entries = choices.iter().map(|choice| Entry::of(kind, choice).spellings());
    let (hits, known) = Index::of(entries).find(typed);
    let best = hits.first().map_or(0.0, |hit| hit.likeness);
    let behind = if NAMED <= best { BEHIND_NAMED } else { BEHIND };
    let is_near = |likeness: f64| LIKE <= likeness * known && best - behind <= likeness;
    let near = hits.iter().filter(|hit| is_near(hit.likeness));
    near.filter_map(|hit| Some(choices.get(hit.at)?.word.clone())).take(most).collect()
}
