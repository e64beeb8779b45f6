//! What proves the report: the list of photos with capture time and digest, and the way to the archive.

use qrcodegen::{QrCode, QrCodeEcc};

use crate::document::text;
use crate::document::view::{Digest, Evidence, Proof, Qr};
use crate::document::writer::Writer;
use crate::document::{fonts, format};

/// The list of photos, the digest of all inputs, the QR code.
pub fn evidence(writer: &Writer<'_>) -> Evidence {
    let wording = writer.wording;
    let photos = writer.material.photos.iter().enumerate();
    let rows: Vec<Vec<String>> = photos
        .map(|(at, named)| {
            let facts = &named.photo.facts;
            let mut name = fonts::printable(&named.name);
            if facts.damaged {
                name = format!("{name} ({})", wording.label("file-damaged"));
            }
            vec![
                (at + 1).to_string(),
                name,
                format::taken(facts.taken.as_ref(), wording),
                facts.camera.clone().unwrap_or_else(|| wording.label("not-recorded").to_owned()),
                format!("{} × {}", facts.width, facts.height),
                facts.sha256.short(),
            ]
        })
        .collect();
    let columns = ["photo", "file", "taken", "camera", "pixels", "sha-256"];
    let text = if rows.is_empty() { "evidence-no-photos" } else { "evidence-text" };
    Evidence {
        heading: wording.label("evidence-heading").to_owned(),
        text: vec![wording.label(text).to_owned(), wording.label("evidence-attached").to_owned()],
        columns: columns.iter().map(|key| wording.label(key).to_owned()).collect(),
        rows,
        digest: digest(writer),
        qr: qr(writer),
    }
}

/// The same in short, for a paper that lists no photos.
pub fn proof(writer: &Writer<'_>) -> Proof {
    let wording = writer.wording;
    let kept = if writer.material.photos.is_empty() { "evidence-no-photos" } else { "proof-text" };
    Proof {
        heading: wording.label("evidence-heading").to_owned(),
        text: format!("{} {}", wording.label(kept), wording.label("evidence-attached")),
        digest: digest(writer),
        qr: qr(writer),
    }
}

fn digest(writer: &Writer<'_>) -> Digest {
    Digest {
        label: writer.wording.label("input-digest").to_owned(),
        value: format::digest(&writer.material.digest.hex()),
    }
}

/// Job number and digest of all inputs, with what it is, as a QR code (ISO/IEC 18004).
fn qr(writer: &Writer<'_>) -> Option<Qr> {
    let job = &writer.fields().job.0;
    let label = writer.wording.label("input-digest");
    let text = format!("splitcase {job}: {label} {}", writer.material.digest.hex());
    let code = QrCode::encode_text(&text, QrCodeEcc::Medium).ok()?;
    let row = |y| (0..code.size()).map(|x| if code.get_module(x, y) { '1' } else { '0' }).collect();
    let alt = text::fill(writer.wording.label("qr-alt"), &[("text", &text)]);
    let caption = writer.wording.label("qr-caption").to_owned();
    Some(Qr { modules: (0..code.size()).map(row).collect(), alt, caption })
}
