//! The sections of papers: each a function of a [`Writer`](super::writer::Writer), to be put together
//! by any paper.
//!
//! In: material, facts and words of one job; out: pieces of the view. Which paper has which sections is
//! `papers`.

pub mod arrival;
pub mod bench;
pub mod care;
pub mod cause;
pub mod choices;
mod compared;
pub mod costs;
pub mod evidence;
mod finding_heading;
pub mod findings;
pub mod letterhead;
pub mod offer;
pub mod opening;
pub mod options;
pub mod photos;
mod priced;
pub mod record;
pub mod ride;
pub mod slip;
pub mod unit_map;
