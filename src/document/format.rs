//! How numbers, days, amounts and digests are printed in a language.

use chrono::{Datelike, NaiveDate};
use rust_decimal::prelude::FromPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

use super::text;
use super::wording::Wording;
use crate::photo::Taken;
use crate::sheet::price::Currency;
use crate::sheet::profile::Units;
use crate::sheet::quantity::Quantity;

/// Narrow no-break space: groups digits and ties a number to its unit (SI Brochure, 9th ed., 5.4).
const THIN: char = '\u{202f}';

/// `2 March 2026`, in the order of the language.
pub fn day(date: NaiveDate, wording: &Wording) -> String {
    wording.cldr().day(date)
}

/// `2 March`, with its year only if that is not the year of the day beside it.
pub fn day_near(date: NaiveDate, near: NaiveDate, wording: &Wording) -> String {
    match date.year() == near.year() {
        true => wording.cldr().day_of_year(date),
        false => day(date, wording),
    }
}

/// Digits in groups of three with the language's decimal mark.
pub fn number(value: Decimal, wording: &Wording) -> String {
    let text = value.abs().to_string();
    let (whole, fraction) =
        text.split_once('.').map_or((text.as_str(), None), |(w, f)| (w, Some(f)));
    let mut grouped =
        if value.is_sign_negative() { String::from('\u{2212}') } else { String::new() };
    for (at, digit) in whole.chars().enumerate() {
        // Four digits stay together, so that a year or a model number reads as one.
        if at != 0 && (whole.len() - at).is_multiple_of(3) && 4 < whole.len() {
            grouped.push(THIN);
        }
        grouped.push(digit);
    }
    if let Some(fraction) = fraction {
        grouped.push_str(wording.cldr().decimal_mark());
        grouped.push_str(fraction);
    }
    grouped
}

/// A number with its unit as typed.
pub fn quantity(quantity: &Quantity, wording: &Wording) -> String {
    format!("{}{THIN}{}", number(quantity.number, wording), quantity.unit.symbol)
}

/// A length that is read off a bar: `10 mm`, `0.5 mm`.
pub fn tenths_of_mm(tenths: u32, wording: &Wording) -> String {
    let mm = Decimal::new(tenths.into(), 1).normalize();
    format!("{}{THIN}mm", number(mm, wording))
}

/// A typed value with its unit tied to the number: `48 h` stays on one line.
pub fn tied(text: &str) -> String {
    let mut tied = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    let mut last = ' ';
    while let Some(letter) = letters.next() {
        let before_unit =
            last.is_ascii_digit() && letters.peek().is_some_and(|next| next.is_alphabetic());
        tied.push(if letter == ' ' && before_unit { THIN } else { letter });
        last = letter;
    }
    tied
}

/// A distance in the paper's units, to the places that it was typed with.
pub fn distance(quantity: &Quantity, units: Units, wording: &Wording) -> String {
    let converted = |symbol: &str, metres: Decimal| {
        let mut value = (quantity.in_base() / metres).round_dp_with_strategy(
            quantity.number.scale(),
            RoundingStrategy::MidpointAwayFromZero,
        );
        value.rescale(quantity.number.scale());
        format!("{}{THIN}{symbol}", number(value, wording))
    };
    let mile = Decimal::new(1_609_344, 3);
    match (quantity.unit.symbol, units) {
        ("km", Units::Imperial) => converted("mi", mile),
        ("m", Units::Imperial) => converted("ft", Decimal::new(3048, 4)),
        ("mi", Units::Metric) => converted("km", Decimal::ONE_THOUSAND),
        ("ft", Units::Metric) => converted("m", Decimal::ONE),
        _ => self::quantity(quantity, wording),
    }
}

/// A speed in the paper's units, to one decimal place.
pub fn speed(quantity: &Quantity, units: Units, wording: &Wording) -> String {
    let (factor, symbol) = match units {
        Units::Metric => (Decimal::ONE, "km/h"),
        Units::Imperial => (Decimal::new(1_609_344, 6), "mph"),
    };
    if quantity.unit.symbol == symbol {
        return self::quantity(quantity, wording);
    }
    let value = (quantity.in_base() / factor)
        .round_dp_with_strategy(1, RoundingStrategy::MidpointAwayFromZero);
    format!("{}{THIN}{symbol}", number(value, wording))
}

/// Metres in a mile and in a foot (international yard and pound agreement of 1959).
const MILE: f64 = 1609.344;
const FOOT: f64 = 0.3048;

