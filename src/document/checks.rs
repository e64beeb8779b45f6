//! What keeps papers of a job from being written, seen before they are: letters, language, words.
//!
//! In: sheet, profile and press; out: problems.

use super::fonts;
use super::material;
use super::press::Press;
use super::problems;
use crate::diagnostic::{Diagnostic, Place};
use crate::sheet::{ProfileFile, Sheet, issued};

/// Texts of sheet and profile that no font can print.
pub fn check_letters(sheet: &Sheet, workshop: &ProfileFile) -> Vec<Diagnostic> {
    let files = [(&sheet.source, &sheet.tree), (&workshop.source, &workshop.tree)];
    let texts = files.into_iter().flat_map(|(source, tree)| {
        issued::texts(tree).into_iter().map(move |(text, span)| (source, text, span))
    });
    texts
        .filter_map(|(source, text, span)| {
            let (_, c) = fonts::unprintable(text)?;
            let shown = source.text().get(span.clone()).unwrap_or_default();
            let at = shown
                .find(c)
                .map_or(span.clone(), |at| span.start + at..span.start + at + c.len_utf8());
            Some(problems::unprintable(Place::at(source, at), c))
        })
        .collect()
}

/// A language that the papers cannot be written in, at the place that names it.
pub fn check_language(press: &Press, sheet: &Sheet, workshop: &ProfileFile) -> Option<Diagnostic> {
    let templates = press.templates();
    let language = material::language(sheet, workshop);
    if templates.speaks(language.base()) {
        return None;
    }
    let place = match (&sheet.fields.language, &workshop.fields.language) {
        (Some(own), _) => sheet.place(&own.span),
        (None, Some(house)) => Place::at(&workshop.source, house.span.clone()),
        (None, None) => Place::whole(&workshop.source),
    };
    Some(problems::unknown_language(place, &language.0, &templates.languages()))
}

/// What is wrong with the words of a job's language; nothing if there are none at all, which
/// [`check_language`] reports.
pub fn check_words(press: &Press, sheet: &Sheet, workshop: &ProfileFile) -> Vec<Diagnostic> {
    let language = material::language(sheet, workshop);
    match press.templates().speaks(language.base()) {
        true => press
            .wording(language.base(), material::region(&language, workshop))
            .err()
            .unwrap_or_default(),
        false => Vec::new(),
    }
}
