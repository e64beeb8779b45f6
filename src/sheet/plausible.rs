//! Quantities that no job of this trade has: 40 l of water in a drive unit, 0.80 m of play.
//!
//! In: a [`Sheet`]; out: warnings, since the rare true case must stay possible. A slip of the unit or of
//! a zero is else printed as a fact. The ranges are wide and common practice of the trade, without a
//! source; limits and verdicts on readings are elsewhere (assessment).

use rust_decimal::Decimal;

use super::number;
use super::problems;
use super::quantity::unit::Dimension;
use super::typed::Sheet;
use super::yaml::{Content, Entry, Node};
use crate::diagnostic::Problems;

/// What is usual for one field.
struct Usual {
    /// Keys from the top of the sheet; items of a list have the path of their list.
    path: &'static str,
    /// What the quantity is, after "hardly right for".
    what: &'static str,
    dimension: Dimension,
    /// Least and most in thousandths of the dimension's base unit.
    range: (i64, i64),
    /// The range as people say it.
    said: &'static str,
}

const fn usual(
    path: &'static str,
    what: &'static str,
    dimension: Dimension,
    range: (i64, i64),
    said: &'static str,
) -> Usual {
    Usual { path, what, dimension, range, said }
}

const KILOMETRE: i64 = 1_000_000;
const RIDDEN: (i64, i64) = (0, 150_000 * KILOMETRE);
const LABOUR: (i64, i64) = (1_000, 48 * 60_000);
const WARMTH: (i64, i64) = (-30_000, 250_000);

/// Fields of a sheet with what is usual for them.
const FIELDS: &[Usual] = &[
    usual("unit ridden", "a unit's mileage", Dimension::Distance, RIDDEN, "up to 150 000 km"),
    usual("arrival noticed at", "a mileage", Dimension::Distance, RIDDEN, "up to 150 000 km"),
    usual("arrival water", "water in a drive unit", Dimension::Volume, (0, 3_000_000), "up to 3 l"),
    usual("options labour", "working time", Dimension::Duration, LABOUR, "1 min to 48 h"),
    usual("work labour", "working time", Dimension::Duration, LABOUR, "1 min to 48 h"),
    usual(
        "work torque set",
        "a screw's torque",
        Dimension::Torque,
        (200, 150_000),
        "0.2 to 150 Nm",
    ),
    usual("work discount share", "a discount", Dimension::Share, (0, 100_000), "up to 100 %"),
    usual(
        "ride distance",
        "a test ride",
        Dimension::Distance,
        (0, 200 * KILOMETRE),
        "up to 200 km",
    ),
    usual(
        "ride climb",
        "a test ride's climb",
        Dimension::Distance,
        (0, 5 * KILOMETRE),
        "up to 5000 m",
    ),
    usual(
        "ride cut-off",
        "the speed at which the motor stops",
        Dimension::Speed,
        (5_000, 80_000),
        "5 to 80 km/h",
    ),
    usual("ride walk-assist", "walk assistance", Dimension::Speed, (500, 15_000), "0.5 to 15 km/h"),
    usual(
        "ride run-on",
        "the way that the motor runs on",
        Dimension::Length,
        (0, 50_000_000),
        "up to 50 m",
    ),
    usual("bench at", "a part on the bench", Dimension::Temperature, WARMTH, "-30 to 250 degC"),
    usual(
        "bench ambient",
        "a workshop's air",
        Dimension::Temperature,
        (-30_000, 60_000),
        "-30 to 60 degC",
    ),
    usual(
        "bench test-voltage",
        "an insulation test",
        Dimension::Voltage,
        (10_000, 1_000_000),
        "10 to 1000 V",
    ),
    usual(
        "bench background",
        "a sound level",
        Dimension::SoundLevel,
        (10_000, 130_000),
        "10 to 130 dB",
    ),
    usual("bench cold", "a winding", Dimension::Resistance, (0, 100_000), "up to 100 ohm"),
    usual("bench hot", "a winding", Dimension::Resistance, (0, 100_000), "up to 100 ohm"),
];

