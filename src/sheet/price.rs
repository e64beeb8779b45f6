//! Amounts of money as typed: `£54.00`, `54.00 GBP`, `54,00 €`. Exact decimals, never floats.

use rust_decimal::Decimal;

pub use super::currency::{CURRENCIES, Currency};
use super::number;
use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;
use crate::diagnostic::{Diagnostic, Place};

/// An amount with its currency.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Price {
    /// The amount, not negative.
    pub amount: Decimal,
    /// The currency as typed.
    pub currency: Currency,
}

const FORM: &str = "price";
const EXAMPLE: &str = "£54.00";

impl Price {
    /// Reads one price; `place` is where a mistake is shown.
    ///
    /// # Errors
    /// What is wrong with the text, in words for the person who typed it.
    pub(super) fn of(text: &str, decimal_comma: bool, place: &Place) -> Result<Self, Diagnostic> {
        let wrong = || problems::wrong_form(place.clone(), FORM, text, EXAMPLE);
        let (before, digits, after) = number::around_number(text).ok_or_else(wrong)?;
        let amount = match number::decimal(digits, decimal_comma) {
            Ok(amount) if !amount.is_sign_negative() => amount,
            Err(error) => {
                let hint = error.hint().ok_or_else(wrong)?;
                return Err(problems::doubtful_number(place.clone(), digits, hint));
            }
            Ok(_) => return Err(wrong()),
        };
        let currency = match (before, after) {
            ("", "") => {
                let codes = ["GBP", "EUR", "USD"];
                return Err(problems::missing_unit(place.clone(), digits, &codes));
            }
            (before, "") => Currency::spelled(before),
            ("", after) => Currency::spelled(after),
            _ => None,
        };
        let currency = currency.filter(|one| amount.scale() <= one.places).ok_or_else(wrong)?;
        Ok(Self { amount, currency })
    }

    /// The expression of one price, without anchors.
    pub(super) fn pattern() -> String {
        let spellings: Vec<String> = CURRENCIES
            .iter()
            .flat_map(|one| [one.code.to_owned(), one.symbol.trim().replace('$', r"\$")])
            .collect();
        let mut unit: Vec<&str> = spellings.iter().map(String::as_str).collect();
        unit.dedup();
        let unit = unit.join("|");
        format!(r"(({unit})\s*\d+([.,]\d+)?|\d+([.,]\d+)?\s*({unit}))")
    }
}

impl Value for Price {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, FORM) else { return Self::default() };
        let place = reader.place(node);
        Self::of(text, reader.decimal_comma, &place).unwrap_or_else(|problem| {
            reader.report(problem);
            Self::default()
        })
    }

    fn shape() -> Shape {
        Shape::Form { name: FORM, pattern: format!("^{}$", Self::pattern()), example: EXAMPLE }
    }
}
