//! What a paper was made from, with full digests, read from the very manifest that the PDF carries.

use serde::Deserialize;

use crate::document::format;
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::record::Ledger;
use crate::document::writer::Writer;

/// What is printed of a manifest.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Manifest {
    made_by: String,
    findings_yaml: TextFile,
    workshop_yaml: TextFile,
    templates_sha256: String,
    track: Option<Track>,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
struct TextFile {
    sha256: String,
    issued_sha256: Option<String>,
}

#[derive(Deserialize)]
struct Track {
    file: String,
    sha256: String,
}

/// The table of digests; the last row is that of the manifest itself, which lists the photos too.
pub fn digests(writer: &Writer<'_>) -> Ledger {
    let material = writer.material;
    let row = |key: &str, file: &str, hex: &str| {
        vec![writer.wording.choice("record", key).to_owned(), file.to_owned(), two_lines(hex)]
    };
    let attached = word(writer, "attached");
    let mut rows = Vec::new();
    let mut text = vec![word(writer, "digests-text").to_owned()];
    // A manifest is this program's own; the paper of a material without one has the last row alone.
    if let Ok(own) = serde_json::from_str::<Manifest>(material.manifest) {
        let made_by = [("program", own.made_by.as_str())];
        text.push(text::fill(word(writer, "made-by"), &made_by));
        rows.push(row("sheet", "findings.yaml", &own.findings_yaml.sha256));
        let issued = own.findings_yaml.issued_sha256;
        rows.extend(issued.map(|hex| row("sheet-issued", attached, &hex)));
        rows.push(row("profile", "workshop.yaml", &own.workshop_yaml.sha256));
        rows.push(row("templates", "", &own.templates_sha256));
        let track = own.track.map(|track| (crate::document::fonts::printable(&track.file), track));
        rows.extend(track.map(|(name, track)| row("track", &name, &track.sha256)));
    }
    let name = format!("manifest.json, {attached}");
    rows.push(row("all", &name, &material.digest.hex()));
    Ledger {
        heading: word(writer, "digests").to_owned(),
        text,
        columns: ["item", "file", "sha-256"].map(|key| word(writer, key).to_owned()).to_vec(),
        holds: vec!["words", "words", "digest"],
        rows,
    }
}

/// A digest in groups of four on two lines.
fn two_lines(hex: &str) -> String {
    let (first, second) = hex.split_at_checked(hex.len() / 2).unwrap_or((hex, ""));
    format!("{}\n{}", format::digest(first), format::digest(second))
}