/// Readings of the bench by the name of their check.
const READINGS: &[Usual] = &[
    usual("crank-axial-play", "play", Dimension::Length, (0, 20_000), "up to 20 mm"),
    usual("crank-radial-play", "play", Dimension::Length, (0, 20_000), "up to 20 mm"),
    usual("axle-play", "play", Dimension::Length, (0, 20_000), "up to 20 mm"),
    usual("winding-resistance", "a winding", Dimension::Resistance, (0, 100_000), "up to 100 ohm"),
    usual(
        "insulation-resistance",
        "insulation",
        Dimension::Resistance,
        (0, 1_000_000_000_000_000),
        "up to 1000 Gohm",
    ),
    usual("no-load-current", "a motor without load", Dimension::Current, (0, 30_000), "up to 30 A"),
    usual(
        "running-noise",
        "a sound level",
        Dimension::SoundLevel,
        (10_000, 130_000),
        "10 to 130 dB",
    ),
    usual("back-emf", "a motor turned by hand", Dimension::Voltage, (1, 150_000), "0.001 to 150 V"),
    usual("temperature-rise", "a motor", Dimension::Temperature, WARMTH, "-30 to 250 degC"),
    usual("shaft-seat", "a bearing's seat", Dimension::Length, (1_000, 200_000), "1 to 200 mm"),
    usual("housing-seat", "a bearing's seat", Dimension::Length, (1_000, 200_000), "1 to 200 mm"),
    usual(
        "bearing-clearance",
        "a bearing's clearance",
        Dimension::Length,
        (0, 1_000),
        "up to 1 mm",
    ),
    usual("battery-voltage", "a battery pack", Dimension::Voltage, (0, 150_000), "up to 150 V"),
];

/// Warns of every quantity far outside what is usual for its field.
pub fn check(sheet: &Sheet, problems: &mut Problems) {
    let language = sheet.fields.language.as_ref().map(|language| language.0.as_str());
    let comma = language.is_some_and(super::text::has_decimal_comma);
    walk(&sheet.tree, "", &mut |path, entries, node| {
        let Content::Scalar(text) = &node.content else { return };
        let is_reading = matches!(path, "bench before" | "bench after");
        let row = match is_reading {
            true => {
                let check = scalar(entries, "check");
                READINGS.iter().find(|row| Some(row.path) == check)
            }
            false => FIELDS.iter().find(|row| row.path == path),
        };
        if let Some(row) = row.filter(|row| is_outside(text, row, comma)) {
            let place = sheet.place(&node.span);
            problems.push(problems::implausible(place, text, row.what, row.said));
        }
    });
}

/// Shows every value with its path and the block that it is in.
fn walk(node: &Node, path: &str, see: &mut impl FnMut(&str, &[Entry], &Node)) {
    fn step(node: &Node, path: &str, block: &[Entry], see: &mut impl FnMut(&str, &[Entry], &Node)) {
        match &node.content {
            Content::List(items) => items.iter().for_each(|item| step(item, path, block, see)),
            Content::Map(entries) => {
                for entry in entries {
                    let below = format!("{path} {}", entry.key);
                    step(&entry.value, below.trim_start(), entries, see);
                }
            }
            Content::Empty | Content::Scalar(_) => see(path, block, node),
        }
    }
    step(node, path, &[], see);
}

fn scalar<'a>(entries: &'a [Entry], key: &str) -> Option<&'a str> {
    let entry = entries.iter().find(|entry| entry.key == key)?;
    match &entry.value.content {
        Content::Scalar(text) => Some(text),
        _ => None,
    }
}

/// True for a quantity that can be read and is not in its range; what cannot be read has its own error.
fn is_outside(text: &str, row: &Usual, comma: bool) -> bool {
    let value = text.split('±').next().unwrap_or_default().trim();
    let base = || {
        let (_, digits, spelling) = number::around_number(value)?;
        let unit = row.dimension.unit(spelling)?;
        let number =
            number::decimal(digits, comma).or_else(|_| number::decimal(digits, !comma)).ok()?;
        number.checked_mul(unit.factor())?.checked_add(unit.offset())
    };
    // Less than nothing has its own error, but for a temperature.
    let is_told =
        |base: &Decimal| base.is_sign_negative() && row.dimension != Dimension::Temperature;
    let (least, most) = (Decimal::new(row.range.0, 3), Decimal::new(row.range.1, 3));
    base().is_some_and(|base| !is_told(&base) && !(least..=most).contains(&base))
}
