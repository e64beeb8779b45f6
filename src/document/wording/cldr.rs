//! Dates, lists, plurals and numbers of a language and region, by Unicode CLDR.
//!
//! In: a language tag; out: texts. Which of them a paper prints is `format`; the data come with ICU4X.

use chrono::{Datelike, NaiveDate};
use icu_datetime::DateTimeFormatter;
use icu_datetime::fieldsets::{MD, YMD};
use icu_datetime::input::Date;
use icu_decimal::DecimalFormatter;
use icu_decimal::options::DecimalFormatterOptions;
use icu_list::ListFormatter;
use icu_list::options::ListFormatterOptions;
use icu_locale_core::Locale;
use icu_plurals::{PluralCategory, PluralRules};
use rust_decimal::Decimal;

/// The forms of one language in one region.
pub struct Cldr {
    day: DateTimeFormatter<YMD>,
    day_of_year: DateTimeFormatter<MD>,
    list: ListFormatter,
    plurals: PluralRules,
    numbers: DecimalFormatter,
    decimal_mark: String,
}

impl Cldr {
    /// The forms of a language tag such as `de-AT`; `None` if it is none.
    ///
    /// A language that CLDR does not have gets the forms of its root.
    pub fn of(tag: &str) -> Option<Self> {
        let locale: Locale = tag.parse().ok()?;
        let numbers =
            DecimalFormatter::try_new((&locale).into(), DecimalFormatterOptions::default()).ok()?;
        let one_and_a_half = "1.5".parse().ok()?;
        let decimal_mark = numbers.format(&one_and_a_half).to_string();
        Some(Self {
            day: DateTimeFormatter::try_new((&locale).into(), YMD::long()).ok()?,
            day_of_year: DateTimeFormatter::try_new((&locale).into(), MD::long()).ok()?,
            list: ListFormatter::try_new_and((&locale).into(), ListFormatterOptions::default())
                .ok()?,
            plurals: PluralRules::try_new_cardinal((&locale).into()).ok()?,
            numbers,
            decimal_mark: decimal_mark.replace(|c: char| c.is_ascii_digit(), ""),
        })
    }

    /// `2 March 2026`, `2. März 2026`.
    pub fn day(&self, date: NaiveDate) -> String {
        iso(date).map_or_else(|| date.to_string(), |date| whole(&self.day.format(&date)))
    }

    /// `2 March`, `2. März`.
    pub fn day_of_year(&self, date: NaiveDate) -> String {
        iso(date).map_or_else(|| date.to_string(), |date| whole(&self.day_of_year.format(&date)))
    }

    /// `a, b and c`.
    pub fn listed(&self, items: &[String]) -> String {
        self.list.format(items.iter()).to_string()
    }

    /// True if a number of things is spoken of as of one: 1, in French 0 as well.
    pub fn is_one(&self, number: usize) -> bool {
        self.plurals.category_for(number) == PluralCategory::One
    }

    /// What stands before the decimals.
    pub fn decimal_mark(&self) -> &str {
        &self.decimal_mark
    }

    /// A number as it is written in an amount, with its digits in groups: `1,240.00`, `1.240,00`.
    pub fn amount(&self, value: Decimal) -> String {
        let text = value.to_string();
        text.parse().map_or(text, |number| self.numbers.format(&number).to_string())
    }
}

/// A day whose ordinal stays on the line of its month.
fn whole(day: &impl ToString) -> String {
    day.to_string().replace(". ", ".\u{a0}")
}

fn iso(date: NaiveDate) -> Option<Date<icu_calendar::Iso>> {
    let (month, day) = (u8::try_from(date.month()).ok()?, u8::try_from(date.day()).ok()?);
    Date::try_new_iso(date.year(), month, day).ok()
}
