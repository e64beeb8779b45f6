//! The parts of a job as lists of names: by condition, by what was done.
//!
//! In: findings and words; out: [`Names`]. How a list becomes short is `naming`.

use serde::Serialize;

use super::derived;
use super::naming;
use super::signs;
use crate::document::wording::Wording;
use crate::sheet::findings::Finding;
use crate::sheet::vocabulary::{Action, Condition};

/// Most sound parts that page 1 names beside harmed ones.
const MOST_SOUND: usize = 3;

/// Names of parts by condition or by what was done, with their articles, gathered into few.
#[derive(Debug, Serialize)]
pub(super) struct Names {
    sound: Vec<String>,
    not_examined: Vec<String>,
    /// Everything replaced or added, for one sentence.
    new_in_short: Vec<String>,
    /// Replaced, by the condition in which it was found.
    new_for_harmed: Vec<String>,
    new_for_sound: Vec<String>,
    new_unseen: Vec<String>,
    repaired: Vec<String>,
    cleaned: Vec<String>,
    added: Vec<String>,
    resealed: Vec<String>,
    coated: Vec<String>,
    tested: Vec<String>,
}

/// The parts of a kind, each once, in the order of the sheet.
fn parts_of(findings: &[Finding], is_one: impl Fn(&Finding) -> bool) -> Vec<&Finding> {
    naming::distinct(findings.iter().filter(|finding| is_one(finding)))
}

/// How many parts are of a kind.
pub(super) fn count(findings: &[Finding], is_one: impl Fn(&Finding) -> bool) -> usize {
    parts_of(findings, is_one).len()
}

/// The names of a job.
pub(super) fn of(findings: &[Finding], wording: &Wording) -> Names {
    let named = |most: usize, is_one: &dyn Fn(&Finding) -> bool| {
        naming::gathered(&parts_of(findings, is_one), most, wording)
    };
    let done = |action| named(naming::MOST, &|one| one.action == Some(action));
    let renewed = |is_one: &dyn Fn(&Finding) -> bool| {
        named(naming::MOST, &|one| one.action == Some(Action::Replaced) && is_one(one))
    };
    let found = |condition| move |one: &Finding| one.condition == condition;
    let is_harmed = findings.iter().any(signs::is_harmed);
    let most_sound = if is_harmed { MOST_SOUND } else { naming::MOST };
    let is_new = |one: &Finding| matches!(one.action, Some(Action::Replaced | Action::Added));
    Names {
        sound: named(most_sound, &found(Condition::Sound)),
        not_examined: named(naming::MOST, &found(Condition::NotExamined)),
        // Grease is not a part that counts beside others.
        new_in_short: match named(2, &|one| is_new(one) && !derived::is_grease(one)) {
            none if none.is_empty() => named(2, &is_new),
            some => some,
        },
        new_for_harmed: renewed(&signs::is_harmed),
        new_for_sound: renewed(&found(Condition::Sound)),
        new_unseen: renewed(&found(Condition::NotExamined)),
        repaired: done(Action::Repaired),
        cleaned: done(Action::Cleaned),
        added: done(Action::Added),
        resealed: done(Action::Resealed),
        coated: done(Action::Coated),
        tested: done(Action::Tested),
    }
}
