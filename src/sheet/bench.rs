//! Readings of the bench as typed: which check, before and after, under which conditions.
//!
//! A reading may carry its uncertainty (`0.80 mm ± 0.02 mm`) or be beyond its meter's range
//! (`over 100 Mohm`). A workshop's own limit for a check is read here too, since its unit is the check's.
//! Verdicts are not here.

use rust_decimal::Decimal;

use super::number::{self, Count};
use super::problems;
use super::quantity::unit::{Dimension, UNITS};
use super::quantity::{Duration, Mass, Pressure, Quantity, Temperature, Voltage};
use super::reader::{Marked, Reader, Value, record};
use super::shape::Shape;
use super::text::Text;
use super::vocabulary::{CheckKind, Chemistry, Placing, TurningRing};
use super::yaml::{Content, Node};

/// On which side of its number a reading is, if the meter was over its range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// `>100 Mohm`: more than this.
    Above,
    /// `<0.1 ohm`: less than this.
    Below,
}

impl Beyond {
    /// What a reading starts with, and the rest of it. YAML wants `>` in quotes; words do without.
    fn split(text: &str) -> (Option<Self>, &str) {
        let starts = [
            (">", Self::Above),
            ("over ", Self::Above),
            ("<", Self::Below),
            ("under ", Self::Below),
        ];
        let found =
            starts.iter().find_map(|(start, side)| Some((*side, text.strip_prefix(start)?)));
        found.map_or((None, text), |(side, rest)| (Some(side), rest.trim_start()))
    }

    /// The sign as typed and printed.
    pub fn sign(self) -> char {
        match self {
            Self::Above => '>',
            Self::Below => '<',
        }
    }
}

/// One value of a reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The value.
    pub value: Quantity,
    /// Its uncertainty, if one is typed.
    pub uncertainty: Option<Quantity>,
    /// The side on which the true value is, if the meter was over its range.
    pub beyond: Option<Beyond>,
}

impl Reading {
    /// A value without an uncertainty.
    pub fn of(value: Quantity) -> Self {
        Self { value, uncertainty: None, beyond: None }
    }
}

