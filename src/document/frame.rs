//! What every paper has around it: paper size, language, sender, foot, the files that it carries.

use super::format;
use super::material::Cover;
use super::text;
use super::view::{Attached, Foot, Frame, Logo, Sender};
use super::wording::Wording;
use crate::sheet::text::Text;

/// Virtual path of the customer's copy of the sheet.
pub const ISSUED: &str = "/job/attached/findings.yaml";
/// Virtual path of the manifest.
pub const MANIFEST: &str = "/job/attached/manifest.json";

/// The frame of a job's paper.
pub fn frame(cover: &Cover<'_>, wording: &Wording, title: String) -> Frame {
    let profile = &cover.workshop.fields;
    let language = &cover.language;
    let sheet = cover.issued.map(|_| Attached {
        file: ISSUED.into(),
        name: "findings.yaml".into(),
        mime: "application/yaml",
        relationship: "source",
        description: wording.label("attached-sheet").to_owned(),
    });
    let manifest = Attached {
        file: MANIFEST.into(),
        name: "manifest.json".into(),
        mime: "application/json",
        relationship: "data",
        description: wording.label("attached-manifest").to_owned(),
    };
    let lines = |texts: &[Text]| texts.iter().map(|line| line.0.clone()).collect();
    let place = profile.address.last().map(|line| format!(" · {}", line.0)).unwrap_or_default();
    let short = format::digest(&cover.digest.short());
    Frame {
        paper: profile.paper.unwrap_or_default().word(),
        lang: language.base().to_owned(),
        region: Some(wording.region().to_owned()),
        accent: profile.accent.clone().unwrap_or_default().0,
        title,
        author: profile.name.0.clone(),
        words: wording.labels(),
        workshop: Sender {
            name: profile.name.0.clone(),
            address: lines(&profile.address),
            contact: lines(&profile.contact),
            logo: cover.logo.map(|(name, _)| Logo {
                file: logo_file(name),
                alt: text::fill(wording.label("logo-alt"), &[("name", &profile.name.0)]),
            }),
        },
        foot: Foot {
            left: format!("{}{place}", profile.name.0),
            middle: format!("{} · {short}", cover.job),
        },
        attachments: sheet.into_iter().chain([manifest]).collect(),
    }
}

/// Virtual path of the logo; Typst knows its format by the ending.
pub fn logo_file(name: &str) -> String {
    let ending = name.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
    format!("/job/logo.{ending}")
}
