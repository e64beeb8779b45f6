//! The next checks as a calendar file (RFC 5545): one day for each, for the owner's own calendar.
//!
//! In: a [`Writer`]; out: the file's text. Its days, stamps and identities come from the sheet, so that the
//! same job gives the same file, and one that is read in again replaces the days that it gave before.

use std::fmt::Write;

use chrono::{DateTime, NaiveDate, NaiveTime, Utc};
use icalendar::{Calendar, Component, Event, EventLike, Property};

use super::sections::care;
use super::text;
use super::writer::Writer;
use crate::assessment::care::schedule::{HAND_TEST, NextCheck};
use crate::digest::Digest;
use crate::failure::Failure;

/// Name of the file, beside the report and in it.
pub const CALENDAR: &str = "next-checks.ics";
/// Virtual path of the file for the report that carries it.
pub const ATTACHED: &str = "/job/attached/next-checks.ics";
/// Its media type (RFC 5545, 8.1).
pub const MIME: &str = "text/calendar";

/// True if some check has a day.
pub fn has_days(writer: &Writer<'_>) -> bool {
    writer.material.assessment.care.checks.iter().any(|check| check.date.is_some())
}

/// The calendar; `None` if no check has a day.
///
/// # Errors
/// Its text cannot be put together, which is a fault of ours.
pub fn calendar(writer: &Writer<'_>) -> Result<Option<String>, Failure> {
    let checks = &writer.material.assessment.care.checks;
    let events: Vec<Event> = checks.iter().filter_map(|check| event(writer, check)).collect();
    if events.is_empty() {
        return Ok(None);
    }
    let mut calendar = Calendar::empty();
    calendar
        .append_property(Property::new("VERSION", "2.0"))
        .append_property(Property::new(
            "PRODID",
            concat!("-//splitcase//", env!("CARGO_PKG_VERSION")),
        ))
        .append_property(Property::new("CALSCALE", "GREGORIAN"));
    calendar.extend(events);
    let mut text = String::new();
    write!(text, "{calendar}")
        .map_err(|error| Failure::new("write the calendar of next checks", error))?;
    Ok(Some(text))
}

/// A day that is no appointment: it takes no time of its owner's.
fn event(writer: &Writer<'_>, check: &NextCheck) -> Option<Event> {
    let row = care::check_row(writer, check)?;
    let wording = writer.wording;
    let fields = writer.fields();
    let summary = text::fill(wording.choice("calendar", "summary"), &[("what", &row.what)]);
    let mut lines = vec![row.how];
    if let Some(kind) =
        writer.material.assessment.care.hand_test.filter(|_| check.kind == HAND_TEST)
    {
        lines.extend(wording.care().hand_test(kind).iter().map(|step| format!("- {step}")));
    }
    lines.push(text::fill(wording.choice("calendar", "by"), &[("or", &row.or)]));
    lines.push(row.more);
    let profile = &writer.material.workshop.fields;
    let from = text::fill(
        wording.choice("calendar", "from"),
        &[("job", &fields.job.0), ("workshop", &profile.name.0)],
    );
    lines.push(from);
    lines.extend(profile.contact.iter().map(|line| line.0.clone()));
    let day = check.date?;
    let event = Event::new()
        .uid(&identity(writer, check.kind))
        .timestamp(stamp(writer.material.cover().day))
        .starts(day)
        .summary(&summary)
        .description(&lines.join("\n"))
        .add_property("TRANSP", "TRANSPARENT")
        .done();
    Some(event)
}

/// The lasting identity of a check: that of its workshop, job and kind, whatever its day.
fn identity(writer: &Writer<'_>, kind: &str) -> String {
    let (profile, fields) = (&writer.material.workshop.fields, writer.fields());
    let of = format!("{}\n{}\n{kind}", profile.name.0, fields.job.0);
    let digest = Digest::of(of.as_bytes()).hex();
    let (short, _) = digest.split_at_checked(32).unwrap_or((&digest, ""));
    format!("{}-{kind}-{short}", fields.job.0)
}

/// Noon of a day, as papers are dated.
fn stamp(day: NaiveDate) -> DateTime<Utc> {
    day.and_time(NaiveTime::MIN).and_utc() + chrono::TimeDelta::hours(12)
}