/// Defines one reading of one dimension.
macro_rules! one_reading {
    ($(#[doc = $about:literal])+ $name:ident, $dimension:expr, $what:literal, $example:literal) => {
        $(#[doc = $about])+
        #[derive(Clone, Debug)]
        pub struct $name(pub Reading);

        impl Default for $name {
            fn default() -> Self {
                Self(Reading::of(Quantity { number: Decimal::ZERO, unit: &UNITS[0] }))
            }
        }

        impl Value for $name {
            fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
                let Some(found) = reading(node, $dimension, reader) else { return Self::default() };
                if found.value.number.is_sign_negative() || found.beyond.is_some() {
                    let (place, text) = (reader.place(node), reader.scalar(node, $what));
                    let text = text.unwrap_or_default().to_owned();
                    reader.report(problems::wrong_form(place, $what, &text, $example));
                }
                Self(found)
            }

            fn shape() -> Shape {
                let one = Quantity::pattern($dimension);
                let pattern = format!(r"^{one}(\s*±\s*{one})?$");
                Shape::Form { name: $what, pattern, example: $example }
            }
        }
    };
}

one_reading!(
    /// A speed that was measured, with its uncertainty if one is typed.
    SpeedReading, Dimension::Speed, "measured speed", "25.2 km/h"
);
one_reading!(
    /// A length that was measured, with its uncertainty if one is typed.
    LengthReading, Dimension::Length, "measured length", "1.2 m"
);

/// A bench check with its readings and the circumstances that its rule needs.
#[derive(Clone, Debug, Default)]
pub struct BenchCheck {
    /// Which check.
    pub check: Marked<CheckKind>,
    /// Readings as found.
    pub before: Vec<Reading>,
    /// Readings as left.
    pub after: Vec<Reading>,
    /// Resistance of the winding before a run.
    pub cold: Option<Reading>,
    /// Resistance of the winding at the end of a run.
    pub hot: Option<Reading>,
    /// Sound level without the unit.
    pub background: Vec<Reading>,
    /// What else the sheet says of it.
    pub fields: BenchFields,
}

record! {
    /// A check on the bench, before and after the work.
    pub struct BenchFields {
        /// Which check.
        check: Marked<CheckKind>, "crank-radial-play";
        /// Which of several it is of: a part's word, or words of one's own; printed in its name.
        of: Option<Text>, "main-bearing-drive-side";
        /// Reading as found, or a list of them; `over 100 Mohm` or `under 0.1 ohm` if the meter was over its range.
        before: Option<RawReadings>, "0.80 mm";
        /// Reading as left, or a list of them; an uncertainty may follow: `0.05 mm ± 0.02 mm`.
        after: Option<RawReadings>, "0.05 mm";
        /// Temperature of the part while it was measured.
        at: Option<Temperature>, "21 degC";
        /// Temperature of the surroundings at the end of a run.
        ambient: Option<Temperature>, "22 degC";
        /// Resistance of the winding before a run.
        cold: Option<RawReadings>, "200 mohm";
        /// Resistance of the winding at the end of a run.
        hot: Option<RawReadings>, "210 mohm";
        /// Voltage of an insulation test.
        test_voltage: Option<Voltage>, "250 V";
        /// Sound level without the unit: one for both, or one before and one after the work.
        background: Option<RawReadings>, "36 dB";
        /// Hall states as found, in the order they came while the rotor was turned by hand.
        states_before: Vec<Text>, "[001, 011, 010, 110, 100]";
        /// Hall states as left.
        states_after: Vec<Text>, "[001, 011, 010, 110, 100, 101]";
        /// How the hall sensors are placed, if it is known.
        placing: Option<Placing>, "120-degrees";
        /// Designation of the bearing, for seats and clearance.
        bearing: Option<Text>, "6804-2RS C3";
        /// Tolerance zone of the seat (ISO 286), if it is known.
        zone: Option<Text>, "k5";
        /// Which ring of the bearing turns; the inner one on a crank, the outer one in a hub.
        turning_ring: Option<TurningRing>, "inner";
        /// Cells in series in the battery pack.
        cells: Option<Count>, "10";
        /// Chemistry of its cells; lithium-ion if nothing is said.
        chemistry: Option<Chemistry>, "lfp";
        /// Pressure that a vacuum was drawn to, below that of the room.
        drawn_to: Option<Pressure>, "200 mbar";
        /// How long it was held before it was read.
        held_for: Option<Duration>, "60 s";
        /// Weight that pressed or hung while it was read.
        load: Option<Mass>, "10 kg";
        /// Remarks on how it was measured.
        note: Option<Text>, "dial gauge at the crank's end";
    }
}

/// Readings whose unit only the check decides.
#[derive(Clone, Debug, Default)]
pub struct RawReadings(Vec<Node>);

impl Value for RawReadings {
    fn read(node: &Node, _: &mut Reader<'_>) -> Self {
        match &node.content {
            Content::List(items) => Self(items.clone()),
            _ => Self(vec![node.clone()]),
        }
    }

    fn shape() -> Shape {
        Shape::Either(vec![Shape::Text, Shape::List(Box::new(Shape::Text))])
    }
}

impl RawReadings {
    /// Reports bare numbers.
    fn ask_for_units(&self, reader: &mut Reader<'_>) {
        for node in &self.0 {
            if let Content::Scalar(text) = &node.content
                && number::decimal(text, reader.decimal_comma).is_ok()
            {
                let place = reader.place(node);
                reader.report(problems::bare_reading(place, text));
            }
        }
    }

    fn parse(&self, dimension: Dimension, reader: &mut Reader<'_>) -> Vec<Reading> {
        self.0.iter().filter_map(|node| reading(node, dimension, reader)).collect()
    }
}

fn reading(node: &Node, dimension: Dimension, reader: &mut Reader<'_>) -> Option<Reading> {
    let text = reader.scalar(node, "a reading")?;
    let (beyond, number) = Beyond::split(text);
    let mut halves = number.splitn(2, '±');
    let value = Quantity::parse(halves.next()?.trim(), dimension, node, reader)?;
    let uncertainty = match halves.next() {
        Some(half) => Some(Quantity::parse(half.trim(), dimension, node, reader)?),
        None => None,
    };
    if uncertainty.as_ref().is_some_and(|one| one.number.is_sign_negative()) {
        let place = reader.place(node);
        reader.report(problems::wrong_form(place, "reading", text, "0.80 mm ± 0.02 mm"));
    }
    Some(Reading { value, uncertainty, beyond })
}

impl Value for BenchCheck {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let fields = BenchFields::read(node, reader);
        if reader.has_failed() {
            // Only the check says what its readings may be; a unit they need whatever it is.
            let raw = [&fields.before, &fields.after].into_iter().flatten();
            raw.for_each(|raw| raw.ask_for_units(reader));
            return Self::default();
        }
        let mut parse = |raw: &Option<RawReadings>, dimension: Option<Dimension>| {
            let Some(raw) = raw else { return Vec::new() };
            match dimension {
                Some(dimension) => raw.parse(dimension, reader),
                None => {
                    let place = reader.place(node);
                    reader.report(problems::states_not_readings(place));
                    Vec::new()
                }
            }
        };
        let dimension = fields.check.dimension();
        let before = parse(&fields.before, dimension);
        let after = parse(&fields.after, dimension);
        let cold = parse(&fields.cold, Some(Dimension::Resistance)).into_iter().next();
        let hot = parse(&fields.hot, Some(Dimension::Resistance)).into_iter().next();
        let background = parse(&fields.background, Some(Dimension::SoundLevel));
        Self { check: fields.check.clone(), before, after, cold, hot, background, fields }
    }

    fn shape() -> Shape {
        BenchFields::shape()
    }
}

