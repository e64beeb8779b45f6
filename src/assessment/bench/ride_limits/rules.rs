//! The rules of places for help while riding, a table for a person to edit. They differ and change.

use rust_decimal::Decimal;

/// A number as mantissa and decimal places, as tables hold it.
pub type Number = (i64, u32);

/// The rules of a place; what is `None` the source does not say.
#[derive(Debug, PartialEq, Eq)]
pub struct RuleSet {
    /// Its name in `workshop.yaml`.
    pub word: &'static str,
    /// Who says so.
    pub source: &'static str,
    /// Edition or day of the source.
    pub edition: &'static str,
    /// Speed at which the help has to end, km/h.
    pub cut_off: Number,
    /// How far above it the help may still end, %.
    pub tolerance: Option<Number>,
    /// Way that the help may run on after the pedals stop, m.
    pub run_on: Option<Number>,
    /// The same where every brake lever cuts the motor off, m.
    pub run_on_with_switches: Option<Number>,
    /// Speed that walk assistance may reach, km/h.
    pub walk: Option<Number>,
    /// Length that the ride needs at least, km.
    pub distance: Option<Number>,
}

impl RuleSet {
    /// The cut-off speed with its tolerance, km/h.
    pub fn cut_off_at_most(&self) -> Number {
        let (percent, places) = self.tolerance.unwrap_or((0, 0));
        let share = 100 * 10_i64.pow(places) + percent;
        (self.cut_off.0 * share, self.cut_off.1 + places + 2)
    }
}

/// Every set of rules; a mile is 1.609344 km.
pub const RULE_SETS: &[RuleSet] = &[
    // 25 km/h: scope of EN 15194:2017. Tolerance, run-on, walk and distance: clauses 4.2.11 to
    // 4.2.13 and 4.3.18 of TBIS 15194:2019, which follows EN 15194; other editions print other
    // tolerances.
    RuleSet {
        word: "epac",
        source: "EN 15194, as TBIS 15194 follows it",
        edition: "2019",
        cut_off: (25, 0),
        tolerance: Some((10, 0)),
        run_on: Some((2, 0)),
        run_on_with_switches: Some((5, 0)),
        walk: Some((6, 0)),
        distance: Some((1, 0)),
    },
    // 15.5 mph; the sheet names no tolerance. An older page with 200 W and 15 mph is outdated.
    RuleSet {
        word: "gb",
        source: "gov.uk, information sheet on electrically assisted pedal cycles",
        edition: "2024-12-10",
        cut_off: (24_944_832, 6),
        tolerance: None,
        run_on: None,
        run_on_with_switches: None,
        walk: None,
        distance: None,
    },
    us("us-class-1", (32_186_880, 6)),
    us("us-class-2", (32_186_880, 6)),
    us("us-class-3", (45_061_632, 6)),
    // Above 6 km/h the rider has to pedal. From a retailer's summary; New South Wales was changing.
    RuleSet {
        word: "au",
        source: "summary of Australian rules for pedal-assisted cycles, second hand",
        edition: "2024",
        cut_off: (25, 0),
        tolerance: None,
        run_on: None,
        run_on_with_switches: None,
        walk: Some((6, 0)),
        distance: None,
    },
];

/// Classes 1 and 2: 20 mph, class 3: 28 mph; walk assistance up to 3.7 mph.
const fn us(word: &'static str, cut_off: Number) -> RuleSet {
    RuleSet {
        word,
        source: "California Vehicle Code 312.5 (other states differ)",
        edition: "",
        cut_off,
        tolerance: None,
        run_on: None,
        run_on_with_switches: None,
        walk: Some((59_545_728, 7)),
        distance: None,
    }
}

/// The set of rules under a name.
pub fn rule_set(word: &str) -> Option<&'static RuleSet> {
    RULE_SETS.iter().find(|rules| rules.word == word)
}

/// A number of the table.
pub fn number((mantissa, places): Number) -> Decimal {
    Decimal::new(mantissa, places)
}
