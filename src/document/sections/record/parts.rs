//! Every part in one table: its state, its signs in trade words, what was done, its photos.

use crate::document::sections::findings;
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::record::Ledger;
use crate::document::writer::Writer;
use crate::sheet::findings::Finding;
use crate::sheet::signs::{SignEntry, Signs};

/// The table; `None` where the case was not split.
pub fn parts(writer: &Writer<'_>) -> Option<Ledger> {
    let findings = writer.fields().findings();
    let rows: Vec<Vec<String>> =
        (1_usize..).zip(findings).map(|(number, finding)| row(writer, number, finding)).collect();
    let columns = ["part", "as-found", "signs", "done", "photos"];
    (!rows.is_empty()).then(|| Ledger {
        heading: word(writer, "parts").to_owned(),
        text: Vec::new(),
        columns: columns.map(|key| word(writer, key).to_owned()).to_vec(),
        holds: vec!["words", "brief", "wide", "brief", "brief"],
        rows,
    })
}

fn row(writer: &Writer<'_>, number: usize, finding: &Finding) -> Vec<String> {
    let wording = writer.wording;
    let or = |text: String, key| if text.is_empty() { word(writer, key).to_owned() } else { text };
    let part = text::capitalised(wording.part_of(finding));
    let part = match &finding.bearing {
        Some(bearing) => format!("{number}. {part}, {}", bearing.0),
        None => format!("{number}. {part}"),
    };
    let signs = trade_words(writer, &finding.signs).join("; ");
    let note = finding.note.as_ref().map(|note| text::ended(&note.0));
    let signs = text::ended(&text::capitalised(&or(signs, "no-signs")));
    let signs = [signs].into_iter().chain(note);
    let done = finding
        .action
        .map_or_else(String::new, |action| wording.choice("actions", action.word()).to_owned());
    let photos = finding.photos.iter().chain(&finding.photos_after);
    let photos = photos.filter_map(|used| writer.material.photo(&used.file.0));
    let photos: Vec<String> = photos.map(|(number, _)| number.to_string()).collect();
    vec![
        part,
        wording.choice("conditions", finding.condition.word()).to_owned(),
        signs.collect::<Vec<_>>().join(" "),
        or(done, "nothing-done"),
        or(photos.join(", "), "no-photos"),
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
