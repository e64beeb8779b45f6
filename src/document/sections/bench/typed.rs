//! What a bench check has in the sheet, as it was typed: readings, circumstances, the note.
//!
//! In: a line and the check that it comes from; out: short texts. A reading that a dot already prints
//! just as it was typed is not repeated.

use crate::assessment::bench::check_result::{CheckResult, Stage};
use crate::assessment::bench::measure::Measure;
use crate::document::figure;
use crate::document::format;
use crate::document::text;
use crate::document::writer::Writer;
use crate::sheet::bench::{BenchCheck, Reading};
use crate::sheet::quantity::Quantity;
use crate::sheet::text::Text;

/// The texts beside a line; none for a line that no check of the sheet gave.
pub fn typed(writer: &Writer<'_>, line: &CheckResult) -> Vec<String> {
    if line.measure == Measure::Torque {
        let set = line.after.as_ref().and_then(|stage| stage.figure.as_ref());
        let set = set.map(|figure| {
            labelled(writer, "set", &figure::printed(figure, line.unit, writer.wording))
        });
        return set.into_iter().collect();
    }
    let check = line.typed.and_then(|index| writer.material.sheet.fields.bench.get(index));
    check.map_or_else(Vec::new, |check| typed_check(writer, check, line))
}

fn typed_check(writer: &Writer<'_>, check: &BenchCheck, line: &CheckResult) -> Vec<String> {
    let mut texts = Vec::new();
    for (key, readings, stage) in
        [("before", &check.before, &line.before), ("after", &check.after, &line.after)]
    {
        if !readings.is_empty() && !is_printed(writer, readings, stage.as_ref(), line.unit) {
            texts.push(listed(writer, key, readings));
        }
    }
    texts.extend(conditions(writer, check));
    texts
}

/// The circumstances of a line and what was noted of it; none for a line that no check of the sheet gave.
pub fn circumstances(writer: &Writer<'_>, line: &CheckResult) -> Vec<String> {
    let check = line.typed.and_then(|index| writer.material.sheet.fields.bench.get(index));
    check.map_or_else(Vec::new, |check| conditions(writer, check))
}

/// The readings of a line as typed, before or after the work; `None` if the sheet has none.
pub fn raw(writer: &Writer<'_>, line: &CheckResult, is_before: bool) -> Option<String> {
    let check = writer.material.sheet.fields.bench.get(line.typed?)?;
    let fields = &check.fields;
    let (readings, states) = match is_before {
        true => (&check.before, &fields.states_before),
        false => (&check.after, &fields.states_after),
    };
    let readings = readings.iter().map(|one| reading_text(writer, one));
    let all: Vec<String> = readings.chain(states.iter().map(|one| one.0.clone())).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// Circumstances of a check and what was noted of it.
fn conditions(writer: &Writer<'_>, check: &BenchCheck) -> Vec<String> {
    let fields = &check.fields;
    let mut texts = Vec::new();
    if !check.background.is_empty() {
        texts.push(listed(writer, "background", &check.background));
    }
    for (key, states) in
        [("states-before", &fields.states_before), ("states-after", &fields.states_after)]
    {
        if !states.is_empty() {
            let states: Vec<&str> = states.iter().map(|state| state.0.as_str()).collect();
            let text = writer.wording.choice("typed", key);
            texts.push(text::fill(text, &[("list", &states.join(", "))]));
        }
    }
    let quantity = |key, quantity: Option<&Quantity>| {
        Some(labelled(writer, key, &format::quantity(quantity?, writer.wording)))
    };
    let text = |key, text: Option<&Text>| Some(labelled(writer, key, &text?.0));
    let reading = |key, reading: Option<&Reading>| {
        Some(labelled(writer, key, &reading_text(writer, reading?)))
    };
    let rings = fields.turning_ring.map(|ring| ("turning-rings", ring.word()));
    let cells = fields.chemistry.map(|chemistry| ("chemistries", chemistry.word()));
    let word = |choice: Option<(&str, &'static str)>| {
        choice.map(|(kind, word)| writer.wording.choice(kind, word).to_owned())
    };
    // A bearing that names the line is not named twice.
    let bearing = fields.bearing.as_ref().filter(|_| fields.of.is_some());
    let all = [
        reading("cold", check.cold.as_ref()),
        reading("hot", check.hot.as_ref()),
        quantity("drawn-to", fields.drawn_to.as_ref().map(|one| &one.0)),
        quantity("held-for", fields.held_for.as_ref().map(|one| &one.0)),
        quantity("load", fields.load.as_ref().map(|one| &one.0)),
        quantity("test-voltage", fields.test_voltage.as_ref().map(|one| &one.0)),
        quantity("at", fields.at.as_ref().map(|one| &one.0)),
        quantity("ambient", fields.ambient.as_ref().map(|one| &one.0)),
        text("bearing", bearing),
        text("zone", fields.zone.as_ref()),
        word(rings),
        fields.cells.map(|cells| labelled(writer, "cells", &cells.0.to_string())),
        word(cells),
        fields.note.as_ref().map(|note| with_full_stop(&note.0)),
    ];
    texts.extend(all.into_iter().flatten());
    texts
}

/// True if a dot prints the one reading just as it was typed.
fn is_printed(
    writer: &Writer<'_>,
    readings: &[Reading],
    stage: Option<&Stage>,
    unit: &str,
) -> bool {
    let figure = stage.and_then(|stage| stage.figure.as_ref());
    match (readings, figure) {
        ([one], Some(figure)) => {
            reading_text(writer, one) == figure::printed(figure, unit, writer.wording)
        }
        _ => false,
    }
}

fn listed(writer: &Writer<'_>, key: &str, readings: &[Reading]) -> String {
    let all: Vec<String> = readings.iter().map(|one| reading_text(writer, one)).collect();
    text::fill(writer.wording.choice("typed", key), &[("list", &all.join(", "))])
}

fn labelled(writer: &Writer<'_>, key: &str, value: &str) -> String {
    text::fill(writer.wording.choice("typed", key), &[("value", value)])
}

/// A reading as typed: `> 100 MΩ`, `0.80 mm ± 0.02 mm`.
pub fn reading_text(writer: &Writer<'_>, reading: &Reading) -> String {
    let quantity = |one: &Quantity| {
        // A count has no unit to print.
        format::quantity(one, writer.wording).trim_end_matches('\u{202f}').to_owned()
    };
    let beyond = reading.beyond.map_or_else(String::new, |one| format!("{}\u{202f}", one.sign()));
    let uncertainty = match &reading.uncertainty {
        // The unit is said once if both have the same.
        Some(own) if own.unit == reading.value.unit => {
            let value = format::number(reading.value.number, writer.wording);
            return format!("{beyond}{value} ± {}", quantity(own));
        }
        Some(own) => format!(" ± {}", quantity(own)),
        None => String::new(),
    };
    format!("{beyond}{}{uncertainty}", quantity(&reading.value))
}

/// A note with its full stop, if it has none.
fn with_full_stop(note: &str) -> String {
    let note = text::capitalised(note.trim_end());
    if note.ends_with(['.', '!', '?', '…']) { note } else { format!("{note}.") }
}
