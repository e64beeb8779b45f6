//! `new`: writes a blank sheet or profile and says where.

use super::print::say;
use crate::batch::RunOutcome;
use crate::cli::New;
use crate::failure::Failure;
use crate::scaffold;

pub(super) fn run(new: &New) -> Result<RunOutcome, Failure> {
    for path in scaffold::write(&new.folder, new.workshop)? {
        say(&format!("written: {}", path.display()))?;
    }
    Ok(RunOutcome::AllGood)
}
