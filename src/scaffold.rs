//! Starting points: short sheets, blank sheets, blank profiles, schemas.
//!
//! In: a folder or nothing; out: new files, never a replaced one.

mod guess;
pub mod next_number;
pub mod photo_list;
pub mod starter;

use std::path::{Path, PathBuf};

use serde_json::json;

use crate::failure::Failure;
use crate::intake;
use crate::output;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::prices::PriceList;
use crate::sheet::profile::Profile;
use crate::sheet::reader::Value;
use crate::sheet::{blank, schema};
use starter::Filled;

/// Name of the sheet's schema file beside a blank sheet.
pub const FINDINGS_SCHEMA: &str = "findings.schema.json";
/// Name of the profile's schema file beside a blank profile.
pub const WORKSHOP_SCHEMA: &str = "workshop.schema.json";
/// Name of the price list's schema file beside a blank price list.
pub const PARTS_SCHEMA: &str = "parts.schema.json";

/// JSON Schema of the findings sheet.
pub fn findings_schema() -> serde_json::Value {
    schema::schema("splitcase findings sheet", &FindingsSheet::shape())
}

/// JSON Schema of the workshop profile.
pub fn workshop_schema() -> serde_json::Value {
    schema::schema("splitcase workshop profile", &Profile::shape())
}

/// JSON Schema of the price list.
pub fn parts_schema() -> serde_json::Value {
    schema::schema("splitcase price list", &PriceList::shape())
}

/// Every schema in one document, by the name of their file.
pub fn schemas() -> serde_json::Value {
    json!({
        intake::SHEET: findings_schema(),
        intake::PROFILE: workshop_schema(),
        intake::PRICES: parts_schema(),
    })
}

/// Writes a workshop profile with every field, a price list to fill in unless there is one, and their
/// schemas if they are missing; returns the new files.
///
/// # Errors
/// The profile is there already, or the disk refuses.
pub fn write_profile(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let text = |reference: &str| blank::blank(reference, &Profile::shape());
    let mut written = write(folder, intake::PROFILE, WORKSHOP_SCHEMA, &workshop_schema(), text)?;
    if !folder.join(intake::PRICES).exists() {
        let text = |reference: &str| blank::blank(reference, &PriceList::shape());
        written.extend(write(folder, intake::PRICES, PARTS_SCHEMA, &parts_schema(), text)?);
    }
    Ok(written)
}

/// Writes a sheet and, if it is missing, its schema; returns the new files. `None` is the long sheet
/// with every field in a comment.
///
/// # Errors
/// The sheet is there already, or the disk refuses.
pub fn write_sheet(folder: &Path, short: Option<&Filled<'_>>) -> Result<Vec<PathBuf>, Failure> {
    let text = |reference: &str| match short {
        Some(short) => short.text(reference),
        None => blank::blank(reference, &FindingsSheet::shape()),
    };
    write(folder, intake::SHEET, FINDINGS_SCHEMA, &findings_schema(), text)
}

fn write(
    folder: &Path,
    file: &str,
    schema_file: &str,
    schema: &serde_json::Value,
    text: impl Fn(&str) -> String,
) -> Result<Vec<PathBuf>, Failure> {
    intake::refuse_sealed(folder)?;
    output::make_folder(folder)?;
    let sheet = folder.join(file);
    let (schema_path, reference) = schema_place(folder, schema_file);
    output::write_new(&sheet, text(&reference).as_bytes())?;
    let mut written = vec![sheet];
    if !schema_path.exists() {
        output::write_new(&schema_path, format!("{schema:#}\n").as_bytes())?;
        written.push(schema_path);
    }
    Ok(written)
}

/// Beside the profile if there is one above, so that one schema serves every job; else in the folder.
fn schema_place(folder: &Path, schema_file: &str) -> (PathBuf, String) {
    let beside = || (folder.join(schema_file), format!("./{schema_file}"));
    let Some(profile) = intake::find_profile(folder) else { return beside() };
    let Ok(full) = folder.canonicalize() else { return beside() };
    let home = profile.parent().unwrap_or(Path::new("."));
    let Ok(below) = full.strip_prefix(home) else { return beside() };
    let up = "../".repeat(below.components().count());
    let up = if up.is_empty() { "./".to_owned() } else { up };
    (home.join(schema_file), format!("{up}{schema_file}"))
}
