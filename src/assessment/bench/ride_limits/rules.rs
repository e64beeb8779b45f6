//! The rules of places for assistance while riding, a table for a person to edit. They differ and change.

use rust_decimal::Decimal;

use crate::assessment::bench::verdict::Origin;
use crate::assessment::sources::SourceId;

/// A number as mantissa and decimal places, as tables hold it.
pub type Number = (i64, u32);

/// The unit in which a rule states its speeds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpeedUnit {
    /// Kilometres an hour.
    Kmh,
    /// Miles an hour; a mile is 1.609344 km.
    Mph,
}

impl SpeedUnit {
    /// Its symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Kmh => "km/h",
            Self::Mph => "mph",
        }
    }

    /// Kilometres an hour in one of it.
    pub fn kmh(self) -> Decimal {
        match self {
            Self::Kmh => Decimal::ONE,
            Self::Mph => Decimal::new(1_609_344, 6),
        }
    }
}

/// The rules of a place; what is `None` the source does not say.
#[derive(Debug, PartialEq, Eq)]
pub struct RuleSet {
    /// Its name in sheets and in `workshop.yaml`.
    pub word: &'static str,
    /// Who says so.
    pub origin: Origin,
    /// The unit of its speeds.
    pub unit: SpeedUnit,
    /// Speed at which assistance has to end.
    pub cut_off: Number,
    /// Distance that the motor may run on after the pedals stop, m.
    pub run_on: Option<Number>,
    /// The same if every brake lever cuts the motor off, m.
    pub run_on_with_switches: Option<Number>,
    /// Speed that walk assistance may reach.
    pub walk: Option<Number>,
    /// Length that the ride needs at least, km.
    pub distance: Option<Number>,
}

/// Speeds of rules are compared to one decimal place: half of it, in the rule's unit.
pub const HALF_A_TENTH: Number = (5, 2);

impl RuleSet {
    /// The cut-off speed in km/h.
    pub fn cut_off_kmh(&self) -> Decimal {
        number(self.cut_off) * self.unit.kmh()
    }
}

const fn speed_alone(
    word: &'static str,
    origin: Origin,
    unit: SpeedUnit,
    cut_off: Number,
    walk: Option<Number>,
) -> RuleSet {
    RuleSet {
        word,
        origin,
        unit,
        cut_off,
        run_on: None,
        run_on_with_switches: None,
        walk,
        distance: None,
    }
}

/// Classes 1 and 2: 20 mph, class 3: 28 mph; walk assistance up to 3.7 mph. Other states differ.
const fn us(word: &'static str, cut_off: Number) -> RuleSet {
    let origin = Origin::Published(SourceId::California);
    speed_alone(word, origin, SpeedUnit::Mph, cut_off, Some((37, 1)))
}

/// Every set of rules.
pub const RULE_SETS: &[RuleSet] = &[
    // Editions differ in the tolerance that a type test allows above 25 km/h, and none of it is for a
    // bike in use: it is judged at 25 km/h, with the uncertainty of the reading.
    RuleSet {
        word: "epac",
        origin: Origin::Published(SourceId::Epac),
        unit: SpeedUnit::Kmh,
        cut_off: (25, 0),
        run_on: Some((2, 0)),
        run_on_with_switches: Some((5, 0)),
        walk: Some((6, 0)),
        distance: Some((1, 0)),
    },
    // An older page with 200 W and 15 mph is outdated.
    speed_alone("gb", Origin::Published(SourceId::GreatBritain), SpeedUnit::Mph, (155, 1), None),
    us("us-class-1", (20, 0)),
    us("us-class-2", (20, 0)),
    us("us-class-3", (28, 0)),
    // Above 6 km/h the rider has to pedal. No text of the rules was read.
    speed_alone("au", Origin::Practice, SpeedUnit::Kmh, (25, 0), Some((6, 0))),
    speed_alone(
        "s-pedelec",
        Origin::Published(SourceId::TypeApproval),
        SpeedUnit::Kmh,
        (45, 0),
        None,
    ),
    speed_alone("ch", Origin::Published(SourceId::Switzerland), SpeedUnit::Kmh, (25, 0), None),
    // The federal definition of 2001 (SOR/2001-117) is repealed; provinces keep its 32 km/h.
    speed_alone("ca", Origin::Practice, SpeedUnit::Kmh, (32, 0), None),
];

/// The set of rules under a name.
pub fn rule_set(word: &str) -> Option<&'static RuleSet> {
    RULE_SETS.iter().find(|rules| rules.word == word)
}

/// A number of the table.
pub fn number((mantissa, places): Number) -> Decimal {
    Decimal::new(mantissa, places)
}
