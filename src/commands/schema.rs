//! `schema`: prints the JSON Schema of sheet and profile.

use super::print::say;
use crate::batch::Ending;
use crate::cli::{Schema, SchemaOf};
use crate::failure::Failure;
use crate::start;

pub(super) fn run(schema: &Schema) -> Result<Ending, Failure> {
    let text = match schema.of {
        Some(SchemaOf::Findings) => start::findings_schema(),
        Some(SchemaOf::Workshop) => start::workshop_schema(),
        None => start::schemas(),
    };
    say(&format!("{text:#}")).map(|()| Ending::AllGood)
}
