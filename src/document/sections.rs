//! The sections of papers: each a function of a [`Writer`](super::writer::Writer), to be put together
//! by any paper.
//!
//! In: material, facts and words of one job; out: pieces of the view. Which paper has which sections is
//! `papers`.

pub mod bench;
pub mod care;
pub mod cause;
pub mod costs;
pub mod evidence;
pub mod findings;
pub mod noted;
pub mod opening;
pub mod options;
pub mod photos;
pub mod ride;
pub mod unit_map;
