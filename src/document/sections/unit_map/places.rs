//! Where parts are on the section of the unit, and where their numbers find room.
//!
//! In: `report-templates/shared/unit-places.yaml`, embedded; out: millimetres on the drawing. What
//! is drawn there is layout (`unit-map.typ`).

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::sheet::catalogue::Part;
use crate::sheet::vocabulary::UnitKind;

/// Which section is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawn {
    /// A unit at the crank.
    MidDrive,
    /// A hub, with neither planet gears nor magnets in its shell.
    Hub,
    /// A hub with planet gears.
    HubGeared,
    /// A hub whose shell carries the magnets.
    HubDirect,
}

impl Drawn {
    /// The kind of unit that it shows.
    pub fn kind(self) -> UnitKind {
        match self {
            Self::MidDrive => UnitKind::MidDrive,
            Self::Hub => UnitKind::Hub,
            Self::HubGeared => UnitKind::HubGeared,
            Self::HubDirect => UnitKind::HubDirect,
        }
    }

    /// The word by which the layout knows it.
    pub fn word(self) -> &'static str {
        self.kind().word()
    }
}

/// Where one part is.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Spot {
    /// Millimetres from the left and from the top.
    At([f64; 2]),
    /// Not on the drawing; the word is `outside`.
    Outside(Outside),
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Outside {
    Outside,
}

/// Places of a part by kind of unit.
type Spots = BTreeMap<String, Spot>;

static PLACES: LazyLock<BTreeMap<String, Spots>> = LazyLock::new(embedded);

#[expect(
    clippy::expect_used,
    reason = "an embedded table that does not parse is our own mistake, and tests read it"
)]
fn embedded() -> BTreeMap<String, Spots> {
    let text = include_str!("../../../../report-templates/shared/unit-places.yaml");
    serde_yaml::from_str(text).expect("the embedded places are well-formed")
}

/// Names of the parts that the table of places knows, each with its kinds.
pub fn known() -> impl Iterator<Item = (&'static str, Vec<&'static str>)> {
    PLACES.iter().map(|(part, spots)| (part.as_str(), spots.keys().map(String::as_str).collect()))
}

/// Where a part is on a section, in millimetres from its left and its top; `None` if the
/// section does not show it: it is outside, or this kind of unit has no such part.
pub fn place(part: Part, drawn: Drawn) -> Option<[f64; 2]> {
    let kind = drawn.kind();
    if !part.0.is_of(kind) {
        return None;
    }
    let spots = PLACES.get(part.name())?;
    match spots.get(kind.word()).or_else(|| spots.get(kind.family().word()))? {
        Spot::At(place) => Some(*place),
        Spot::Outside(Outside::Outside) => None,
    }
}

/// Side of the drawing in millimetres.
const SIDE: f64 = 38.0;
/// Radius of the circle around a number.
const RADIUS: f64 = 1.75;
/// Least distance between the middles of two numbers.
const APART: f64 = 3.6;
/// How many numbers may be in a row across the drawing, and so the longest way to a free place.
const MOST_STEPS: i32 = 10;

/// The numbers that are already on the drawing.
#[derive(Debug, Default)]
pub struct Room {
    taken: Vec<[f64; 2]>,
}

impl Room {
    /// Room for a number as near to a place as there is; `None` if the drawing is full.
    pub fn take(&mut self, place: [f64; 2]) -> Option<[f64; 2]> {
        let place = place.map(|at| at.clamp(RADIUS, SIDE - RADIUS));
        let is_inside = |at: f64| (RADIUS..=SIDE - RADIUS).contains(&at);
        let is_apart = |one: [f64; 2], other: [f64; 2]| {
            APART - 0.01 < (one[0] - other[0]).hypot(one[1] - other[1])
        };
        let moved = |(right, down): (i32, i32)| {
            [place[0] + f64::from(right) * APART, place[1] + f64::from(down) * APART]
        };
        let is_free = |step: &(i32, i32)| {
            let at = moved(*step);
            at.iter().all(|&one| is_inside(one))
                && self.taken.iter().all(|&other| is_apart(at, other))
        };
        let steps = (-MOST_STEPS..=MOST_STEPS)
            .flat_map(|down| (-MOST_STEPS..=MOST_STEPS).map(move |right| (right, down)));
        // Of two steps as long as each other, sideways comes before up and down, right before left.
        let free = steps.filter(is_free).min_by_key(|&(right, down)| {
            (right * right + down * down, down.abs(), -down, -right)
        })?;
        let free = moved(free);
        self.taken.push(free);
        Some(free)
    }
}
