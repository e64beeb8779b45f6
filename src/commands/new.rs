//! `new`: writes a blank sheet or profile and says where.

use super::print::say;
use crate::batch::Ending;
use crate::cli::New;
use crate::failure::Failure;
use crate::start;

pub(super) fn run(new: &New) -> Result<Ending, Failure> {
    for path in start::write(&new.folder, new.workshop)? {
        say(&format!("written: {}", path.display()))?;
    }
    Ok(Ending::AllGood)
}
