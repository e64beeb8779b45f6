//! Care: three things for page 1, then the rest of the advice, the card for the first fit, the dated
//! checks, the hand test.
//!
//! In: [`Care`](crate::assessment::care::Care); out: its view. Which advice fits is decided there.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::assessment::care::reason::Reason;
use crate::assessment::care::schedule::{Interval, NextCheck, Span, WORKSHOP_LOOK};
use crate::assessment::care::state::Hazard;
use crate::assessment::care::table::Source;
use crate::assessment::care::todo::Todo;
use crate::document::format;
use crate::document::sections::findings;
use crate::document::text;
use crate::document::view::care::{Card, CareItem, CareView, CheckRow, Schedule, Steps};
use crate::document::view::{Advice, AdviceList};
use crate::document::writer::Writer;
use crate::sheet::vocabulary::Outcome;

/// Most pieces of advice beyond page 1; if hardly anything was harmed page 1 says enough.
const MOST_ADVICE: usize = 2;

/// Three things to do, for page 1.
pub fn todo(writer: &Writer<'_>) -> Option<AdviceList> {
    let todo = writer.material.assessment.care.todo();
    let items: Vec<Advice> = todo.iter().map(|todo| thing(writer, todo)).collect();
    let heading = writer.wording.item("things-to-do", items.len()).to_owned();
    (!items.is_empty()).then_some(AdviceList { heading, items })
}

fn thing(writer: &Writer<'_>, todo: &Todo<'_>) -> Advice {
    let words = writer.wording.care();
    let filled = |key: &str, gap: &str, value: &str| {
        let text = |which| words.page_one(key, which).replace(gap, value);
        Advice { what: text("what"), more: text("why") }
    };
    let dated = |key: &str, date| filled(key, "{day}", &format::day(date, writer.wording));
    match todo {
        Todo::Danger(danger) => {
            let sign = writer.wording.sign(danger.sign.name(), "plain");
            filled(&format!("danger-{}", danger.hazard.word()), "{sign}", sign)
        }
        Todo::Advice(one) => {
            let text = |which| words.advice(one.rule, which).to_owned();
            Advice { what: text("what"), more: text("why") }
        }
        Todo::Fastenings { date } => dated("fastenings", *date),
        Todo::HandTest { kind, date } => dated(&format!("hand-test-{}", kind.word()), *date),
    }
}

fn most_advice(writer: &Writer<'_>) -> usize {
    if findings::n_harmed(writer) < 2 { 0 } else { MOST_ADVICE }
}

/// Advice, checks with their days, cautions; `None` if no rule applies.
pub fn care(writer: &Writer<'_>) -> Option<CareView> {
    let care = &writer.material.assessment.care;
    let words = writer.wording.care();
    let own = writer.fields().advice.iter();
    let mut items: Vec<CareItem> = own
        .map(|own| CareItem { what: own.0.clone(), why: String::new(), because: String::new() })
        .collect();
    items.extend(care.beyond_page_one().iter().take(most_advice(writer)).map(|one| {
        let text = |which| words.advice(one.rule, which).to_owned();
        let mut because = String::new();
        add(writer, &mut because, "fits", reasons(writer, &one.because));
        if let Source::Published(source) = &one.source {
            let source = text::fill(words.form("source"), &[("source", source)]);
            join(&mut because, &source);
        }
        CareItem { what: text("what"), why: text("why"), because }
    }));
    let steps = care.hand_test.map(|kind| Steps {
        heading: words.check("hand-test", "what").to_owned(),
        steps: words.hand_test(kind).to_vec(),
    });
    let schedule = schedule(writer);
    let safety = care.dangers.iter().map(|danger| {
        let caution = writer.wording.label(match danger.hazard {
            Hazard::Battery => "danger-caution-battery",
            Hazard::Ride => "danger-caution-ride",
        });
        text::fill(caution, &[("sign", writer.wording.sign(danger.sign.name(), "plain"))])
    });
    let cautions = care.cautions.iter().map(|name| words.caution(name).to_owned());
    if items.is_empty() && schedule.is_none() && care.cautions.is_empty() {
        return None;
    }
    let heading = match writer.fields().outcome.as_ref().map(|outcome| outcome.value) {
        Some(Outcome::ReturnedUnrepaired) | None => "care-heading-unrepaired",
        _ if !care.dangers.is_empty() => "care-heading-unrepaired",
        _ => "care-heading",
    };
    Some(CareView {
        heading: writer.wording.label(heading).to_owned(),
        items,
        refit: refit(writer),
        schedule,
        hand_test: steps,
        cautions: safety.chain(cautions).collect(),
    })
}

