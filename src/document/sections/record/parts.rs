//! Every part in one table: its state, its signs in trade words, what was done, its photos.

use crate::document::format;
use crate::document::sections::findings;
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::record::Ledger;
use crate::document::writer::Writer;
use crate::sheet::findings::Finding;
use crate::sheet::photo_use::PhotoUse;
use crate::sheet::signs::{SignEntry, Signs};

/// The table, the unit as it came first; `None` if nothing was seen of it.
pub fn parts(writer: &Writer<'_>) -> Option<Ledger> {
    let findings = (1_usize..).zip(writer.fields().findings());
    let findings = findings.map(|(number, finding)| row(writer, number, finding));
    let rows: Vec<Vec<String>> = arrival(writer).into_iter().chain(findings).collect();
    let columns = ["part", "as-found", "signs", "done", "photos"];
    (!rows.is_empty()).then(|| Ledger {
        heading: word(writer, "parts").to_owned(),
        text: Vec::new(),
        columns: columns.map(|key| word(writer, key).to_owned()).to_vec(),
        holds: vec!["words", "brief", "wide", "brief", "brief"],
        rows,
    })
}

/// What was seen of the whole unit before it was opened.
fn arrival(writer: &Writer<'_>) -> Option<Vec<String>> {
    let arrival = &writer.fields().arrival;
    let water = arrival.water.as_ref().map(|water| format::quantity(&water.0, writer.wording));
    let signs: Vec<String> = water.into_iter().chain(trade_words(writer, &arrival.signs)).collect();
    let photos = numbers(writer, arrival.photos.iter());
    if signs.is_empty() && photos.is_empty() {
        return None;
    }
    Some(vec![
        word(writer, "as-it-came").to_owned(),
        word(writer, "not-opened").to_owned(),
        or(writer, text::ended(&text::capitalised(&signs.join("; "))), "no-signs"),
        String::new(),
        or(writer, photos.join(", "), "no-photos"),
    ])
}

/// A text, or the word for there being none.
fn or(writer: &Writer<'_>, text: String, key: &str) -> String {
    if text.is_empty() { writer.wording.choice("record", key).to_owned() } else { text }
}

/// The numbers of photos as far as they could be read.
fn numbers<'p>(writer: &Writer<'_>, photos: impl Iterator<Item = &'p PhotoUse>) -> Vec<String> {
    let photos = photos.filter_map(|used| writer.material.photo(&used.file.0));
    photos.map(|(number, _)| number.to_string()).collect()
}

fn row(writer: &Writer<'_>, number: usize, finding: &Finding) -> Vec<String> {
    let wording = writer.wording;
    let part = text::capitalised(wording.part_of(finding));
    let part = match &finding.bearing {
        Some(bearing) => format!("{number}. {part}, {}", bearing.0),
        None => format!("{number}. {part}"),
    };
    let signs = trade_words(writer, &finding.signs).join("; ");
    let note = finding.note.as_ref().map(|note| text::ended(&note.0));
    let signs = text::ended(&text::capitalised(&or(writer, signs, "no-signs")));
    let signs = [signs].into_iter().chain(note);
    let done = finding
        .action
        .map_or_else(String::new, |action| wording.choice("actions", action.word()).to_owned());
    let photos = finding.photos.iter().chain(&finding.photos_after);
    vec![
        part,
        wording.choice("conditions", finding.condition.word()).to_owned(),
        signs.collect::<Vec<_>>().join(" "),
        or(writer, done, "nothing-done"),
        or(writer, numbers(writer, photos).join(", "), "no-photos"),
    ]
}

/// Signs in the words of the trade; what the catalogue lacks as it was typed.
fn trade_words(writer: &Writer<'_>, signs: &Signs) -> Vec<String> {
    let words = signs.entries().iter().map(|entry| match &entry.value {
        SignEntry::Known(sign) => writer.wording.sign(sign.name(), "trade").to_owned(),
        SignEntry::Other(own) => own.0.clone(),
    });
    words.collect()
}

/// `Photos 3, 4` of a finding as found, by its place in the sheet.
pub(super) fn photos_of(writer: &Writer<'_>, finding: usize) -> Option<String> {
    let finding = writer.fields().findings().get(finding)?;
    findings::numbers_of(writer, finding.photos.iter())
}
