//! The times that an archive states, held against each other and against the reader's clock.
//!
//! Lines of the register, days of bags, times of stamps -> flaws. Clocks and zones may be a day apart;
//! within that nothing is said. Not here: reading the clock.

use chrono::{DateTime, Days, NaiveDate, NaiveDateTime, Utc};

use super::words::{self, Statement};
use crate::archive::problems::{self, Flaw};
use crate::archive::register::read::Register;

/// How far clocks and zones may be apart.
const SLACK: Days = Days::new(1);
/// Days between a seal and its time stamp from which that is said.
const LATE: i64 = 8;
/// Most flaws of one register that are collected.
const MOST: usize = 50;

/// A time as the register writes it, and in no other form.
pub(super) fn parse(text: &str) -> Option<DateTime<Utc>> {
    const FORM: &str = "%Y-%m-%dT%H:%M:%SZ";
    let time = NaiveDateTime::parse_from_str(text, FORM).ok()?.and_utc();
    (time.format(FORM).to_string() == text).then_some(time)
}

/// Each line must state a time, none before that of the line before, none in the reader's future.
pub(super) fn of_register(register: &Register, now: Option<DateTime<Utc>>) -> Vec<Flaw> {
    let mut flaws = Vec::new();
    let mut before: Option<DateTime<Utc>> = None;
    for entry in &register.entries {
        if flaws.len() == MOST {
            break;
        }
        let Some(time) = parse(&entry.time) else {
            flaws.push(problems::time(entry.line, &entry.time, "which is not a time in UTC"));
            continue;
        };
        if before.is_some_and(|before| time < before) {
            let why = "before the line before it: one of the two was changed, or a clock put back";
            flaws.push(problems::time(entry.line, &entry.time, why));
        }
        if is_future(time, now) {
            flaws.push(problems::time(entry.line, &entry.time, "after the clock of this machine"));
        }
        before = before.max(Some(time));
    }
    flaws
}

fn is_future(time: DateTime<Utc>, now: Option<DateTime<Utc>>) -> bool {
    now.and_then(|now| now.checked_add_days(SLACK)).is_some_and(|latest| time > latest)
}

/// True if a moment is before a day, by more than zones and clocks explain.
fn is_before(time: DateTime<Utc>, day: NaiveDate) -> bool {
    day.checked_sub_days(SLACK).is_some_and(|first| time.date_naive() < first)
}

/// A bag cannot have been sealed before the last day that it names.
pub(super) fn of_seal(line: u64, time: &str, bagging: Option<&str>) -> Option<Flaw> {
    let day: NaiveDate = bagging?.parse().ok()?;
    let why = format!("before {day}, the last day that the bag names");
    is_before(parse(time)?, day).then(|| problems::time(line, time, &why))
}

/// A stamp cannot have been made before the last day that the bag names, nor in the future.
pub(super) fn of_stamp(
    place: &str,
    at: DateTime<Utc>,
    bagging: Option<&str>,
    now: Option<DateTime<Utc>>,
) -> Vec<Flaw> {
    let mut flaws = Vec::new();
    let says = at.format("%Y-%m-%dT%H:%M:%SZ").to_string();
    if let Some(day) = bagging.and_then(|day| day.parse().ok()).filter(|day| is_before(at, *day)) {
        let why = format!("before {day}, the last day that the bag names");
        flaws.push(problems::stamp_time(place, &says, &why));
    }
    if is_future(at, now) {
        flaws.push(problems::stamp_time(place, &says, "after the clock of this machine"));
    }
    flaws
}

/// A stamp held against the lines that say when its bag was sealed and when the stamp came.
pub(super) fn of_stamp_in_register(
    place: &str,
    at: DateTime<Utc>,
    sealed: &str,
    came: Option<&str>,
) -> (Vec<Flaw>, Option<Statement>) {
    let mut flaws = Vec::new();
    let says = at.format("%Y-%m-%dT%H:%M:%SZ").to_string();
    let sealed = parse(sealed);
    let is_early = |line: DateTime<Utc>| at.checked_add_days(SLACK).is_some_and(|at| at < line);
    if sealed.is_some_and(is_early) {
        let why = "before the register says that the bag was sealed: that line is dated too late";
        flaws.push(problems::stamp_time(place, &says, why));
    }
    let came = came.and_then(parse).and_then(|came| came.checked_add_days(SLACK));
    if came.is_some_and(|came| came < at) {
        let why = "after the register says that it came: that line is dated too early";
        flaws.push(problems::stamp_time(place, &says, why));
    }
    let days = sealed.map(|sealed| (at - sealed).num_days()).filter(|days| *days >= LATE);
    (flaws, days.map(words::stamped_late))
}

/// A stamp of the register's head: its last line cannot be later than the stamp.
pub(super) fn of_stamp_of_head(
    place: &str,
    at: DateTime<Utc>,
    line: u64,
    register: &Register,
) -> Option<Flaw> {
    let entry = register.entries.iter().find(|entry| entry.line == line)?;
    let written = parse(&entry.time)?;
    let is_early = at.checked_add_days(SLACK).is_some_and(|at| at < written);
    let says = at.format("%Y-%m-%dT%H:%M:%SZ").to_string();
    let why = format!("before line {line} of the register says that it was written");
    is_early.then(|| problems::stamp_time(place, &says, &why))
}
