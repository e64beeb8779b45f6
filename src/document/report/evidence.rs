//! What proves the report: the list of photos with capture time and digest, and the way to the archive.

use qrcodegen::{QrCode, QrCodeEcc};

use super::Writer;
use crate::document::view::{Digest, Evidence, Qr};
use crate::document::{format, press};

impl Writer<'_> {
    pub(super) fn evidence(&self) -> Evidence {
        let wording = self.wording;
        let photos = self.material.photos.iter().enumerate();
        let rows: Vec<Vec<String>> = photos
            .map(|(at, named)| {
                let facts = &named.photo.facts;
                let mut name = press::printable(&named.name);
                if facts.damaged {
                    name = format!("{name} ({})", wording.label("file-damaged"));
                }
                vec![
                    (at + 1).to_string(),
                    name,
                    format::taken(facts.taken.as_ref(), wording),
                    facts
                        .camera
                        .clone()
                        .unwrap_or_else(|| wording.label("not-recorded").to_owned()),
                    format!("{} × {}", facts.width, facts.height),
                    facts.sha256.short(),
                ]
            })
            .collect();
        let columns = ["photo", "file", "taken", "camera", "pixels", "sha-256"];
        let text = if rows.is_empty() { "evidence-no-photos" } else { "evidence-text" };
        Evidence {
            heading: wording.label("evidence-heading").to_owned(),
            text: vec![
                wording.label(text).to_owned(),
                wording.label("evidence-attached").to_owned(),
            ],
            columns: columns.iter().map(|key| wording.label(key).to_owned()).collect(),
            rows,
            digest: Digest {
                label: wording.label("input-digest").to_owned(),
                value: format::digest(&self.material.digest.hex()),
            },
            qr: self.qr(),
        }
    }

    /// Job number and digest of all inputs as a QR code (ISO/IEC 18004).
    fn qr(&self) -> Option<Qr> {
        let job = &self.fields().job.0;
        let text = format!("splitcase {job} {}", self.material.digest.hex());
        let code = QrCode::encode_text(&text, QrCodeEcc::Medium).ok()?;
        let row =
            |y| (0..code.size()).map(|x| if code.get_module(x, y) { '1' } else { '0' }).collect();
        let alt = self.wording.label("qr-alt").replace("{text}", &text);
        Some(Qr { modules: (0..code.size()).map(row).collect(), alt })
    }
}