/// A workshop's own limit for a check that reads one figure directly.
#[derive(Clone, Debug, Default)]
pub struct CheckLimit {
    /// Which check.
    pub check: CheckKind,
    /// The most that is still good.
    pub at_most: Option<Quantity>,
    /// The least that is still good.
    pub at_least: Option<Quantity>,
}

record! {
    /// The workshop's own limit for a check that reads one figure directly, such as `crank-drag`.
    pub struct CheckLimitFields {
        /// Which check.
        check: Marked<CheckKind>, "crank-drag";
        /// The most that is still good, in the check's unit.
        at_most: Option<RawReadings>, "0.4 Nm";
        /// The least that is still good.
        at_least: Option<RawReadings>, "150 mbar";
    }
}

impl Value for CheckLimit {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let fields = CheckLimitFields::read(node, reader);
        let dimension = fields.check.dimension().filter(|_| fields.check.reads_directly());
        let Some(dimension) = dimension else {
            let words = CheckKind::ALL.iter().filter(|kind| kind.reads_directly());
            let words: Vec<&str> = words.map(|kind| kind.word()).collect();
            let place = reader.place(node);
            reader.report(problems::limit_of_check(place, fields.check.word(), &words));
            return Self::default();
        };
        let mut edge = |raw: &Option<RawReadings>| {
            let readings = raw.as_ref()?.parse(dimension, reader);
            readings.into_iter().next().map(|reading| reading.value)
        };
        let (at_most, at_least) = (edge(&fields.at_most), edge(&fields.at_least));
        let base = |one: &Quantity| one.number.checked_mul(one.unit.factor());
        let is_reversed = match (&at_least, &at_most) {
            (Some(least), Some(most)) => base(most) < base(least),
            _ => false,
        };
        if is_reversed || (fields.at_most.is_none() && fields.at_least.is_none()) {
            let place = reader.place(node);
            reader.report(problems::no_limit(place, fields.check.word()));
        }
        Self { check: fields.check.value, at_most, at_least }
    }

    fn shape() -> Shape {
        CheckLimitFields::shape()
    }
}

impl BenchCheck {
    /// Which of several it is of, as typed: `of:`, else the bearing.
    pub fn named(&self) -> Option<String> {
        let fields = &self.fields;
        fields.of.as_ref().or(fields.bearing.as_ref()).map(|text| text.0.clone())
    }
}
