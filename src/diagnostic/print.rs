//! Draws problems for people: a snippet with the place underlined.
//!
//! In: [`Diagnostic`]; out: text. Nothing is written to a terminal here.

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};

use super::{Diagnostic, Place, Severity};

/// The problem as people read it, with colour codes that the writer may strip.
pub fn drawn(diagnostic: &Diagnostic) -> String {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(&diagnostic.message).id(diagnostic.code);
    let mut group = Group::with_title(title);
    for part in snippets(diagnostic) {
        group = match part {
            Part::Text(snippet) => group.element(snippet),
            Part::File(origin) => group.element(origin),
        };
    }
    for hint in &diagnostic.hints {
        group = group.element(Level::HELP.message(hint));
    }
    Renderer::styled().render(&[group])
}

/// Either a piece of text with marks, or a file's name alone.
enum Part<'a> {
    Text(Snippet<'a, annotate_snippets::Annotation<'a>>),
    File(Origin<'a>),
}

/// One part a file, the main place's first; places of one file share a part.
fn snippets(diagnostic: &Diagnostic) -> Vec<Part<'_>> {
    let mut places = vec![(&diagnostic.place, "", AnnotationKind::Primary)];
    let also = diagnostic.also.iter();
    places.extend(also.map(|(place, words)| (place, words.as_str(), AnnotationKind::Context)));
    let mut parts = Vec::new();
    while let Some((first, ..)) = places.first() {
        let name = first.source.name();
        let here: Vec<_> =
            places.extract_if(.., |(place, ..)| place.source.name() == name).collect();
        parts.push(part(&here));
    }
    parts
}

fn part<'a>(places: &[(&'a Place, &'a str, AnnotationKind)]) -> Part<'a> {
    let source = &places[0].0.source;
    let marks: Vec<_> = places
        .iter()
        .filter_map(|(place, words, kind)| {
            let mark = kind.span(place.range.clone()?);
            Some(if words.is_empty() { mark } else { mark.label(*words) })
        })
        .collect();
    if marks.is_empty() {
        return Part::File(Origin::path(source.name()));
    }
    Part::Text(Snippet::source(source.text()).path(source.name()).annotations(marks))
}

/// `file:line:column` of a place, or the file alone.
pub fn location(place: &Place) -> String {
    match &place.range {
        Some(range) => {
            let (line, column) = place.source.line_column(range.start);
            format!("{}:{line}:{column}", place.source.name())
        }
        None => place.source.name().to_owned(),
    }
}
