//! Quantities, prices, dates, colours and grid places against published values.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use splitcase::diagnostic::Problems;
use splitcase::diagnostic::source::SourceText;
use splitcase::sheet::colour::contrast;
use splitcase::sheet::grid::GridPlace;
use splitcase::sheet::number::{NumberError, decimal};
use splitcase::sheet::quantity::unit::{Dimension, UNITS};
use splitcase::sheet::reader::{Reader, Value};
use splitcase::sheet::yaml;

/// Reads one value and how many problems it made.
fn read<T: Value>(text: &str) -> (T, usize) {
    let source = SourceText::new("value", format!("v: {text}\n"));
    let mut problems = Problems::default();
    let tree = yaml::parse(&source, &mut problems).unwrap();
    let yaml::Content::Map(entries) = &tree.content else { panic!("no map") };
    let value = T::read(&entries[0].value, &mut Reader::new(&source, false, &mut problems));
    (value, problems.n_errors())
}

fn base(text: &str, dimension: Dimension) -> Decimal {
    let (_, number, unit) = splitcase::sheet::number::around_number(text).unwrap();
    let unit = dimension.unit(unit).unwrap_or_else(|| panic!("no unit {unit}"));
    decimal(number, false).unwrap() * unit.factor() + unit.offset()
}

/// NIST SP 811 (2008), appendix B.8: mile, foot, inch and mile per hour are exact.
#[test]
fn units_of_length_and_speed_have_their_exact_factors() {
    assert_eq!(base("1 mi", Dimension::Distance), Decimal::new(1_609_344, 3));
    assert_eq!(base("1 ft", Dimension::Distance), Decimal::new(3048, 4));
    assert_eq!(base("1 in", Dimension::Length), Decimal::new(254, 1));
    assert_eq!(base("1 mph", Dimension::Speed), Decimal::new(1_609_344, 6));
    // 25 km/h is 15.534 mph; the same source gives 1 mi/h = 1.609 344 km/h.
    assert_eq!(
        (Decimal::from(25) / Decimal::new(1_609_344, 6)).round_dp(3),
        Decimal::new(15_534, 3)
    );
}

/// SI Brochure (9th edition, 2019), table 7: prefixes are capital-sensitive.
#[test]
fn prefixes_of_ohm_differ_by_nine_powers_of_ten() {
    let ratio = base("1 Mohm", Dimension::Resistance) / base("1 mohm", Dimension::Resistance);
    assert_eq!(ratio, Decimal::from(1_000_000_000));
    assert_eq!(base("212 mΩ", Dimension::Resistance), base("0.212 ohm", Dimension::Resistance));
}

/// NIST SP 811 (2008), appendix B.8: t/°C = (t/°F - 32)/1.8, so 212 °F is 100 °C and -40 is both.
#[test]
fn fahrenheit_meets_celsius_at_the_boiling_point_and_at_minus_forty() {
    assert_eq!(base("212 degF", Dimension::Temperature).round_dp(6), Decimal::from(100));
    assert_eq!(base("-40 degF", Dimension::Temperature).round_dp(6), Decimal::from(-40));
}

#[test]
fn no_spelling_of_a_unit_stands_twice_in_a_dimension() {
    for (at, unit) in UNITS.iter().enumerate() {
        for other in UNITS[at + 1..].iter().filter(|other| other.dimension == unit.dimension) {
            assert!(unit.spellings.iter().all(|one| !other.spellings.contains(one)), "{unit:?}");
        }
    }
}

#[test]
fn doubtful_numbers_are_refused_and_plain_ones_are_exact() {
    assert_eq!(decimal("0.80", false), Ok(Decimal::new(80, 2)));
    assert_eq!(decimal("0,80", true), Ok(Decimal::new(80, 2)));
    assert_eq!(decimal("-3", false), Ok(Decimal::from(-3)));
    assert_eq!(decimal("1,840", false), Ok(Decimal::from(1840)));
    assert_eq!(decimal("-1,234,567.50", false), Ok(Decimal::new(-123_456_750, 2)));
    for comma in ["0,840", "1,84", "1840,500", "1,8400", "1,,840", "1,840,5"] {
        assert!(decimal(comma, false).is_err(), "{comma}");
    }
    assert_eq!(decimal("1,84", false), Err(NumberError::Comma));
    assert_eq!(decimal("1.840", true), Err(NumberError::GroupingPoint));
    for wrong in ["", ".", "1.", ".5", "1.2.3", "1e3", "--1", "NaN", "9999999999999999999999999"] {
        assert_eq!(decimal(wrong, false), Err(NumberError::NotANumber), "{wrong:?}");
    }
}