/// Metres and km/h in a paper's units of long ways and speeds.
pub fn long_unit(units: Units) -> (f64, &'static str, f64, &'static str) {
    match units {
        Units::Metric => (1000.0, "km", 1.0, "km/h"),
        Units::Imperial => (MILE, "mi", MILE / 1000.0, "mph"),
    }
}

/// A measured way in m as kilometres or miles, to one decimal place.
pub fn way(metres: f64, units: Units, wording: &Wording) -> String {
    let (unit, symbol, ..) = long_unit(units);
    measured(metres / unit, 1, symbol, wording)
}

/// A distance of a schedule, given in km: whole tens, below 100 whole fives, rounded down so that no
/// check comes late.
pub fn interval(km: Decimal, units: Units, wording: &Wording) -> String {
    let (value, symbol) = in_long_unit(km, units);
    let step = if value < Decimal::ONE_HUNDRED { Decimal::from(5) } else { Decimal::TEN };
    let whole = (value / step).floor() * step;
    format!("{}{THIN}{symbol}", number(whole.normalize(), wording))
}

/// A distance a day, given in km, to one decimal place.
pub fn way_a_day(km: Decimal, units: Units, wording: &Wording) -> String {
    let (value, symbol) = in_long_unit(km, units);
    let value = value.round_dp_with_strategy(1, RoundingStrategy::MidpointAwayFromZero);
    format!("{}{THIN}{symbol}", number(value, wording))
}

fn in_long_unit(km: Decimal, units: Units) -> (Decimal, &'static str) {
    match units {
        Units::Metric => (km, "km"),
        Units::Imperial => (km / Decimal::new(1_609_344, 6), "mi"),
    }
}

/// A measured speed in km/h, to one decimal place.
pub fn kmh(speed: f64, units: Units, wording: &Wording) -> String {
    let (.., unit, symbol) = long_unit(units);
    measured(speed / unit, 1, symbol, wording)
}

/// A height in m as whole metres or feet.
pub fn height(metres: f64, units: Units, wording: &Wording) -> String {
    match units {
        Units::Metric => measured(metres, 0, "m", wording),
        Units::Imperial => measured(metres / FOOT, 0, "ft", wording),
    }
}

/// Working time as hours and minutes, as it is charged: `4 h`, `1 h 40 min`.
pub fn working_time(time: &Quantity, wording: &Wording) -> String {
    let minutes = time.in_base();
    let sixty = Decimal::from(60);
    if minutes < sixty || !minutes.fract().is_zero() {
        return quantity(time, wording);
    }
    let hours = format!("{}{THIN}h", number((minutes / sixty).floor().normalize(), wording));
    match minutes % sixty {
        rest if rest.is_zero() => hours,
        rest => format!("{hours} {}{THIN}min", number(rest.normalize(), wording)),
    }
}

/// Seconds as they are up to two minutes, as whole minutes above.
pub fn duration(seconds: f64, wording: &Wording) -> String {
    match seconds {
        few if few < 120.0 => measured(few, 0, "s", wording),
        many => measured(many / 60.0, 0, "min", wording),
    }
}

/// A measured value rounded to `places` decimal places, with its unit.
fn measured(value: f64, places: u32, symbol: &str, wording: &Wording) -> String {
    let mut value = Decimal::from_f64(value)
        .unwrap_or_default()
        .round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
    value.rescale(places);
    format!("{}{THIN}{symbol}", number(value, wording))
}

/// An amount with its currency, by the language's pattern; its digits in groups as CLDR has them.
pub fn money(amount: Decimal, currency: Currency, wording: &Wording) -> String {
    let number = wording.cldr().amount(amount);
    text::fill(wording.label("money"), &[("amount", &number), ("currency", currency.symbol)])
}

/// When a photo was taken, by the camera's clock.
pub fn taken(taken: Option<&Taken>, wording: &Wording) -> String {
    let Some(taken) = taken else { return wording.label("not-recorded").to_owned() };
    let day = day(taken.local.date(), wording);
    let time = taken.local.format("%H:%M:%S");
    match taken.offset {
        Some(offset) => format!("{day}, {time} ({offset})"),
        None => format!("{day}, {time} ({})", wording.label("zone-unknown")),
    }
}

/// Hexadecimal digits in groups of four.
pub fn digest(hex: &str) -> String {
    let digits: Vec<char> = hex.chars().collect();
    digits.chunks(4).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}

/// `a, b and c` in the language.
pub fn listed(items: &[String], wording: &Wording) -> String {
    wording.cldr().listed(items)
}
