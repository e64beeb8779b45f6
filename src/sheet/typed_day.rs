//! How people write a day: `2026-03-02`, `2 March 2026`, `02/03/2026`.
//!
//! In: text; out: the day, or the two that it may mean. Months in words are English, as the sheet is.

use chrono::NaiveDate;

/// What a text says of a day.
pub(super) enum TypedDay {
    /// One day.
    One(NaiveDate),
    /// One of two days: day and month may be the other way round.
    Either(NaiveDate, NaiveDate),
    /// A day that no calendar has.
    None,
    /// Something that is written in no form of a day.
    NoDay,
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// Reads a day.
pub(super) fn read(text: &str) -> TypedDay {
    let parts: Vec<&str> =
        text.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    let [first, second, third] = parts[..] else { return TypedDay::NoDay };
    let is_year = |part: &str| part.len() == 4 && part.bytes().all(|byte| byte.is_ascii_digit());
    let one = |year, month, day| calendar(year, month, day).map_or(TypedDay::None, TypedDay::One);
    let short = |part: &str| (part.len() <= 2).then(|| part.parse::<u32>().ok()).flatten();
    match (short(first), short(second), short(third)) {
        (None, Some(month), Some(day)) if is_year(first) && text.contains(['-', '/']) => {
            one(first, month, day)
        }
        (Some(day), None, None) if is_year(third) => {
            month(second).map_or(TypedDay::NoDay, |month| one(third, month, day))
        }
        (None, Some(day), None) if is_year(third) => {
            month(first).map_or(TypedDay::NoDay, |month| one(third, month, day))
        }
        (Some(a), Some(b), None) if is_year(third) => {
            match (calendar(third, b, a), calendar(third, a, b)) {
                (Some(day), Some(other)) if day != other => TypedDay::Either(day, other),
                (Some(day), _) | (None, Some(day)) => TypedDay::One(day),
                (None, None) => TypedDay::None,
            }
        }
        _ => TypedDay::NoDay,
    }
}

fn calendar(year: &str, month: u32, day: u32) -> Option<NaiveDate> {
    NaiveDate::from_ymd_opt(year.parse().ok()?, month, day)
}

/// The number of a month by its name or the first three letters or more of it.
fn month(word: &str) -> Option<u32> {
    let word = word.to_lowercase();
    let at = MONTHS.iter().position(|month| 3 <= word.len() && month.starts_with(&word))?;
    u32::try_from(at + 1).ok()
}