/// Gregorian calendar: 2000 and 2024 are leap years, 1900 and 2026 are not (ISO 8601-1:2019, 4.2.1).
#[test]
fn days_are_those_of_the_calendar() {
    use splitcase::sheet::date::Date;
    for right in ["2024-02-29", "2000-02-29", "2026-12-31"] {
        assert_eq!(read::<Date>(right).1, 0, "{right}");
    }
    let fifth = NaiveDate::from_ymd_opt(2026, 5, 25).unwrap();
    let plain = ["2026-5-25", "25 May 2026", "25. May 2026", "May 25, 2026", "25/05/2026"];
    for one_day in plain.into_iter().chain(["05/25/2026", "25.5.2026", "2026/05/25"]) {
        let (day, n_errors) = read::<Date>(one_day);
        assert_eq!((day.0, n_errors), (fifth, 0), "{one_day}");
    }
    for wrong in [
        "2026-02-29",
        "2026-13-01",
        "02.03.2026",
        "0202-03-02",
        "2026-03-02T10:00",
        "31 June 2026",
        "May 2026",
        "25 Ma 2026",
        "25-05-26",
        "2 3 2026 4",
        "-2026-05-25x",
        "2026 05 25",
    ] {
        assert_eq!(read::<Date>(wrong).1, 1, "{wrong}");
    }
}

/// WCAG 2.2, contrast ratio: black on white 21 : 1; #767676 is the lightest grey above 4.5 : 1.
#[test]
fn contrast_is_that_of_the_accessibility_guidelines() {
    let on_white = |grey: u8| contrast([grey; 3], [255; 3]);
    assert!((on_white(0) - 21.0).abs() < 1e-9);
    assert!((on_white(255) - 1.0).abs() < 1e-9);
    assert!(4.5 <= on_white(0x76) && on_white(0x77) < 4.5);
}

#[test]
fn grid_places_are_middles_of_cells_and_of_their_ninths() {
    let at = |text: &str| GridPlace::parse(text).map(GridPlace::fractions);
    assert_eq!(at("A1"), Some((0.5 / 12.0, 0.5 / 9.0)));
    assert_eq!(at("L9"), Some((11.5 / 12.0, 8.5 / 9.0)));
    assert_eq!(at("F4"), at("F4.5"));
    assert_eq!(at("f4"), at("F4"));
    let (x, y) = at("A1.1").unwrap();
    assert!((x - 1.0 / 72.0).abs() < 1e-12 && (y - 1.0 / 54.0).abs() < 1e-12);
    // The seventh is left below, the third right above.
    assert_eq!(at("A1.7"), Some((0.5 / 36.0, 2.5 / 27.0)));
    assert_eq!(at("A1.3"), Some((2.5 / 36.0, 0.5 / 27.0)));
    for wrong in ["M1", "A0", "A10", "F", "4F", "F4.0", "F4.5555", "F4.", "", "ÄÖ", "F4.5x"] {
        assert_eq!(at(wrong), None, "{wrong:?}");
    }
    // Finer digits: the ninth of a ninth, and of that; the middle may be left out or written.
    assert_eq!(at("F4.55"), at("F4"));
    assert_eq!(at("A1.11"), Some((0.5 / 108.0, 0.5 / 81.0)));
    assert_eq!(at("L9.999"), Some((323.5 / 324.0, 242.5 / 243.0)));
    for (typed, shortest) in
        [("f4", "F4"), ("F4.5", "F4"), ("F4.15", "F4.1"), ("F4.51", "F4.51"), ("L9.999", "L9.999")]
    {
        assert_eq!(GridPlace::parse(typed).unwrap().to_string(), shortest);
    }
}
