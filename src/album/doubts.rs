//! What is implausible about the photos of a sheet, each doubt at the first of its photos.

use super::place::place;
use crate::assessment::plausibility::{self, Seen};
use crate::diagnostic::Diagnostic;
use crate::intake::JobFolder;
use crate::photo::NamedPhoto;
use crate::sheet::Sheet;

/// Most further photos that one doubt points at; its message counts all.
const MOST_OTHERS: usize = 3;

/// The doubts about the photos.
pub(super) fn doubts(folder: &JobFolder, sheet: &Sheet, photos: &[NamedPhoto]) -> Vec<Diagnostic> {
    let seen: Vec<Seen<'_>> = photos.iter().map(|one| Seen::of(&one.name, &one.photo)).collect();
    let arrival = Some(sheet.fields.arrival.date.0);
    let returned = sheet.fields.returned.as_ref().map(|date| date.0);
    let doubts = plausibility::judge(&seen, arrival, returned);
    let place = |at: usize| photos.get(at).map(|one| place(folder, Some(sheet), &one.name));
    let reported = doubts.iter().filter_map(|doubt| {
        let photos = doubt.photos();
        let (first, others) = photos.split_first()?;
        let problem = Diagnostic::warning(doubt.code(), place(*first)?, doubt.message(&seen))
            .hint(doubt.hint());
        let others = others.iter().take(MOST_OTHERS).filter_map(|at| place(*at));
        Some(others.fold(problem, |problem, other| problem.also(other, "and this one")))
    });
    reported.collect()
}
