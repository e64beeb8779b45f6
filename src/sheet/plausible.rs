//! Quantities that no job of this trade has: 40 l of water in a drive unit, 0.80 m of play.
//!
//! In: a [`Sheet`]; out: warnings, since the rare true case must stay possible. A slip of the unit or of
//! a zero is else printed as a fact. The ranges are wide and common practice of the trade, without a
//! source; limits and verdicts on readings are elsewhere (assessment).

use rust_decimal::Decimal;

use super::number;
use super::problems;
use super::quantity::unit::Dimension;
use super::spelling;
use super::typed::Sheet;
use super::vocabulary::CheckKind;
use super::yaml::{Content, Entry, Node};
use crate::diagnostic::Problems;

/// What is usual for a quantity.
#[derive(Clone, Copy)]
struct Usual {
    /// What the quantity is, after "hardly right for".
    what: &'static str,
    dimension: Dimension,
    /// Least and most in thousandths of the dimension's base unit.
    range: (i64, i64),
    /// The range as people say it.
    said: &'static str,
}

const fn usual(
    what: &'static str,
    dimension: Dimension,
    range: (i64, i64),
    said: &'static str,
) -> Usual {
    Usual { what, dimension, range, said }
}

const KILOMETRE: i64 = 1_000_000;

const MILEAGE: Usual =
    usual("a mileage", Dimension::Distance, (0, 150_000 * KILOMETRE), "up to 150 000 km");
const LABOUR: Usual =
    usual("working time", Dimension::Duration, (1_000, 48 * 60_000), "1 min to 48 h");
const PLAY: Usual = usual("play", Dimension::Length, (0, 20_000), "up to 20 mm");
const WINDING: Usual = usual("a winding", Dimension::Resistance, (0, 100_000), "up to 100 ohm");
const SOUND: Usual =
    usual("a sound level", Dimension::SoundLevel, (10_000, 130_000), "10 to 130 dB");
const SEAT: Usual = usual("a bearing's seat", Dimension::Length, (1_000, 200_000), "1 to 200 mm");
const WARMTH: (i64, i64) = (-30_000, 250_000);

/// Fields of a sheet, as their keys from its top, with what is usual for them; the items of a list
/// have the path of their list. Each has its line in `tests/sheet/hardly-fields.yaml`.
const FIELDS: &[(&str, Usual)] = &[
    ("unit mileage", MILEAGE),
    ("arrival first-noticed at", MILEAGE),
    (
        "arrival water",
        usual("water in a drive unit", Dimension::Volume, (0, 3_000_000), "up to 3 l"),
    ),
    ("options labour", LABOUR),
    ("work labour", LABOUR),
    (
        "work torque set",
        usual("a screw's torque", Dimension::Torque, (200, 150_000), "0.2 to 150 Nm"),
    ),
    ("work discount share", usual("a discount", Dimension::Share, (0, 100_000), "up to 100 %")),
    (
        "ride distance",
        usual("a test ride", Dimension::Distance, (0, 200 * KILOMETRE), "up to 200 km"),
    ),
    (
        "ride climb",
        usual("a test ride's climb", Dimension::Distance, (0, 5 * KILOMETRE), "up to 5000 m"),
    ),
    (
        "ride cut-off",
        usual(
            "the speed at which the motor stops assisting",
            Dimension::Speed,
            (5_000, 80_000),
            "5 to 80 km/h",
        ),
    ),
    (
        "ride walk-assist",
        usual("walk assistance", Dimension::Speed, (500, 15_000), "0.5 to 15 km/h"),
    ),
    (
        "ride run-on",
        usual(
            "the distance that the motor runs on",
            Dimension::Length,
            (0, 50_000_000),
            "up to 50 m",
        ),
    ),
    ("bench at", usual("a part on the bench", Dimension::Temperature, WARMTH, "-30 to 250 degC")),
    (
        "bench ambient",
        usual("a workshop's air", Dimension::Temperature, (-30_000, 60_000), "-30 to 60 degC"),
    ),
    (
        "bench test-voltage",
        usual("an insulation test", Dimension::Voltage, (10_000, 1_000_000), "10 to 1000 V"),
    ),
    ("bench background", SOUND),
    ("bench cold", WINDING),
    ("bench hot", WINDING),
];

/// The fields that hold a check's readings.
const READINGS: [&str; 2] = ["bench before", "bench after"];

/// What is usual for the readings of a check; of some nothing is known.
fn usual_reading(check: CheckKind) -> Option<Usual> {
    Some(match check {
        CheckKind::CrankAxialPlay | CheckKind::CrankRadialPlay | CheckKind::AxlePlay => PLAY,
        CheckKind::WindingResistance => WINDING,
        CheckKind::InsulationResistance => usual(
            "insulation",
            Dimension::Resistance,
            (0, 1_000_000_000_000_000),
            "up to 1000 Gohm",
        ),
        CheckKind::NoLoadCurrent => {
            usual("a motor without load", Dimension::Current, (0, 30_000), "up to 30 A")
        }
        CheckKind::RunningNoise => SOUND,
        CheckKind::BackEmf => {
            usual("a motor turned by hand", Dimension::Voltage, (1, 150_000), "0.001 to 150 V")
        }
        CheckKind::TemperatureRise => {
            usual("a motor", Dimension::Temperature, WARMTH, "-30 to 250 degC")
        }
        CheckKind::ShaftSeat | CheckKind::HousingSeat => SEAT,
        CheckKind::BearingClearance => {
            usual("a bearing's clearance", Dimension::Length, (0, 1_000), "up to 1 mm")
        }
        CheckKind::BatteryVoltage => {
            usual("a battery pack", Dimension::Voltage, (0, 150_000), "up to 150 V")
        }
        _ => return None,
    })
}

/// Warns of every quantity far outside what is usual for its field.
pub fn check(sheet: &Sheet, problems: &mut Problems) {
    let language = sheet.fields.language.as_ref().map(|language| language.0.as_str());
    let comma = language.is_some_and(super::text::has_decimal_comma);
    walk(&sheet.tree, "", &mut |path, entries, node| {
        let Content::Scalar(text) = &node.content else { return };
        let row = match READINGS.contains(&path) {
            true => check_of(entries).and_then(usual_reading),
            false => FIELDS.iter().find(|(own, _)| *own == path).map(|(_, row)| *row),
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

/// The check of a block of the bench.
fn check_of(entries: &[Entry]) -> Option<CheckKind> {
    let entry = entries.iter().find(|entry| entry.key == "check")?;
    let Content::Scalar(text) = &entry.value.content else { return None };
    let word = spelling::as_word(text);
    CheckKind::ALL.iter().copied().find(|check| check.word() == word)
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
