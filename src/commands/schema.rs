//! `schema`: prints the JSON Schema of sheet, profile, price list and output.

use crate::cli::{Schema, SchemaOf};
use crate::console::{Console, RunOutcome, envelope};
use crate::failure::Failure;
use crate::scaffold;

pub(super) fn run(schema: &Schema, console: &Console) -> Result<RunOutcome, Failure> {
    let text = match schema.of {
        Some(SchemaOf::Findings) => format!("{:#}", scaffold::findings_schema()),
        Some(SchemaOf::Workshop) => format!("{:#}", scaffold::workshop_schema()),
        Some(SchemaOf::Parts) => format!("{:#}", scaffold::parts_schema()),
        Some(SchemaOf::Output) => envelope::SCHEMA.trim_end().to_owned(),
        None => format!("{:#}", scaffold::schemas()),
    };
    console.answer(&text, || serde_json::Value::Null).map(|()| RunOutcome::AllGood)
}
