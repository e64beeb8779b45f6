//! Reads the papers as a sceptic: every sentence is held against the facts of its sheet.
//!
//! A few hundred sheets are made of all signs, parts, conditions, outcomes and dates. The licences
//! come from the table of clauses; what holds is read from the sheet's text a second time, here.

/// What holds of a sheet, read from its text without the program's own facts.
mod facts;
/// Covering messages.
mod messages;
/// The papers before the report.
mod papers;
/// The sheets.
mod sheets;
/// Words that need a fact, wherever they stand.
mod words;

use std::collections::BTreeMap;

use serde_json::Value;
use splitcase::assessment::Assessment;
use splitcase::document::clauses::{Condition, Slot, TABLE};
use splitcase::document::facts as values;
use splitcase::document::facts::JobFacts;
use splitcase::document::wording::Wording;
use splitcase::sheet::Sheet;

use crate::paper;
use facts::{Found, Reading};

const PROFILE: &str = "name: Hollowmere Drive Works\ncurrency: GBP\nrates: {hour: £44.00}\nunits: metric\n\
    tax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}\n\
    limits: {crank-radial-play: 0.25 mm}\nrules: epac\n";

/// A sheet with all that the report is made from.
pub struct Case {
    name: String,
    sheet: Sheet,
    assessment: Assessment,
    view: Value,
    values: JobFacts,
}

fn case(name: &str, text: &str, wording: &Wording) -> Case {
    let made = paper::made(PROFILE, text, None);
    let view = made.view(wording);
    case_of(made, name, view, wording)
}

/// The facts of a sheet, for a paper whose view is made elsewhere.
fn case_without_view(name: &str, text: &str, wording: &Wording) -> Case {
    case_of(paper::made(PROFILE, text, None), name, Value::Null, wording)
}

fn case_of(made: paper::Made, name: &str, view: Value, wording: &Wording) -> Case {
    let values = values::of(&made.sheet.fields, &made.workshop.fields, &made.assessment, wording);
    let paper::Made { sheet, assessment, .. } = made;
    Case { name: name.to_owned(), sheet, assessment, view, values }
}

/// What the table licenses for a place by the sceptic's own reading, as one text.
fn licensed(
    slot: Slot,
    reading: &Reading,
    case: &Case,
    wording: &Wording,
    said: &mut Count,
) -> String {
    let mut texts = Vec::new();
    for entry in &TABLE[&slot] {
        let clause = entry
            .clauses()
            .iter()
            .find(|clause| clause.when.iter().all(|one| reading.holds(one.fact) == one.holds));
        if let Some(clause) = clause {
            *said.entry(clause.say.clone()).or_default() += 1;
            texts.push(wording.sentence(&clause.say, &case.values).unwrap());
        }
    }
    texts.join(" ")
}

/// What the first sign of a part says, by the words for its condition.
fn heading(found: &Found, wording: &Wording) -> Option<String> {
    let sign = found.signs.first()?;
    let failed = wording.sign_if(sign, "failed").filter(|_| found.condition == "failed");
    let form = failed.unwrap_or_else(|| wording.sign(sign, "heading"));
    Some(form.replace("{part}", wording.part(&found.part, "plain")))
}

/// The same with the name of the part, for a heading that was there before.
fn named_heading(found: &Found, wording: &Wording) -> Option<String> {
    let clause = facts::clause_of(found, found.signs.first()?, wording)?;
    if !clause.contains("{part}") {
        return None;
    }
    let filled = clause.replace("{part}", &format!("the {}", wording.part(&found.part, "plain")));
    Some(splitcase::document::text::capitalised(&filled))
}

/// What is said of each part: its heading if no sign gives one, the signs, what the part does.
fn parts(case: &Case, reading: &Reading, wording: &Wording, said: &mut Count) {
    let views = case.view["findings"].as_array().unwrap();
    // How the unit came stands before the parts, the unit in exchange after them.
    let of_parts = views.iter().filter(|view| view["condition"] != "");
    let strip = case.sheet.fields.strip_down.as_ref().map_or(&[][..], |strip| &strip.findings);
    let mut headings: Vec<String> = Vec::new();
    for ((view, found), finding) in of_parts.zip(&reading.findings).zip(strip) {
        let values = serde_json::json!({"part": {
            "plain": wording.part_of(finding),
            "gloss": wording.part(&found.part, "gloss"),
            "more_signs": found.signs.iter().skip(1).map(|sign| wording.sign(sign, "plain")).collect::<Vec<_>>(),
        }});
        let mut text = |slot: Slot| {
            let mut texts = Vec::new();
            for entry in &TABLE[&slot] {
                let holds = |one: &Condition| reading.holds_of(found, one.fact) == one.holds;
                let clause = entry.clauses().iter().find(|clause| clause.when.iter().all(holds));
                if let Some(clause) = clause {
                    *said.entry(clause.say.clone()).or_default() += 1;
                    texts.push(wording.sentence(&clause.say, &values).unwrap());
                }
            }
            texts.join(" ")
        };
        let printed = view["heading"].as_str().unwrap();
        let own = heading(found, wording);
        let right = match &own {
            Some(own) if headings.contains(own) => {
                named_heading(found, wording).unwrap_or(own.clone())
            }
            Some(own) => own.clone(),
            None => text(Slot::FindingHeading),
        };
        headings.extend(own);
        assert_eq!(printed, right, "{}", case.name);
        let story = view["text"].get(0).and_then(|text| text.as_str()).unwrap_or_default();
        assert_eq!(story, text(Slot::Finding), "{}", case.name);
    }
}

