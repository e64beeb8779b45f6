//! Starting points: blank sheets, blank profiles, schemas.
//!
//! In: a folder or nothing; out: new files, never a replaced one.

use std::path::{Path, PathBuf};

use serde_json::json;

use crate::failure::Failure;
use crate::intake;
use crate::output;
use crate::sheet::findings::FindingsSheet;
use crate::sheet::profile::Profile;
use crate::sheet::reader::Value;
use crate::sheet::{blank, schema};

/// Name of the sheet's schema file beside a blank sheet.
pub const FINDINGS_SCHEMA: &str = "findings.schema.json";
/// Name of the profile's schema file beside a blank profile.
pub const WORKSHOP_SCHEMA: &str = "workshop.schema.json";

/// JSON Schema of the findings sheet.
pub fn findings_schema() -> serde_json::Value {
    schema::schema("splitcase findings sheet", &FindingsSheet::shape())
}

/// JSON Schema of the workshop profile.
pub fn workshop_schema() -> serde_json::Value {
    schema::schema("splitcase workshop profile", &Profile::shape())
}

/// Both schemas in one document, by the name of their file.
pub fn schemas() -> serde_json::Value {
    json!({ intake::SHEET: findings_schema(), intake::PROFILE: workshop_schema() })
}

/// Writes a blank sheet or profile and, if it is missing, its schema; returns the new files.
///
/// # Errors
/// The sheet or profile is there already, or the disk refuses.
pub fn write(folder: &Path, is_workshop: bool) -> Result<Vec<PathBuf>, Failure> {
    let (file, schema_file, schema, shape) = match is_workshop {
        true => (intake::PROFILE, WORKSHOP_SCHEMA, workshop_schema(), Profile::shape()),
        false => (intake::SHEET, FINDINGS_SCHEMA, findings_schema(), FindingsSheet::shape()),
    };
    intake::refuse_sealed(folder)?;
    output::make_folder(folder)?;
    let sheet = folder.join(file);
    let (schema_path, reference) = schema_place(folder, schema_file);
    output::write_new(&sheet, blank::blank(&reference, &shape).as_bytes())?;
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
