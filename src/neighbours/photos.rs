//! Photos of a run that other jobs have too: in this run, in the folder tree, in the archive.
//!
//! ```text
//! library, archive, this run ─► places by digest ─┬─► the same file in two jobs
//!                                                 └─► looks ─► candidates ─► both files laid on each
//!                                                                            other ─► the same picture
//! ```
//!
//! Bounded in candidates and in what is learnt of an archive in one run. Not here: how pictures are
//! compared (photo, assessment) and what is said (problems).

mod learning;
mod places;
pub mod shapes;

use std::path::Path;

use super::{problems, visits};
use crate::assessment::plausibility;
use crate::assessment::recognition::{self, Candidate, Look, Table};
use crate::diagnostic::Diagnostic;
use crate::document;
use crate::intake;
use crate::photo::{self, Facts, PixelBudget, Shade};
use crate::workers;
use places::Places;
use shapes::{Means, OwnPhoto, Pair, Place, digest};

/// Most pairs of files that are laid on each other in one run.
const MOST_PAIRS: usize = 400;

/// Most jobs whose sheets are asked whether a file is in all of them for one unit.
const MOST_ASKED: usize = 8;

/// Most comparisons of looks in one run: 10,000 photos with 10,000.
const MOST_LOOKS: usize = 100_000_000;

/// Compares the photos of a run with those of all other jobs that are known.
pub fn compare(own: &[OwnPhoto], means: &Means<'_>) -> Vec<Diagnostic> {
    if own.is_empty() {
        return Vec::new();
    }
    let mut learnt = learning::Learnt::of(own, means);
    let places = Places::of(own, means.around, &learnt);
    let mut found = same_files(own, &places);
    // What had not changed was compared when it was made.
    if own.iter().any(|photo| photo.look.is_some()) {
        found.extend(same_pictures(own, &places, &learnt.looks(own), means));
    }
    found.extend(learnt.keep(own, means));
    found
}

/// Files with the same bytes in several jobs, those of this run among them.
fn same_files(own: &[OwnPhoto], places: &Places) -> Vec<Diagnostic> {
    let shared = plausibility::shared(&places.all());
    let of_run = shared.iter().filter_map(|one| {
        let first = own.iter().find(|photo| digest(photo) == one.sha256)?;
        let others = places.of_others(&one.sha256, &first.job);
        let is_few = others.len() <= MOST_ASKED;
        let is_one_unit = is_few && others.iter().all(|other| are_one_unit(&first.folder, other));
        Some(match is_one_unit {
            true => problems::same_file_of_unit(&first.shown, one),
            false => problems::same_file(&first.shown, one),
        })
    });
    of_run.collect()
}

/// Different files that show one picture.
fn same_pictures(
    own: &[OwnPhoto],
    places: &Places,
    looks: &[Look],
    means: &Means<'_>,
) -> Vec<Diagnostic> {
    let table = Table::of(looks);
    let n_own = own.len().min(MOST_LOOKS / looks.len().max(1));
    let candidates = workers::map(means.threads, n_own, |at| {
        let Some(look) = &own[at].look else { return Vec::new() };
        let is_other = |known: usize| {
            let known = &looks[known].sha256;
            *known != look.sha256 && places.other(known, own, at).is_some()
        };
        table.candidates(look, &is_other)
    });
    let pairs: Vec<(usize, Candidate)> = candidates
        .into_iter()
        .enumerate()
        .flat_map(|(at, found)| found.into_iter().map(move |one| (at, one)))
        .collect();
    let n_pairs = pairs.len();
    let compared = workers::map(means.threads, n_pairs.min(MOST_PAIRS), |pair| {
        let (at, candidate) = &pairs[pair];
        let place = places.other(&looks[candidate.known].sha256, own, *at)?;
        Some((*at, place, laid(&own[*at], place, candidate, means.budget)?))
    });
    let mut found: Vec<Diagnostic> = likest(compared.into_iter().flatten().collect())
        .into_iter()
        .map(|(at, place, pair)| {
            problems::same_picture(&own[at], place, &pair, are_one_unit(&own[at].folder, place))
        })
        .collect();
    if MOST_PAIRS < n_pairs {
        found.push(problems::too_many_alike(&own[0].shown, MOST_PAIRS));
    }
    if n_own < own.len() {
        found.push(problems::too_many(&own[0].shown, n_own, own.len()));
    }
    found
}

/// A photo of this run by its number, and the photo of another job that it shows.
type Same<'a> = (usize, &'a Place, Pair);

/// Of each photo the likest one of each other job: two shots from one place are told apart by how
/// much of them agrees.
fn likest(mut same: Vec<Same<'_>>) -> Vec<Same<'_>> {
    let agrees = |(_, _, pair): &Same<'_>| (pair.agreement.quarter, pair.agreement.middle);
    same.sort_by(|one, other| {
        (one.0, &one.1.job).cmp(&(other.0, &other.1.job)).then(agrees(other).cmp(&agrees(one)))
    });
    same.dedup_by(|next, first| (next.0, &next.1.job) == (first.0, &first.1.job));
    same
}

/// Lays two files on each other; nothing if they are not one picture, or one cannot be read.
fn laid(
    own: &OwnPhoto,
    place: &Place,
    candidate: &Candidate,
    budget: &PixelBudget,
) -> Option<Pair> {
    let (own, own_facts) = seen(&own.folder.join(&own.name), budget)?;
    let (other, other_facts) = seen(&place.file, budget)?;
    let agreement = own.agreement(&other, candidate.fit)?;
    let is_same = recognition::is_same(&agreement, &own_facts, &other_facts);
    let mirrored = candidate.mirrored;
    is_same.then_some(Pair { agreement, mirrored, own: own_facts, other: other_facts })
}

fn seen(file: &Path, budget: &PixelBudget) -> Option<(Shade, Facts)> {
    let bytes = intake::file::read_photo(file).ok()?;
    photo::shade(&bytes, document::print_size(), budget).ok()
}

/// True if the sheets of two jobs have a serial number in common.
fn are_one_unit(folder: &Path, other: &Place) -> bool {
    let own = visits::serials_of(&folder.join(intake::SHEET));
    let others = visits::serials_of(&other.sheet);
    own.iter().any(|serial| others.contains(serial))
}
