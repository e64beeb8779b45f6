//! Earlier visits of the unit by its serial number, a fact each: when, how it ended, what was done.

use super::words::word;
use crate::assessment::earlier::Visit;
use crate::document::format;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::writer::Writer;

/// The earlier visits, the first one first.
pub fn visits(writer: &Writer<'_>) -> Vec<Fact> {
    let visits = writer.material.assessment.visits.iter();
    visits.map(|visit| Fact::plain(word(writer, "seen-before"), told(writer, visit))).collect()
}

fn told(writer: &Writer<'_>, visit: &Visit) -> String {
    let wording = writer.wording;
    let day = |day| format::day(day, wording);
    let arrived = visit.arrived.parse().map_or_else(|_| visit.arrived.clone(), day);
    let returned = visit.returned_on().map(day);
    let form = match (visit.is_given, &returned) {
        (true, Some(_)) => "visit-given",
        (true, None) => "visit-given-undated",
        (false, Some(_)) => "visit-ended",
        (false, None) => "visit",
    };
    let values = [
        ("job", visit.job.as_str()),
        ("arrived", &arrived),
        ("returned", returned.as_deref().unwrap_or_default()),
    ];
    let mut told = vec![text::fill(word(writer, form), &values)];
    if visit.is_given {
        return told.concat();
    }
    told.extend(visit.outcome().map(|one| wording.choice("outcomes", one.word()).to_owned()));
    told.extend(visit.done.iter().map(|(part, action)| {
        let (part, done) = (wording.part(part, "plain"), wording.choice("actions", action));
        format!("{part}{}{done}", wording.grammar().colon())
    }));
    told.join("; ")
}
