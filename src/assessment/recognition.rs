//! Photos of one job known again among those of others: landmarks and fingerprints -> candidates.
//!
//! ```text
//! known photos ─► table ─┐
//! one photo ─────────────┴─► forms alike ─► a fit that many agree on ─► candidates
//! ```
//!
//! A candidate is a guess: whether two pictures are the same is said only after both files were read
//! and laid on each other ([`is_same`]). Not here: what is measured of a photo (photo), reading files
//! (intake), and where the photos of other jobs are (batch).

mod fitting;
mod look;
mod stored;
mod table;

use crate::assessment::plausibility::APART;
use crate::photo::{Agreement, Facts};

pub use look::{Candidate, Look};
pub use stored::{Mark, Stored};
pub use table::Table;

/// Correlation of detail in thousandths, from which two files show one picture.
#[derive(Clone, Copy, Debug)]
struct Least {
    middle: i32,
    quarter: i32,
    lowest: i32,
}

/// For files that no clock sets apart, as a copy mostly loses its capture time: they agree
/// everywhere, or all but wholly where nothing was drawn in.
const LIKE: [Least; 2] = [
    Least { middle: 900, quarter: 850, lowest: 600 },
    Least { middle: 985, quarter: 900, lowest: i32::MIN },
];

/// For files whose clocks set them apart. Two shots from a tripod agree in everything that was not
/// touched between them; a copy agrees everywhere.
const LIKE_APART: [Least; 1] = [Least { middle: 920, quarter: 880, lowest: 800 }];

/// Least share of one of the pictures that must be on both, in thousandths.
const LEAST_SHARED: u32 = 150;

/// True if two pictures that were laid on each other are one.
pub fn is_same(agreement: &Agreement, own: &Facts, other: &Facts) -> bool {
    let Agreement { middle, quarter, lowest, .. } = *agreement;
    let least = if are_apart(own, other) { &LIKE_APART[..] } else { &LIKE };
    let is_like = least
        .iter()
        .any(|least| least.middle <= middle && least.quarter <= quarter && least.lowest <= lowest);
    is_like && LEAST_SHARED <= agreement.covered.max(agreement.shown)
}

/// Whether two files are said to be separate shots: other cameras, or times that are apart.
fn are_apart(own: &Facts, other: &Facts) -> bool {
    let cameras = own.camera.as_ref().zip(other.camera.as_ref());
    let times = own.taken.zip(other.taken);
    cameras.is_some_and(|(one, other)| one != other)
        || times.is_some_and(|(one, other)| APART < (one.local - other.local).abs())
}
