//! Amounts of money as typed: `£54.00`, `54.00 GBP`, `54,00 €`. Exact decimals, never floats.

use rust_decimal::Decimal;

use super::number;
use super::problems;
use super::reader::{Reader, Value};
use super::shape::Shape;
use super::yaml::Node;

/// A currency: ISO 4217 code, the symbol that is printed, decimal places of its minor unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency {
    /// ISO 4217 code.
    pub code: &'static str,
    /// Symbol before an amount.
    pub symbol: &'static str,
    /// Decimal places of the minor unit.
    pub places: u32,
}

/// Currencies that are read (ISO 4217; symbols are common practice).
pub const CURRENCIES: &[Currency] = &[
    Currency { code: "GBP", symbol: "£", places: 2 },
    Currency { code: "EUR", symbol: "€", places: 2 },
    Currency { code: "USD", symbol: "$", places: 2 },
    Currency { code: "AUD", symbol: "A$", places: 2 },
    Currency { code: "NZD", symbol: "NZ$", places: 2 },
    Currency { code: "CAD", symbol: "C$", places: 2 },
    Currency { code: "CHF", symbol: "CHF\u{a0}", places: 2 },
    Currency { code: "SEK", symbol: "SEK\u{a0}", places: 2 },
    Currency { code: "NOK", symbol: "NOK\u{a0}", places: 2 },
    Currency { code: "DKK", symbol: "DKK\u{a0}", places: 2 },
    Currency { code: "PLN", symbol: "PLN\u{a0}", places: 2 },
    Currency { code: "CZK", symbol: "CZK\u{a0}", places: 2 },
    Currency { code: "JPY", symbol: "¥", places: 0 },
];

impl Default for Currency {
    fn default() -> Self {
        CURRENCIES[0]
    }
}

impl Currency {
    fn spelled(text: &str) -> Option<Self> {
        CURRENCIES.iter().copied().find(|one| one.code == text || one.symbol.trim() == text)
    }
}

impl Value for Currency {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        reader.choice(node, "currency", CURRENCIES, |one| one.code)
    }

    fn shape() -> Shape {
        let words = CURRENCIES.iter().map(|one| one.code.to_owned()).collect();
        Shape::Words { name: "currency", words }
    }
}

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

impl Value for Price {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, FORM) else { return Self::default() };
        let place = reader.place(node);
        let wrong = problems::wrong_form(place.clone(), FORM, text, EXAMPLE);
        let Some((before, digits, after)) = number::around_number(text) else {
            reader.report(wrong);
            return Self::default();
        };
        let amount = match number::decimal(digits, reader.decimal_comma) {
            Ok(amount) if !amount.is_sign_negative() => amount,
            Err(error) if error.hint().is_some() => {
                let hint = error.hint().unwrap_or_default();
                reader.report(problems::doubtful_number(place, digits, hint));
                return Self::default();
            }
            _ => {
                reader.report(wrong);
                return Self::default();
            }
        };
        let currency = match (before, after) {
            ("", "") => {
                reader.report(problems::missing_unit(place, digits, &["GBP", "EUR", "USD"]));
                return Self::default();
            }
            (before, "") => Currency::spelled(before),
            ("", after) => Currency::spelled(after),
            _ => None,
        };
        let Some(currency) = currency.filter(|one| amount.scale() <= one.places) else {
            reader.report(wrong);
            return Self::default();
        };
        Self { amount, currency }
    }

    fn shape() -> Shape {
        let spellings: Vec<String> = CURRENCIES
            .iter()
            .flat_map(|one| [one.code.to_owned(), one.symbol.trim().replace('$', r"\$")])
            .collect();
        let unit = spellings.join("|");
        let pattern = format!(r"^(({unit})\s*\d+([.,]\d+)?|\d+([.,]\d+)?\s*({unit}))$");
        Shape::Form { name: FORM, pattern, example: EXAMPLE }
    }
}
