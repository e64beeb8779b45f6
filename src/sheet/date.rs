//! Days of a job, typed as ISO 8601 calendar dates (`2026-03-02`) or with the month in words.

use chrono::{Datelike, NaiveDate};

use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::typed_day::{self, TypedDay};
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
        // E-bike drive units are younger than 1990; an earlier year is a slip of the finger.
        let problem = match typed_day::read(text) {
            TypedDay::One(day) if (1990..=2199).contains(&day.year()) => return Self(day),
            TypedDay::One(_) | TypedDay::None => problems::impossible_date(place, text),
            TypedDay::Either(first, second) => {
                problems::doubtful_date(place, text, [first, second].map(|day| day.to_string()))
            }
            TypedDay::NoDay => problems::wrong_form(place, FORM, text, EXAMPLE),
        };
        reader.report(problem);
        Self::default()
    }

    fn shape() -> Shape {
        let day = r"(0?[1-9]|[12]\d|3[01])";
        let year = r"(199\d|2[01]\d\d)";
        let pattern = format!(r"^({year}-(0?[1-9]|1[0-2])-{day}|{day}\.? [A-Za-z]+\.? {year})$");
        Shape::Form { name: FORM, pattern, example: EXAMPLE }
    }
}
