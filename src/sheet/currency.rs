//! Currencies by their codes in ISO 4217: what is printed before an amount, places of its minor unit.
//!
//! In: a code or a symbol; out: [`Currency`]. Nothing is converted and no rate is known here.

use super::problems;
use super::reader::{Reader, Value};
use super::shape::{Choice, Shape};
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

macro_rules! currencies {
    ($($code:literal $symbol:literal $places:literal;)+ by code: $($same:literal [$($other:literal)+])+) => {
        /// Currencies that are read: table A.1 of ISO 4217 without funds, metals and test codes.
        ///
        /// Codes that were withdrawn in 2025 and 2026 (`ANG`, `BGN`) stay for older jobs. Symbols are
        /// common practice; a currency without one is printed with its code.
        pub const CURRENCIES: &[Currency] = &[
            $(Currency { code: $code, symbol: $symbol, places: $places },)+
            $($(Currency { code: $other, symbol: concat!($other, "\u{a0}"), places: $same },)+)+
        ];
    };
}

currencies! {
    "GBP" "£" 2;
    "EUR" "€" 2;
    "USD" "$" 2;
    "AUD" "A$" 2;
    "NZD" "NZ$" 2;
    "CAD" "C$" 2;
    "CHF" "CHF\u{a0}" 2;
    "SEK" "SEK\u{a0}" 2;
    "NOK" "NOK\u{a0}" 2;
    "DKK" "DKK\u{a0}" 2;
    "PLN" "PLN\u{a0}" 2;
    "CZK" "CZK\u{a0}" 2;
    "JPY" "¥" 0;
    by code:
    0 [
        "BIF" "CLP" "DJF" "GNF" "ISK" "KMF" "KRW" "PYG" "RWF" "UGX" "VND" "VUV" "XAF" "XOF"
        "XPF"
    ]
    2 [
        "AED" "AFN" "ALL" "AMD" "ANG" "AOA" "ARS" "AWG" "AZN" "BAM" "BBD" "BDT" "BGN" "BMD"
        "BND" "BOB" "BRL" "BSD" "BTN" "BWP" "BYN" "BZD" "CDF" "CNY" "COP" "CRC" "CUP" "CVE"
        "DOP" "DZD" "EGP" "ERN" "ETB" "FJD" "FKP" "GEL" "GHS" "GIP" "GMD" "GTQ" "GYD" "HKD"
        "HNL" "HTG" "HUF" "IDR" "ILS" "INR" "IRR" "JMD" "KES" "KGS" "KHR" "KPW" "KYD" "KZT"
        "LAK" "LBP" "LKR" "LRD" "LSL" "MAD" "MDL" "MGA" "MKD" "MMK" "MNT" "MOP" "MRU" "MUR"
        "MVR" "MWK" "MXN" "MYR" "MZN" "NAD" "NGN" "NIO" "NPR" "PAB" "PEN" "PGK" "PHP" "PKR"
        "QAR" "RON" "RSD" "RUB" "SAR" "SBD" "SCR" "SDG" "SGD" "SHP" "SLE" "SOS" "SRD" "SSP"
        "STN" "SVC" "SYP" "SZL" "THB" "TJS" "TMT" "TOP" "TRY" "TTD" "TWD" "TZS" "UAH" "UYU"
        "UZS" "VED" "VES" "WST" "XCD" "XCG" "YER" "ZAR" "ZMW" "ZWG"
    ]
    3 [
        "BHD" "IQD" "JOD" "KWD" "LYD" "OMR" "TND"
    ]
}

impl Default for Currency {
    fn default() -> Self {
        CURRENCIES[0]
    }
}

impl Currency {
    /// The currency of a code or symbol as typed.
    pub(super) fn spelled(text: &str) -> Option<Self> {
        CURRENCIES.iter().copied().find(|one| one.code == text || one.symbol.trim() == text)
    }
}

impl Value for Currency {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let Some(text) = reader.scalar(node, "a currency") else { return Self::default() };
        let found = CURRENCIES.iter().copied().find(|one| one.code == text);
        found.unwrap_or_else(|| {
            let place = reader.place(node);
            reader.report(problems::wrong_form(place, "currency code of ISO 4217", text, "GBP"));
            Self::default()
        })
    }

    fn shape() -> Shape {
        let choice = |one: &Currency| Choice {
            also: vec![one.symbol.trim().to_owned()],
            about: "ISO 4217.",
            ..Choice::plain(one.code)
        };
        let words = CURRENCIES.iter().map(choice).collect();
        Shape::Words { name: "currency", words }
    }
}
