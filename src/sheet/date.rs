//! Days of a job, typed as ISO 8601 calendar dates (`2026-03-02`).

use chrono::{Datelike, NaiveDate};

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

const FORM: &str = "date";
const EXAMPLE: &str = "2026-03-02";

/// A calendar day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(pub NaiveDate);

impl Default for Date {
    /// The stand-in of a day that could not be read; see [`Date::is_known`].
    fn default() -> Self {
        Self(NaiveDate::MIN)
    }
}

impl Date {
    /// False for the stand-in of a day that could not be read.
    pub fn is_known(self) -> bool {
        self != Self::default()
    }
}

impl Value for Date {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a date") else { return Self::default() };
        let place = reader.place(node);
        let is_formed = text.len() == 10
            && text.bytes().enumerate().all(|(at, byte)| match at {
                4 | 7 => byte == b'-',
                _ => byte.is_ascii_digit(),
            });
        if !is_formed {
            reader.report(problems::wrong_form(place, FORM, text, EXAMPLE));
            return Self::default();
        }
        match NaiveDate::parse_from_str(text, "%Y-%m-%d") {
            // E-bike drive units are younger than 1990; an earlier year is a slip of the finger.
            Ok(day) if (1990..=2199).contains(&day.year()) => Self(day),
            _ => {
                reader.report(problems::impossible_date(place, text));
                Self::default()
            }
        }
    }

    fn shape() -> Shape {
        let pattern = r"^(199\d|2[01]\d\d)-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$";
        Shape::Form { name: FORM, pattern: pattern.into(), example: EXAMPLE }
    }
}
