//! Readings of the bench as typed: which check, before and after, under which conditions.
//!
//! A reading may carry its uncertainty (`0.80 mm ± 0.02 mm`). Limits and verdicts are not here.

use rust_decimal::Decimal;

use super::number::Count;
use super::problems;
use super::quantity::unit::{Dimension, UNITS};
use super::quantity::{Quantity, Temperature, Voltage};
use super::reader::{Marked, Reader, Value, record};
use super::shape::Shape;
use super::text::Text;
use super::vocabulary::{CheckKind, Placing, TurningRing};
use super::yaml::{Content, Node};

impl CheckKind {
    /// What the check measures; `None` where it takes states and no readings.
    pub fn dimension(self) -> Option<Dimension> {
        Some(match self {
            Self::CrankAxialPlay
            | Self::CrankRadialPlay
            | Self::AxlePlay
            | Self::ShaftSeat
            | Self::HousingSeat
            | Self::BearingClearance => Dimension::Length,
            Self::WindingResistance | Self::InsulationResistance => Dimension::Resistance,
            Self::NoLoadCurrent => Dimension::Current,
            Self::RunningNoise => Dimension::SoundLevel,
            Self::BackEmf | Self::BatteryVoltage => Dimension::Voltage,
            Self::TemperatureRise => Dimension::Temperature,
            Self::HallStates => return None,
        })
    }
}

/// One value of a reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The value.
    pub value: Quantity,
    /// Its uncertainty, where one is typed.
    pub uncertainty: Option<Quantity>,
}

/// Defines one reading of one dimension.
macro_rules! one_reading {
    ($(#[doc = $about:literal])+ $name:ident, $dimension:expr, $what:literal, $example:literal) => {
        $(#[doc = $about])+
        #[derive(Clone, Debug)]
        pub struct $name(pub Reading);

        impl Default for $name {
            fn default() -> Self {
                let value = Quantity { number: Decimal::ZERO, unit: &UNITS[0] };
                Self(Reading { value, uncertainty: None })
            }
        }

        impl Value for $name {
            fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
                let Some(found) = reading(node, $dimension, reader) else { return Self::default() };
                if found.value.number.is_sign_negative() {
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
    /// A speed that was measured, with its uncertainty where one is typed.
    SpeedReading, Dimension::Speed, "measured speed", "25.2 km/h"
);
one_reading!(
    /// A length that was measured, with its uncertainty where one is typed.
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
        /// Reading as found, or a list of them.
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
        /// How the hall sensors are placed, where it is known.
        placing: Option<Placing>, "120-degrees";
        /// Designation of the bearing, for seats and clearance.
        bearing: Option<Text>, "6804-2RS C3";
        /// Tolerance zone of the seat (ISO 286), where it is known.
        zone: Option<Text>, "k5";
        /// Which ring of the bearing turns; the inner one on a crank, the outer one in a hub.
        turning_ring: Option<TurningRing>, "inner";
        /// Cells in series in the battery pack.
        cells: Option<Count>, "10";
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
    fn parse(&self, dimension: Dimension, reader: &mut Reader<'_>) -> Vec<Reading> {
        self.0.iter().filter_map(|node| reading(node, dimension, reader)).collect()
    }
}

fn reading(node: &Node, dimension: Dimension, reader: &mut Reader<'_>) -> Option<Reading> {
    let text = reader.scalar(node, "a reading")?;
    let mut halves = text.splitn(2, '±');
    let value = Quantity::parse(halves.next()?.trim(), dimension, node, reader)?;
    let uncertainty = match halves.next() {
        Some(half) => Some(Quantity::parse(half.trim(), dimension, node, reader)?),
        None => None,
    };
    if uncertainty.as_ref().is_some_and(|one| one.number.is_sign_negative()) {
        let place = reader.place(node);
        reader.report(problems::wrong_form(place, "reading", text, "0.80 mm ± 0.02 mm"));
    }
    Some(Reading { value, uncertainty })
}

impl Value for BenchCheck {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let fields = BenchFields::read(node, reader);
        if reader.has_failed() {
            // Only the check says what its readings may be.
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
