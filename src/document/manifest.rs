//! The manifest that a PDF carries: what it was made from, by which version, with digests.
//!
//! In: sheet, photos, templates; out: JSON text, the same bytes for the same inputs.

use crate::digest::Digest;
use crate::photo::Facts;
use serde::Serialize;

/// A photo of the job folder.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct PhotoEntry<'a> {
    file: &'a str,
    sha256: String,
    bytes: u64,
    format: &'static str,
    width: u32,
    height: u32,
    /// Capture time by the camera's clock, with its offset if recorded.
    taken: Option<String>,
    zone: &'static str,
    camera: Option<&'a str>,
    damaged: bool,
}

/// A text file by its digest.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct TextEntry {
    /// Digest of the file in the job folder.
    sha256: String,
    /// Digest of the copy that the customer's PDF carries.
    issued_sha256: Option<String>,
}

#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct ManifestForm<'a> {
    job: &'a str,
    made_by: &'static str,
    findings_yaml: TextEntry,
    workshop_yaml: TextEntry,
    templates_sha256: String,
    photos: Vec<PhotoEntry<'a>>,
    /// The recorded ride.
    track: Option<TrackEntry<'a>>,
    /// What is said of earlier visits of the unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    earlier_visits_json: Option<TextEntry>,
}

/// The file of the recorded ride.
#[derive(Serialize)]
struct TrackEntry<'a> {
    file: &'a str,
    sha256: String,
}

/// What a manifest is made from.
pub struct Inputs<'a> {
    /// Number of the job.
    pub job: &'a str,
    /// Bytes of the sheet.
    pub sheet: &'a [u8],
    /// The customer's copy, if the paper carries one.
    pub issued: Option<&'a str>,
    /// Bytes of the profile.
    pub profile: &'a [u8],
    /// Digest of templates and wordings.
    pub templates: Digest,
    /// Every photo by name, in order.
    pub photos: Vec<(&'a str, &'a Facts)>,
    /// The ride's track by name, if there is one.
    pub track: Option<(&'a str, &'a [u8])>,
    /// Earlier visits of the unit as text, if there are any.
    pub visits: Option<&'a str>,
}

/// The manifest as JSON text.
pub fn manifest(inputs: &Inputs<'_>) -> String {
    let photos = inputs.photos.iter().map(|(file, facts)| entry(file, facts)).collect();
    let form = ManifestForm {
        job: inputs.job,
        made_by: concat!("splitcase ", env!("CARGO_PKG_VERSION")),
        findings_yaml: TextEntry {
            sha256: Digest::of(inputs.sheet).hex(),
            issued_sha256: inputs.issued.map(|issued| Digest::of(issued.as_bytes()).hex()),
        },
        workshop_yaml: TextEntry { sha256: Digest::of(inputs.profile).hex(), issued_sha256: None },
        templates_sha256: inputs.templates.hex(),
        photos,
        track: inputs
            .track
            .map(|(file, bytes)| TrackEntry { file, sha256: Digest::of(bytes).hex() }),
        earlier_visits_json: inputs.visits.map(|text| TextEntry {
            sha256: Digest::of(text.as_bytes()).hex(),
            issued_sha256: None,
        }),
    };
    // Strings and numbers always serialise.
    serde_json::to_string_pretty(&form).unwrap_or_default() + "\n"
}

fn entry<'a>(file: &'a str, facts: &'a Facts) -> PhotoEntry<'a> {
    let taken = facts.taken.as_ref();
    PhotoEntry {
        file,
        sha256: facts.sha256.hex(),
        bytes: facts.bytes,
        format: facts.format.name(),
        width: facts.width,
        height: facts.height,
        taken: taken.map(|taken| {
            let local = taken.local.format("%Y-%m-%dT%H:%M:%S");
            taken.offset.map_or_else(|| local.to_string(), |offset| format!("{local}{offset}"))
        }),
        zone: match taken {
            None => "no capture time recorded",
            Some(taken) if taken.offset.is_some() => "recorded",
            Some(_) => "zone unknown",
        },
        camera: facts.camera.as_deref(),
        damaged: facts.damaged,
    }
}
