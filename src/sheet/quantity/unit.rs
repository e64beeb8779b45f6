//! The units that quantities may carry: spellings, printed symbols and exact factors.
//!
//! SI prefixes and symbols after the BIPM SI Brochure (9th ed.); the mile is 1609.344 m, the inch
//! 25.4 mm and the pound-force 4.448 221 615 260 5 N exactly (NIST SP 811, from memory).

use rust_decimal::Decimal;

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// How far a unit was ridden; base unit m.
    Distance,
    /// Play, run-out, seats; base unit mm.
    Length,
    /// Water found; base unit ml.
    Volume,
    /// Working time; base unit min.
    Duration,
    /// Ride speed; base unit km/h.
    Speed,
    /// Windings and insulation; base unit ohm.
    Resistance,
    /// Supply and test voltage; base unit V.
    Voltage,
    /// No-load current; base unit A.
    Current,
    /// Screw torque; base unit N m.
    Torque,
    /// Temperature; base unit degC.
    Temperature,
    /// Unit or parcel weight; base unit g.
    Mass,
    /// Running noise; base unit dB.
    SoundLevel,
    /// Shares and rates; base unit %.
    Share,
    /// Vacuum and leak tests; base unit mbar.
    Pressure,
    /// Power on a roller; base unit W.
    Power,
    /// Pulses of a sensor; they are counted.
    Pulses,
}

/// One unit.
#[derive(Debug, PartialEq, Eq)]
pub struct Unit {
    /// What it measures.
    pub dimension: Dimension,
    /// Spellings that are read; the first is shown in advice.
    pub spellings: &'static [&'static str],
    /// The symbol that is printed.
    pub symbol: &'static str,
    /// Base units in one of these, as mantissa and decimal places.
    factor: (i64, u32),
    /// Base value at zero of this unit; not zero for Fahrenheit alone.
    offset: (i64, u32),
}

impl Unit {
    /// Base units in one of these.
    pub fn factor(&self) -> Decimal {
        Decimal::new(self.factor.0, self.factor.1)
    }

    /// Base value at zero of this unit.
    pub fn offset(&self) -> Decimal {
        Decimal::new(self.offset.0, self.offset.1)
    }
}

const fn unit(
    dimension: Dimension,
    spellings: &'static [&'static str],
    symbol: &'static str,
    factor: (i64, u32),
) -> Unit {
    Unit { dimension, spellings, symbol, factor, offset: (0, 0) }
}