type Count = BTreeMap<String, usize>;

/// The text of an answer of page 1 by any of the questions that it may stand under.
fn answer(view: &Value, questions: &[&str]) -> String {
    let answers = view["answers"].as_array().unwrap();
    let found = answers.iter().find(|one| questions.contains(&one["question"].as_str().unwrap()));
    found.map_or(String::new(), |one| one["text"].as_str().unwrap().to_owned())
}

#[test]
fn every_sentence_hangs_on_a_fact_of_its_sheet() {
    let wording = paper::english();
    let mut said = Count::new();
    let sheets = sheets::all();
    assert!(300 <= sheets.len(), "only {} sheets", sheets.len());
    for (name, text) in &sheets {
        let case = case(name, text, &wording);
        let reading = Reading::of(text, &case.assessment, &wording);
        let check = |slot, text: String, said: &mut Count| {
            let right = licensed(slot, &reading, &case, &wording, said);
            assert_eq!(text, right, "{}, {slot:?}", case.name);
        };
        check(Slot::Lead, case.view["lead"].as_str().unwrap().to_owned(), &mut said);
        check(Slot::Told, answer(&case.view, &["You told us"]), &mut said);
        check(Slot::Found, answer(&case.view, &["What we found"]), &mut said);
        check(Slot::Why, answer(&case.view, &["Why it happened", "What it points to"]), &mut said);
        check(Slot::Did, answer(&case.view, &["What we did", "What we tried"]), &mut said);
        check(Slot::Rides, answer(&case.view, &["How it rides now", "What comes next"]), &mut said);
        if !case.view["cause"].is_null() {
            check(
                Slot::CauseHeading,
                case.view["cause"]["heading"].as_str().unwrap().to_owned(),
                &mut said,
            );
            let paragraphs = case.view["cause"]["text"].as_array().unwrap();
            let paragraphs: Vec<&str> =
                paragraphs.iter().map(|one| one.as_str().unwrap()).collect();
            for slot in [Slot::Triage, Slot::Cause, Slot::Contributing, Slot::CauseSupport] {
                let right = licensed(slot, &reading, &case, &wording, &mut said);
                let is_there = right.is_empty() || paragraphs.contains(&right.as_str());
                assert!(is_there, "{}, {slot:?}: {right:?} is not in {paragraphs:?}", case.name);
            }
        }
        if !case.view["ride"].is_null() {
            check(
                Slot::RideHeading,
                case.view["ride"]["heading"].as_str().unwrap().to_owned(),
                &mut said,
            );
            check(Slot::Ride, case.view["ride"]["text"][0].as_str().unwrap().to_owned(), &mut said);
        }
        let first = &case.view["findings"][0];
        if first["part"] == "The unit on arrival" {
            check(Slot::ArrivalHeading, first["heading"].as_str().unwrap().to_owned(), &mut said);
            let text = first["text"].get(0).and_then(Value::as_str).unwrap_or_default();
            check(Slot::Arrival, text.to_owned(), &mut said);
        }
        if !case.view["work"].is_null() {
            let heading = case.view["work"]["heading"].as_str().unwrap();
            check(Slot::WorkHeading, heading.to_owned(), &mut said);
        }
        parts(&case, &reading, &wording, &mut said);
        words::check(&case, &reading);
        words::check_clauses(&case, &reading, &wording);
    }
    let unsaid: Vec<&str> = TABLE
        .iter()
        .filter(|(slot, _)| !papers::SLOTS.contains(slot) && !messages::SLOTS.contains(slot))
        .flat_map(|(_, entries)| entries)
        .flat_map(splitcase::document::clauses::Entry::clauses)
        .map(|clause| clause.say.as_str())
        .filter(|key| !said.contains_key(*key) && !NEEDS_MORE.contains(key))
        .collect();
    assert_eq!(unsaid, Vec::<&str>::new(), "no sheet of {} leads to these", sheets.len());
    let count: usize = said.values().sum();
    assert!(10_000 <= count, "{count} sentences of {} sheets", sheets.len());
}

/// Sentences about a recorded ride, which tests/report.rs reads, and about earlier visits of a unit,
/// which tests/likeness/visits.rs reads.
pub const NEEDS_MORE: &[&str] = &[
    "found-before-returned",
    "found-before",
    "found-before-often",
    "found-given",
    "ride-recorded-climb",
    "ride-recorded-moving",
    "ride-recorded",
    "ride-gaps",
    "ride-held",
    "ride-passed",
    "ride-not-reached",
    "ride-too-slow",
];
