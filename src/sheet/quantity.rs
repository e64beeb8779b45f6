//! A number with its unit (`0.8 mm`, `1840 mi`, `45 min`), kept as typed and in its base unit.

pub mod unit;

use rust_decimal::Decimal;

use super::number;
use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;
use unit::{Dimension, Unit};

/// A number with a unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantity {
    /// The number as typed, its decimal places kept.
    pub number: Decimal,
    /// The unit as typed.
    pub unit: &'static Unit,
}

impl Quantity {
    /// The value in the dimension's base unit.
    pub fn in_base(&self) -> Decimal {
        self.number * self.unit.factor() + self.unit.offset()
    }

    /// Reads `number unit`, or reports what is wrong with it.
    pub fn parse(
        text: &str,
        dimension: Dimension,
        node: &Node,
        reader: &mut Reader<'_>,
    ) -> Option<Self> {
        let what = dimension.word();
        let units = dimension.spellings();
        let place = reader.place(node);
        if dimension == Dimension::Duration
            && let Some(duration) = hours_and_minutes(text)
        {
            return Some(duration);
        }
        let Some(("", digits, spelling)) = number::around_number(text) else {
            let example = dimension.example();
            reader.report(problems::wrong_form(place, what, text, &example));
            return None;
        };
        let number = match number::decimal(digits, reader.decimal_comma) {
            Ok(number) => number,
            Err(error) => {
                reader.report(match error.hint() {
                    Some(hint) => problems::doubtful_number(place, digits, hint),
                    None => problems::wrong_form(place, what, text, &dimension.example()),
                });
                return None;
            }
        };
        if spelling.is_empty() {
            reader.report(problems::missing_unit(place, digits, &units));
            return None;
        }
        let Some(unit) = dimension.unit(spelling) else {
            reader.report(problems::wrong_unit(place, spelling, what, &units));
            return None;
        };
        Some(Self { number, unit })
    }

    /// Regular expression of a quantity of a dimension, for the schema.
    pub fn pattern(dimension: Dimension) -> String {
        let escaped = |spelling: &&str| {
            spelling
                .chars()
                .flat_map(|c| if "()./".contains(c) { vec!['\\', c] } else { vec![c] })
                .collect()
        };
        let spellings: Vec<String> =
            dimension.units().flat_map(|unit| unit.spellings.iter().map(escaped)).collect();
        let one = format!(r"[-−]?\d+(,\d{{3}})*([.,]\d+)?\s*({})\.?", spellings.join("|"));
        match dimension {
            Dimension::Duration => format!(r"({one}|\d+\s*h[a-z]*\s*\d+\s*(m[a-z]*)?)"),
            _ => one,
        }
    }
}

/// `1h 30min`, in minutes.
fn hours_and_minutes(text: &str) -> Option<Quantity> {
    let (hours, rest) = text.split_at(text.find(|c: char| !c.is_ascii_digit())?);
    let (unit, minutes) = rest.split_at(rest.find(|c: char| c.is_ascii_digit())?);
    let (minutes, unit_after) =
        minutes.split_at(minutes.find(|c: char| !c.is_ascii_digit()).unwrap_or(minutes.len()));
    let of = |spelling: &str| Dimension::Duration.unit(spelling.trim()).map(|unit| unit.symbol);
    let is_such = of(unit) == Some("h") && (unit_after.is_empty() || of(unit_after) == Some("min"));
    let (hours, minutes) = (hours.parse::<u16>().ok()?, minutes.parse::<u16>().ok()?);
    let in_minutes = u32::from(hours) * 60 + u32::from(minutes);
    let unit = Dimension::Duration.unit("min").filter(|_| is_such && minutes < 60)?;
    Some(Quantity { number: Decimal::from(in_minutes), unit })
}

/// Defines a quantity of one dimension that is not negative.
macro_rules! quantity {
    ($(#[doc = $about:literal])+ $name:ident, $dimension:expr, $what:literal, $example:literal) => {
        $(#[doc = $about])+
        #[derive(Clone, Debug, PartialEq)]
        pub struct $name(pub Quantity);

        impl Default for $name {
            fn default() -> Self {
                Self(Quantity { number: Decimal::ZERO, unit: &unit::UNITS[0] })
            }
        }

        impl Value for $name {
            fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
                let Some(text) = reader.scalar(node, $what) else { return Self::default() };
                let Some(quantity) = Quantity::parse(text, $dimension, node, reader) else {
                    return Self::default();
                };
                if quantity.number.is_sign_negative() && $dimension != Dimension::Temperature {
                    let place = reader.place(node);
                    reader.report(problems::wrong_form(place, $what, text, $example));
                }
                Self(quantity)
            }

            fn shape() -> Shape {
                let pattern = format!("^{}$", Quantity::pattern($dimension));
                Shape::Form { name: $what, pattern, example: $example }
            }
        }
    };
}

quantity!(
    /// How far a unit or a bike was ridden.
    Distance, Dimension::Distance, "distance with unit", "1840 mi"
);
quantity!(
    /// A size in millimetres and the like.
    Length, Dimension::Length, "length with unit", "12 mm"
);
quantity!(
    /// How much water was found.
    Volume, Dimension::Volume, "volume with unit", "40 ml"
);
quantity!(
    /// How long work or a ride took.
    Duration, Dimension::Duration, "duration with unit", "45 min"
);
quantity!(
    /// How fast.
    Speed, Dimension::Speed, "speed with unit", "25.2 km/h"
);
quantity!(
    /// How tight a screw was set.
    Torque, Dimension::Torque, "torque with unit", "8 Nm"
);
quantity!(
    /// How warm the part was when it was measured.
    Temperature, Dimension::Temperature, "temperature with unit", "21 degC"
);
quantity!(
    /// A voltage, such as an insulation test's.
    Voltage, Dimension::Voltage, "voltage with unit", "250 V"
);
quantity!(
    /// A pressure, such as that of a vacuum below the room's.
    Pressure, Dimension::Pressure, "pressure with unit", "200 mbar"
);
quantity!(
    /// A mass, or the weight that presses on something.
    Mass, Dimension::Mass, "mass with unit", "10 kg"
);
quantity!(
    /// A resistance.
    Resistance, Dimension::Resistance, "resistance with unit", "212 mohm"
);
quantity!(
    /// A current.
    Current, Dimension::Current, "current with unit", "0.9 A"
);
quantity!(
    /// A sound level.
    SoundLevel, Dimension::SoundLevel, "sound level with unit", "50 dB"
);
quantity!(
    /// A share in per cent, such as a tax rate.
    Share, Dimension::Share, "share in per cent", "20 %"
);
