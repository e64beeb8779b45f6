//! Decimal numbers as people type them: exact, with a decimal comma only in the comma languages.

use rust_decimal::Decimal;

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

/// How many of something: 1 to 999.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count(pub u32);

impl Default for Count {
    fn default() -> Self {
        Self(1)
    }
}

impl Value for Count {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a whole number") else { return Self::default() };
        match text.parse() {
            Ok(count @ 1..=999) => Self(count),
            _ => {
                let place = reader.place(node);
                reader.report(problems::wrong_form(place, "whole number from 1 to 999", text, "2"));
                Self::default()
            }
        }
    }

    fn shape() -> Shape {
        Shape::Integer
    }
}

/// How clearly a sign supports a cause: -2 (clearly against) to 2 (clearly for).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Score(pub i8);

impl Value for Score {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a score") else { return Self::default() };
        match text.parse() {
            Ok(score @ -2..=2) => Self(score),
            _ => {
                let place = reader.place(node);
                reader.report(problems::wrong_form(place, "score from -2 to 2", text, "1"));
                Self::default()
            }
        }
    }

    fn shape() -> Shape {
        Shape::Number { name: "score from -2 to 2", least: -2.0, most: 2.0 }
    }
}

/// Coefficient of friction of thread and head, one of those that torque tables have.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Friction(pub Decimal);

/// The columns of torque tables, in hundredths.
const FRICTIONS: [i64; 3] = [10, 12, 14];

impl Value for Friction {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a coefficient") else { return Self::default() };
        let found = decimal(text, reader.decimal_comma).ok();
        let is_column =
            |value: &Decimal| FRICTIONS.iter().any(|own| Decimal::new(*own, 2) == *value);
        if let Some(value) = found.filter(is_column) {
            return Self(value);
        }
        let place = reader.place(node);
        reader.report(problems::wrong_form(place, "friction of 0.10, 0.12 or 0.14", text, "0.12"));
        Self::default()
    }

    fn shape() -> Shape {
        Shape::Number { name: "coefficient of friction", least: 0.10, most: 0.14 }
    }
}

/// Why a number was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NumberError {
    /// No number at all, or too many digits.
    NotANumber,
    /// A comma in a language whose numbers have a decimal point.
    Comma,
    /// In a comma language: a point before exactly three digits, which may group thousands.
    GroupingPoint,
}

impl NumberError {
    /// What to write instead, if two readings are possible.
    pub fn hint(self) -> Option<&'static str> {
        match self {
            Self::NotANumber => None,
            Self::Comma => Some("write a decimal point, such as `1840.5`"),
            Self::GroupingPoint => Some(
                "write a decimal comma and leave thousands ungrouped, such as `1840` or `1,84`",
            ),
        }
    }
}

/// Reads digits with at most one decimal mark and an optional minus sign.
///
/// # Errors
/// [`NumberError`] if the text is not a number or can be read in two ways.
pub fn decimal(text: &str, decimal_comma: bool) -> Result<Decimal, NumberError> {
    let is_negative = text.starts_with(['-', '\u{2212}']);
    let digits = text.strip_prefix(['-', '\u{2212}']).unwrap_or(text);
    let ungrouped = (!decimal_comma).then(|| without_groups(digits)).flatten();
    let digits = ungrouped.as_deref().unwrap_or(digits);
    let mark = digits.find(['.', ',']);
    let (whole, fraction) =
        mark.map_or((digits, None), |at| (&digits[..at], Some(&digits[at + 1..])));
    let all_digits =
        |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    if !all_digits(whole) || !fraction.is_none_or(all_digits) || 24 < digits.len() {
        return Err(NumberError::NotANumber);
    }
    match (mark.map(|at| digits.as_bytes()[at]), decimal_comma) {
        (Some(b','), false) => return Err(NumberError::Comma),
        (Some(b'.'), true) if fraction.is_some_and(|part| part.len() == 3) => {
            return Err(NumberError::GroupingPoint);
        }
        _ => {}
    }
    let plain = format!("{whole}.{}", fraction.unwrap_or("0"));
    let mut value = Decimal::from_str_exact(&plain).map_err(|_| NumberError::NotANumber)?;
    value.rescale(fraction.map_or(0, |part| part.len() as u32));
    value.set_sign_negative(is_negative);
    Ok(value)
}

/// `1,840.5` without its commas, if they can only group thousands.
fn without_groups(digits: &str) -> Option<String> {
    let (whole, fraction) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    let (first, groups) = whole.split_once(',')?;
    let is_first = (1..=3).contains(&first.len()) && !first.starts_with('0');
    let is_group = |group: &str| group.len() == 3 && group.bytes().all(|c| c.is_ascii_digit());
    (is_first && groups.split(',').all(is_group))
        .then(|| format!("{}{fraction}", whole.replace(',', "")))
}

/// Splits `0.80 mm` or `£54` at the border of its number: before, number, after, all trimmed.
pub fn around_number(text: &str) -> Option<(&str, &str, &str)> {
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '\u{2212}');
    let start = text.find(is_number)?;
    let length = text[start..].find(|c| !is_number(c)).unwrap_or(text.len() - start);
    let (before, rest) = text.split_at(start);
    let (number, after) = rest.split_at(length);
    Some((before.trim(), number, after.trim()))
}