fn refit(writer: &Writer<'_>) -> Option<Card> {
    let words = writer.wording.care();
    let lines = writer.material.assessment.care.refit.iter();
    let lines: Vec<String> = lines.map(|name| words.refit(name).to_owned()).collect();
    (!lines.is_empty()).then(|| Card {
        heading: words.refit_card("heading").to_owned(),
        text: words.refit_card("text").to_owned(),
        lines,
    })
}

fn schedule(writer: &Writer<'_>) -> Option<Schedule> {
    let care = &writer.material.assessment.care;
    let words = writer.wording.care();
    let rows: Vec<CheckRow> =
        care.checks.iter().filter_map(|check| check_row(writer, check)).collect();
    let mut note = match &care.pace {
        Ok(pace) => {
            text::fill(words.form("by-pace"), &[("distance", &pace_a_day(writer, pace.km_a_day()))])
        }
        Err(_) => words.form("by-calendar").to_owned(),
    };
    // What makes checks come sooner is said once for all of them.
    let because: Vec<Reason> = care.checks.iter().flat_map(|check| check.because.clone()).collect();
    add(writer, &mut note, "sooner", reasons(writer, &because));
    (!rows.is_empty()).then(|| Schedule {
        heading: writer.wording.label("next-checks").to_owned(),
        rows,
        note,
    })
}

/// A check in words; `None` without a day, for then there is nothing to put on a calendar.
pub fn check_row(writer: &Writer<'_>, check: &NextCheck) -> Option<CheckRow> {
    let words = writer.wording.care();
    let day: NaiveDate = check.date?;
    let or = match check.odometer {
        Some(reading) => text::fill(words.form("or-at"), &[("distance", &way(writer, reading))]),
        None => text::fill(words.form("or-after"), &[("distance", &way(writer, check.after))]),
    };
    // Whoever posted the unit is seldom nearby.
    let is_posted = writer.material.assessment.care.posted && check.kind == WORKSHOP_LOOK;
    let key = if is_posted { "workshop-look-posted" } else { check.kind };
    let mut more = check
        .every
        .map_or_else(|| words.form("once").to_owned(), |every| every_text(writer, every));
    more = text::capitalised(&more) + ".";
    if let Source::Published(source) = &check.source {
        more = format!("{more} {}", text::fill(words.form("source"), &[("source", source)]));
    }
    Some(CheckRow {
        when: text::fill(words.form("by"), &[("day", &format::day(day, writer.wording))]),
        or,
        what: words.check(key, "what").to_owned(),
        how: words.check(key, "how").to_owned(),
        more,
    })
}

fn every_text(writer: &Writer<'_>, every: Interval) -> String {
    let (key, n) = match every.span {
        Span::Weeks(1) => ("every-week", 1),
        Span::Weeks(n) => ("every-weeks", n),
        Span::Months(1) => ("every-month", 1),
        Span::Months(n) => ("every-months", n),
    };
    text::fill(
        writer.wording.care().form(key),
        &[("n", &n.to_string()), ("distance", &way(writer, every.km))],
    )
}

fn reasons(writer: &Writer<'_>, because: &[Reason]) -> Vec<String> {
    let words = because.iter().filter_map(|reason| writer.wording.care().because(*reason));
    let mut reasons: Vec<String> = Vec::new();
    for word in words {
        if !reasons.iter().any(|known| known == word) {
            reasons.push(word.to_owned());
        }
    }
    reasons
}

fn add(writer: &Writer<'_>, text: &mut String, form: &str, list: Vec<String>) {
    if !list.is_empty() {
        let list = list.join("; ");
        let form = text::fill(writer.wording.care().form(form), &[("list", &list)]);
        join(text, &form);
    }
}

/// Kilometres in the paper's units, rounded down so that no check comes late.
fn way(writer: &Writer<'_>, km: Decimal) -> String {
    let units = writer.units();
    format::interval(km, units, writer.wording)
}

fn pace_a_day(writer: &Writer<'_>, km: Decimal) -> String {
    let units = writer.units();
    format::way_a_day(km, units, writer.wording)
}

/// Adds a sentence after those that are there.
fn join(text: &mut String, sentence: &str) {
    if !text.is_empty() {
        text.push(' ');
    }
    text.push_str(sentence);
}