/// Every unit; the first of a dimension is the one that advice shows.
pub const UNITS: &[Unit] = &[
    unit(Dimension::Distance, &["mi", "mile", "miles"], "mi", (1_609_344, 3)),
    unit(
        Dimension::Distance,
        &["km", "kms", "kilometre", "kilometres", "kilometer", "kilometers"],
        "km",
        (1000, 0),
    ),
    unit(Dimension::Distance, &["m", "metre", "metres", "meter", "meters"], "m", (1, 0)),
    unit(Dimension::Distance, &["ft"], "ft", (3048, 4)),
    unit(Dimension::Length, &["mm"], "mm", (1, 0)),
    unit(Dimension::Length, &["um", "µm", "μm"], "µm", (1, 3)),
    unit(Dimension::Length, &["cm"], "cm", (10, 0)),
    unit(Dimension::Length, &["m"], "m", (1000, 0)),
    unit(Dimension::Length, &["in", "inch", "inches"], "in", (254, 1)),
    unit(Dimension::Volume, &["ml", "mL"], "ml", (1, 0)),
    unit(Dimension::Volume, &["l", "L", "litre", "litres", "liter", "liters"], "l", (1000, 0)),
    unit(Dimension::Duration, &["min", "mins", "minute", "minutes"], "min", (1, 0)),
    unit(Dimension::Duration, &["h", "hr", "hrs", "hour", "hours"], "h", (60, 0)),
    // A sixtieth, to the digits that a mantissa holds.
    unit(
        Dimension::Duration,
        &["s", "sec", "secs", "second", "seconds"],
        "s",
        (16_666_666_666_666_667, 18),
    ),
    unit(Dimension::Speed, &["km/h"], "km/h", (1, 0)),
    unit(Dimension::Speed, &["mph"], "mph", (1_609_344, 6)),
    unit(Dimension::Resistance, &["ohm", "ohms", "Ω", "\u{2126}"], "Ω", (1, 0)),
    unit(Dimension::Resistance, &["mohm", "mΩ", "m\u{2126}"], "mΩ", (1, 3)),
    unit(Dimension::Resistance, &["kohm", "kΩ", "k\u{2126}"], "kΩ", (1000, 0)),
    unit(Dimension::Resistance, &["Mohm", "MΩ", "M\u{2126}"], "MΩ", (1_000_000, 0)),
    unit(Dimension::Resistance, &["Gohm", "GΩ", "G\u{2126}"], "GΩ", (1_000_000_000, 0)),
    unit(Dimension::Voltage, &["V", "volt", "volts"], "V", (1, 0)),
    unit(Dimension::Voltage, &["mV"], "mV", (1, 3)),
    unit(Dimension::Voltage, &["kV"], "kV", (1000, 0)),
    unit(Dimension::Current, &["A", "amp", "amps"], "A", (1, 0)),
    unit(Dimension::Current, &["mA"], "mA", (1, 3)),
    unit(Dimension::Torque, &["Nm", "N m", "N·m", "N.m"], "N·m", (1, 0)),
    unit(Dimension::Temperature, &["degC", "°C", "C", "deg C", "degrees C"], "°C", (1, 0)),
    Unit {
        dimension: Dimension::Temperature,
        spellings: &["degF", "°F", "F"],
        symbol: "°F",
        // Five ninths, to the 28 digits that a decimal holds.
        factor: (555_555_555_555_555_556, 18),
        offset: (-1_777_777_777_777_777_778, 17),
    },
    unit(Dimension::Mass, &["g"], "g", (1, 0)),
    unit(Dimension::Mass, &["kg"], "kg", (1000, 0)),
    unit(Dimension::SoundLevel, &["dB", "dB(A)", "dBA"], "dB", (1, 0)),
    unit(Dimension::Share, &["%"], "%", (1, 0)),
    unit(Dimension::Pressure, &["mbar"], "mbar", (1, 0)),
    unit(Dimension::Pressure, &["kPa"], "kPa", (10, 0)),
    unit(Dimension::Pressure, &["bar"], "bar", (1000, 0)),
    unit(Dimension::Pressure, &["hPa"], "hPa", (1, 0)),
    unit(Dimension::Pressure, &["Pa"], "Pa", (1, 2)),
    unit(Dimension::Power, &["W"], "W", (1, 0)),
    unit(Dimension::Power, &["kW"], "kW", (1000, 0)),
    unit(Dimension::Pulses, &["pulses", "pulse"], "", (1, 0)),
];

impl Dimension {
    /// The word for it in messages and tables.
    pub fn word(self) -> &'static str {
        match self {
            Self::Distance => "distance",
            Self::Length => "length",
            Self::Volume => "volume",
            Self::Duration => "duration",
            Self::Speed => "speed",
            Self::Resistance => "resistance",
            Self::Voltage => "voltage",
            Self::Current => "current",
            Self::Torque => "torque",
            Self::Temperature => "temperature",
            Self::Mass => "mass",
            Self::SoundLevel => "sound level",
            Self::Share => "share",
            Self::Pressure => "pressure",
            Self::Power => "power",
            Self::Pulses => "number of pulses",
        }
    }

    /// A number as advice shows it, in the first unit.
    pub fn example(self) -> String {
        let number = match self {
            Self::Distance => "1840",
            Self::Volume => "40",
            Self::Duration => "45",
            Self::Temperature => "21",
            _ => "0.8",
        };
        let unit = self.units().next().and_then(|unit| unit.spellings.first());
        format!("{number} {}", unit.copied().unwrap_or_default())
    }

    /// The units of this dimension.
    pub fn units(self) -> impl Iterator<Item = &'static Unit> {
        UNITS.iter().filter(move |unit| unit.dimension == self)
    }

    /// The first spelling of each unit of this dimension.
    pub fn spellings(self) -> Vec<&'static str> {
        self.units().map(|unit| unit.spellings[0]).collect()
    }

    /// The unit under a spelling.
    pub fn unit(self, spelling: &str) -> Option<&'static Unit> {
        let of = |spelling: &str| self.units().find(|unit| unit.spellings.contains(&spelling));
        // An abbreviation may carry its point: `1840 mi.`
        of(spelling).or_else(|| of(spelling.strip_suffix('.')?))
    }
}
