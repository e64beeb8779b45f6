//! Checks over several fields of a sheet: days in order, parts of the right kind, outcome carried.
//!
//! In: a [`Sheet`], of which values that could not be read are left out; out: problems. What is about
//! something missing is asked of a whole sheet alone. What its folder holds is not looked at here.

mod bounds;
mod examples;
mod parts;
mod photos;

use super::catalogue::Sign;
use super::catalogue::group::SignPlace;
use super::date::Date;
use super::findings::{Finding, FindingsSheet};
use super::problems;
use super::quantity::Distance;
use super::reader::Marked;
use super::typed::Sheet;
use super::vocabulary::{Action, CauseKind, Condition, Outcome};
use crate::diagnostic::Problems;

/// Checks a sheet by itself.
pub fn check(sheet: &Sheet, problems: &mut Problems) {
    days_in_order(sheet, problems);
    parts::check(sheet, problems);
    examples::check(sheet, problems);
    bounds::check(sheet, problems);
    photos::check(sheet, problems);
    signs_where_they_can_stand(sheet, problems);
    nothing_both_seen_and_not(sheet, problems);
    no_part_judged_twice(sheet, problems);
    if sheet.is_whole {
        outcome_is_carried(sheet, problems);
    }
    outcome_fits(sheet, problems);
    distances_grow(sheet, problems);
}

/// The days of a job in the order in which they must come, each with its words.
fn days(fields: &FindingsSheet) -> Vec<(&'static str, &Marked<Date>)> {
    let mut days = Vec::new();
    days.extend(fields.unit.in_use_since.as_ref().map(|date| ("the first ride", date)));
    let noticed = fields.arrival.first_noticed.as_ref().and_then(|noticed| noticed.date.as_ref());
    days.extend(noticed.map(|date| ("the first sign", date)));
    days.push(("the arrival", &fields.arrival.date));
    days.extend(fields.strip_down.as_ref().map(|strip| ("the strip-down", &strip.date)));
    let decision = fields.decision.as_ref().and_then(|decision| decision.date.as_ref());
    days.extend(decision.map(|date| ("the decision", date)));
    let work = fields.work.as_ref().and_then(|work| work.date.as_ref());
    days.extend(work.map(|date| ("the work", date)));
    let ride = fields.ride.as_ref().and_then(|ride| ride.date.as_ref());
    days.extend(ride.map(|date| ("the test ride", date)));
    days.extend(fields.returned.as_ref().map(|date| ("the return", date)));
    days
}

fn days_in_order(sheet: &Sheet, problems: &mut Problems) {
    for pair in days(&sheet.fields).windows(2) {
        let [(earlier, first), (later, second)] = pair else { continue };
        if second.value < first.value {
            let (place, first) = (sheet.place(&second.span), sheet.place(&first.span));
            problems.push(problems::date_order(place, later, earlier, first));
        }
    }
}

fn signs_where_they_can_stand(sheet: &Sheet, problems: &mut Problems) {
    let can_be = |sign: &Sign, place: SignPlace| {
        sign.0.on.iter().any(|on| *on == place || *on == SignPlace::Unit)
    };
    let places = |sign: &Sign| sign.0.on.iter().map(|on| on.word()).collect::<Vec<_>>().join(", ");
    for finding in sheet.fields.findings() {
        // Nobody knows which signs a part can show that the catalogue lacks.
        if finding.part.is_other() {
            continue;
        }
        let on = SignPlace::On(finding.part.group());
        for sign in finding.signs.iter().filter(|sign| !can_be(&sign.value, on)) {
            let place = sheet.place(&sign.span);
            let on = places(&sign.value);
            problems.push(problems::sign_elsewhere(place, sign.name(), finding.part.name(), &on));
        }
    }
    for sign in
        sheet.fields.arrival.signs.iter().filter(|sign| !can_be(&sign.value, SignPlace::Unit))
    {
        let (place, on) = (sheet.place(&sign.span), places(&sign.value));
        problems.push(problems::sign_elsewhere(place, sign.name(), "the whole unit", &on));
    }
}

fn nothing_both_seen_and_not(sheet: &Sheet, problems: &mut Problems) {
    let Some(strip) = &sheet.fields.strip_down else { return };
    for sign in &strip.looked_for_absent {
        let seen = sheet.fields.findings().iter().flat_map(|finding| &finding.signs);
        let seen = seen.chain(&sheet.fields.arrival.signs);
        if let Some(seen) = seen.into_iter().find(|other| other.value == sign.value) {
            let (place, seen) = (sheet.place(&sign.span), sheet.place(&seen.span));
            problems.push(problems::seen_and_not_seen(place, sign.name(), seen));
        }
    }
}

