//! Readings of the bench as typed: which check, before and after, under which conditions.
//!
//! A reading may carry its uncertainty (`0.80 mm ± 0.02 mm`). Limits and verdicts are not here.

use super::problems;
use super::quantity::unit::Dimension;
use super::quantity::{Quantity, Temperature, Voltage};
use super::reader::{Reader, Value, record};
use super::shape::Shape;
use super::text::Text;
use super::vocabulary::CheckKind;
use super::yaml::{Content, Node};

impl CheckKind {
    /// What the check measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Self::CrankAxialPlay | Self::CrankRadialPlay | Self::AxlePlay => Dimension::Length,
            Self::WindingResistance | Self::InsulationResistance => Dimension::Resistance,
            Self::NoLoadCurrent => Dimension::Current,
            Self::RunningNoise => Dimension::SoundLevel,
            Self::BackEmf => Dimension::Voltage,
            Self::TemperatureRise => Dimension::Temperature,
        }
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

/// A bench check with its readings.
#[derive(Clone, Debug, Default)]
pub struct BenchCheck {
    /// Which check.
    pub check: CheckKind,
    /// Readings as found.
    pub before: Vec<Reading>,
    /// Readings as left.
    pub after: Vec<Reading>,
    /// Temperature of the part.
    pub at: Option<Temperature>,
    /// Voltage of an insulation test.
    pub test_voltage: Option<Voltage>,
    /// Remarks.
    pub note: Option<Text>,
}

record! {
    /// A check on the bench, before and after the work.
    pub struct BenchFields {
        /// Which check.
        check: CheckKind, "crank-radial-play";
        /// Reading as found, or a list of them.
        before: Option<RawReadings>, "0.80 mm";
        /// Reading as left, or a list of them; an uncertainty may follow: `0.05 mm ± 0.02 mm`.
        after: Option<RawReadings>, "0.05 mm";
        /// Temperature of the part while it was measured.
        at: Option<Temperature>, "21 degC";
        /// Voltage of an insulation test.
        test_voltage: Option<Voltage>, "250 V";
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
    fn parse(self, dimension: Dimension, reader: &mut Reader<'_>) -> Vec<Reading> {
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
        let BenchFields { check, before, after, at, test_voltage, note } =
            BenchFields::read(node, reader);
        let dimension = check.dimension();
        let mut parse = |raw: Option<RawReadings>| {
            raw.map_or_else(Vec::new, |raw| raw.parse(dimension, reader))
        };
        Self { check, before: parse(before), after: parse(after), at, test_voltage, note }
    }

    fn shape() -> Shape {
        BenchFields::shape()
    }
}
