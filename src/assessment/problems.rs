//! Every message of the assessment stage, with its code; one file a matter.

pub mod bench;
pub mod cause;
pub mod cost;
pub mod plausibility;
pub mod ride;
