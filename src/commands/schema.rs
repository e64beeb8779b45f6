//! `schema`: prints the JSON Schema of sheet and profile.

use super::print::say;
use crate::batch::RunOutcome;
use crate::cli::{Schema, SchemaOf};
use crate::failure::Failure;
use crate::scaffold;

pub(super) fn run(schema: &Schema) -> Result<RunOutcome, Failure> {
    let text = match schema.of {
        Some(SchemaOf::Findings) => scaffold::findings_schema(),
        Some(SchemaOf::Workshop) => scaffold::workshop_schema(),
        None => scaffold::schemas(),
    };
    say(&format!("{text:#}")).map(|()| RunOutcome::AllGood)
}