/// Parts of which a unit has several, so that one may be sound and its neighbour not (common practice,
/// no source).
const SEVERAL: &[&str] = &[
    "bearing-seat",
    "case-screw",
    "clutch-rollers",
    "hall-sensor",
    "intermediate-gear",
    "intermediate-shaft-bearing",
    "mounting-bolt",
    "phase-wire",
    "planet-bearing",
    "planet-gear",
    "power-transistor",
    "capacitor",
    "crank-arm",
    "crank-bolt",
    "axle-nut",
    "torque-washer",
    "motor-connector",
    "sensor-cable",
    "connector-seal",
    "cable-gland",
    "other",
];

/// One part found sound and not sound in the same strip-down, if the unit has only one of it.
fn no_part_judged_twice(sheet: &Sheet, problems: &mut Problems) {
    let all = sheet.fields.findings();
    for (at, finding) in all.iter().enumerate() {
        if SEVERAL.contains(&finding.part.name()) {
            continue;
        }
        let is_sound = |finding: &Finding| finding.condition == Condition::Sound;
        let other = all[..at].iter().find(|first| {
            first.part.value == finding.part.value && is_sound(first) != is_sound(finding)
        });
        if let Some(first) = other {
            let (place, first) = (sheet.place(&finding.part.span), sheet.place(&first.part.span));
            problems.push(problems::judged_twice(place, finding.part.name(), first));
        }
    }
}

fn outcome_is_carried(sheet: &Sheet, problems: &mut Problems) {
    let fields = &sheet.fields;
    let Some(outcome) = &fields.outcome else { return };
    let lacks = match outcome.value {
        Outcome::Repaired | Outcome::Serviced if fields.work.is_none() => Some("work"),
        Outcome::Exchanged if fields.exchange.is_none() => Some("exchange"),
        _ if fields.strip_down.is_none() && outcome.value != Outcome::NoFaultFound => {
            Some("strip-down")
        }
        _ => None,
    };
    if let Some(lacks) = lacks {
        problems.push(problems::outcome_lacks(sheet.place(&outcome.span), outcome.word(), lacks));
    }
}

/// An outcome that the findings or the work contradict.
fn outcome_fits(sheet: &Sheet, problems: &mut Problems) {
    let fields = &sheet.fields;
    let Some(outcome) = &fields.outcome else { return };
    let renewed = sheet.fields.findings().iter().find(|finding| {
        matches!(finding.action, Some(Action::Replaced | Action::Repaired | Action::Added))
    });
    let failed = sheet
        .fields
        .findings()
        .iter()
        .find(|finding| matches!(finding.condition, Condition::Failed | Condition::Damaged));
    let against = match outcome.value {
        Outcome::NoFaultFound => failed.or(renewed),
        Outcome::ReturnedUnrepaired => renewed,
        // Whoever rides it trusts that what can hurt was renewed.
        Outcome::Repaired => sheet.fields.findings().iter().find(|finding| {
            finding.part.0.safety
                && matches!(finding.condition, Condition::Failed | Condition::Damaged)
                && !matches!(
                    finding.action,
                    Some(Action::Replaced | Action::Repaired | Action::Added)
                )
        }),
        // Care before anything failed; what had failed is a repair.
        Outcome::Serviced => failed,
        Outcome::Exchanged => None,
    };
    if let Some(finding) = against {
        let (place, other) = (sheet.place(&outcome.span), sheet.place(&finding.part.span));
        let part = finding.part.name();
        problems.push(problems::outcome_doubted(place, outcome.word(), part, other));
    }
    let cause = fields.cause.as_ref().map(|cause| &cause.main);
    let names_one =
        |kind: CauseKind| !matches!(kind, CauseKind::Undetermined | CauseKind::NoFaultFound);
    if let Some(cause) = cause.filter(|cause| names_one(cause.value))
        && outcome.value == Outcome::NoFaultFound
    {
        let (place, stated) = (sheet.place(&outcome.span), sheet.place(&cause.span));
        problems.push(problems::cause_of_no_fault(place, cause.word(), stated));
    }
    let no_fault = cause.filter(|cause| cause.value == CauseKind::NoFaultFound);
    if let (Some(cause), Some(finding)) = (no_fault, failed)
        && outcome.value != Outcome::NoFaultFound
    {
        let (place, other) = (sheet.place(&cause.span), sheet.place(&finding.part.span));
        problems.push(problems::no_fault_doubted(place, finding.part.name(), other));
    }
}

/// A first sign at a distance that the unit has not gone.
fn distances_grow(sheet: &Sheet, problems: &mut Problems) {
    let fields = &sheet.fields;
    let Some(noticed) = &fields.arrival.first_noticed else { return };
    let metres = |way: &Distance| way.0.number.checked_mul(way.0.unit.factor());
    let then = noticed.at.as_ref().and_then(metres);
    let now = fields.unit.mileage.as_ref().and_then(metres);
    if then.zip(now).is_some_and(|(then, now)| now < then) {
        let date = noticed.date.as_ref().unwrap_or(&fields.arrival.date);
        problems.push(problems::noticed_too_far(sheet.place(&date.span)));
    }
}
