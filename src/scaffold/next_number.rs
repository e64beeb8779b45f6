//! The number after the last one: `HD-2630` -> `HD-2631`.
//!
//! In: numbers of jobs, those with their day of arrival if it is known; out: a number that none of them
//! has. What is before the digits is kept, and so is their width.

use chrono::NaiveDate;

use crate::sheet::text::is_job_number;

/// A job that is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    /// Its number.
    pub number: String,
    /// Its day of arrival, if its sheet says it.
    pub arrived: Option<NaiveDate>,
}

/// The number after the last job's: the last is the one that came in last, and of one day the one with the
/// highest number. `taken` are numbers that are in use elsewhere. Returns the number and the place of the
/// last job in the list; nothing if no number ends in digits.
pub fn after(jobs: &[Known], taken: &[String]) -> Option<(String, usize)> {
    let numbered = jobs.iter().enumerate().filter(|(_, job)| parts(&job.number).is_some());
    let rank =
        |job: &Known| (job.arrived, parts(&job.number).and_then(|(_, digits)| value(digits)));
    let (at, last) = numbered.max_by_key(|(_, job)| rank(job))?;
    let (start, digits) = parts(&last.number)?;
    let width = digits.len();
    let numbers =
        jobs.iter().map(|job| job.number.as_str()).chain(taken.iter().map(String::as_str));
    let highest = numbers
        .filter_map(parts)
        .filter(|(other, _)| other.eq_ignore_ascii_case(start))
        .filter_map(|(_, digits)| value(digits))
        .max()?;
    let next = format!("{start}{:0width$}", highest.checked_add(1)?);
    is_job_number(&next).then_some((next, at))
}

/// A number as what is before its last digits, and these.
fn parts(number: &str) -> Option<(&str, &str)> {
    let start = number.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = &number[start.len()..];
    (!digits.is_empty()).then_some((start, digits))
}

fn value(digits: &str) -> Option<u64> {
    digits.parse().ok()
}
