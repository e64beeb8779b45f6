//! Units of distance and speed by the reader of a paper.
//!
//! In: the profile and the words of the paper; out: [`Units`]. How a value is printed in them is `format`.

use super::wording::Wording;
use crate::sheet::profile::{Profile, Units};

/// Regions whose roads are measured in miles.
///
/// Source: Unicode CLDR 48, supplemental `measurementSystem` (`US` and `UK`), from memory.
const IN_MILES: [&str; 4] = ["GB", "US", "LR", "MM"];

/// The workshop's units; on papers in another language than its own those of that language's region.
pub fn of(profile: &Profile, wording: &Wording) -> Units {
    let house = profile.language.as_ref().map_or("en", |language| language.value.base());
    match (house == wording.language(), IN_MILES.contains(&wording.region())) {
        (true, _) => profile.units.unwrap_or_default(),
        (false, true) => Units::Imperial,
        (false, false) => Units::Metric,
    }
}
