//! The papers before the report, read by the sceptic: the arrival note and the options letter.
//!
//! They are made from sheets of closed jobs, and held against those sheets cut off by hand at the stage
//! at which the paper was due: nothing that was typed later may be in them.

use std::collections::BTreeSet;

use serde_json::Value;
use splitcase::document::clauses::Slot;
use splitcase::document::papers::choice::Choice;
use splitcase::document::wording::Wording;

use super::facts::Reading;
use super::{Case, Count, PROFILE, TABLE, answer, case_without_view, licensed, sheets, words};
use crate::paper;

/// The places that only these papers have.
pub const SLOTS: [Slot; 5] =
    [Slot::ArrivalLead, Slot::ArrivalSeen, Slot::ArrivalPoints, Slot::ArrivalNext, Slot::AsItIs];

/// Blocks of a sheet that come after an options letter.
const AFTER_OFFER: [&str; 8] =
    ["decision", "work", "ride", "outcome", "exchange", "returned", "in-short", "advice"];

/// Blocks that come after an arrival note, beside those.
const AFTER_ARRIVAL: [&str; 5] = ["strip-down", "cause", "options", "options-valid-to", "bench"];

fn without(text: &str, keys: &[&str]) -> serde_yaml::Mapping {
    let mut tree: serde_yaml::Mapping = serde_yaml::from_str(text).unwrap();
    tree.retain(|key, _| !keys.contains(&key.as_str().unwrap()));
    tree
}

/// The sheet as it was when the unit had only come in.
pub fn as_arrived(text: &str) -> String {
    let tree = without(text, &[&AFTER_OFFER[..], &AFTER_ARRIVAL[..]].concat());
    serde_yaml::to_string(&tree).unwrap()
}

/// The sheet as it was when the owner was asked: nothing was done to any part, nothing measured after.
pub fn as_offered(text: &str) -> String {
    let mut tree = without(text, &AFTER_OFFER);
    let findings = tree.get_mut("strip-down").and_then(|strip| strip.get_mut("findings"));
    for finding in findings.and_then(|list| list.as_sequence_mut()).into_iter().flatten() {
        let finding = finding.as_mapping_mut().unwrap();
        finding.remove("action");
        finding.remove("photos-after");
    }
    let bench = tree.get_mut("bench").and_then(|list| list.as_sequence_mut());
    for check in bench.into_iter().flatten() {
        check.as_mapping_mut().unwrap().remove("after");
    }
    serde_yaml::to_string(&tree).unwrap()
}

/// The papers of a sheet before the report: the arrival note, and the letter if there is a choice.
fn before_the_report(text: &str, wording: &Wording) -> (Value, Value) {
    let names = ["arrival-note", "options-letter"].map(str::to_owned).to_vec();
    let views = paper::made(PROFILE, text, None).views_of(&Choice::Named(names), wording);
    let of = |name| views.iter().find(|(paper, _)| *paper == name).unwrap().1.clone();
    (of("arrival-note"), of("options-letter"))
}

/// Every place of a list, one after another.
fn all(
    slots: &[Slot],
    reading: &Reading,
    case: &Case,
    wording: &Wording,
    said: &mut Count,
) -> String {
    let texts = slots.iter().map(|slot| licensed(*slot, reading, case, wording, said));
    texts.filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" ")
}

/// Holds a paper against its sheet as it was then.
fn hold(
    name: &str,
    view: &Value,
    then: &str,
    answers: &[(&str, &[Slot])],
    lead: Slot,
    (wording, said): (&Wording, &mut Count),
) {
    let case = case_without_view(name, then, wording);
    let reading = Reading::of(then, &case.assessment, wording);
    assert_eq!(
        paper::plain(view["lead"].as_str().unwrap()),
        paper::plain(&licensed(lead, &reading, &case, wording, said)),
        "{name}, {lead:?}"
    );
    for (question, slots) in answers {
        let right = all(slots, &reading, &case, wording, said);
        assert_eq!(
            paper::plain(&answer(view, &[question])),
            paper::plain(&right),
            "{name}, {question}"
        );
    }
    assert!(view["answers"].as_array().unwrap().len() <= answers.len(), "{name}");
    if lead == Slot::Lead {
        let right = licensed(Slot::AsItIs, &reading, &case, wording, said);
        let notes = view["choices"]["notes"].as_array().unwrap();
        let is_said = |note: &Value| paper::plain(note.as_str().unwrap()) == paper::plain(&right);
        assert!(right.is_empty() || notes.iter().any(is_said), "{name}: {right}");
    }
    words::check_never(name, view);
}

const ARRIVAL: [(&str, &[Slot]); 4] = [
    ("You told us", &[Slot::Told]),
    ("What we saw", &[Slot::ArrivalSeen]),
    ("Where it points", &[Slot::ArrivalPoints]),
    ("What happens next", &[Slot::ArrivalNext]),
];

const OFFER: [(&str, &[Slot]); 3] = [
    ("You told us", &[Slot::Told]),
    ("What we found", &[Slot::Found]),
    ("Why it happened", &[Slot::Why, Slot::AnswerSupport]),
];

/// What a sheet may say at arrival that those of the report do not.
const ARRIVED: [&str; 4] = [
    "job: S-1\ncustomer: {name: Nadia Ferrow}\nunit: {kind: hub, warranty: in}\n\
     arrival: {date: 2026-03-02, reply-by: 2026-03-06, bike-check: {display: on, battery: on}}\n\
     billing: {inspection: £35.00, inspection-credited: yes}\n",
    "job: S-2\ncustomer: {name: Nadia Ferrow}\nunit: {kind: hub, warranty: out}\n\
     arrival: {date: 2026-03-02, signs: [brown-water], water: 15 ml}\n\
     billing: {inspection: £35.00}\n",
    "job: S-3\ncustomer: {name: Nadia Ferrow}\nunit: {kind: mid-drive}\n\
     arrival: {date: 2026-03-02, bike-check: {battery: wet, charger: faulty}}\n",
    "job: S-4\ncustomer: {name: Nadia Ferrow}\nunit: {kind: mid-drive, warranty: unknown}\n\
     arrival: {date: 2026-03-02, complaint: It hums}\n",
];

/// Three choices, for a sheet without any.
pub const OPTIONS: &str = "options:\n  - {kind: overhaul, price: £240.00, days: 9}\n  \
    - {kind: exchange, price: £395.00}\n  - {kind: return-as-it-is, price: £35.00}\n";

#[test]
fn the_papers_before_the_report_say_what_the_sheet_said_then_and_nothing_later() {
    let wording = paper::english();
    let mut said = Count::new();
    let mut sheets = sheets::all();
    sheets.extend(ARRIVED.iter().map(|text| ("arrived".to_owned(), (*text).to_owned())));
    let mut held = BTreeSet::new();
    for (name, text) in &sheets {
        // Of sheets that were alike at both stages one is enough.
        if !held.insert((as_arrived(text), as_offered(text))) {
            continue;
        }
        let offered = match text.contains("options:") {
            true => text.clone(),
            false => format!("{text}{OPTIONS}"),
        };
        let (note, letter) = before_the_report(&offered, &wording);
        let then = as_arrived(text);
        hold(name, &note, &then, &ARRIVAL, Slot::ArrivalLead, (&wording, &mut said));
        let then = as_offered(&offered);
        hold(name, &letter, &then, &OFFER, Slot::Lead, (&wording, &mut said));
    }
    let unsaid: Vec<&str> = SLOTS
        .iter()
        .flat_map(|slot| &TABLE[slot])
        .flat_map(splitcase::document::clauses::Entry::clauses)
        .map(|clause| clause.say.as_str())
        .filter(|key| !said.contains_key(*key) && !super::NEEDS_MORE.contains(key))
        .collect();
    assert_eq!(unsaid, Vec::<&str>::new(), "no sheet of {} leads to these", held.len());
    let count: usize = said.values().sum();
    assert!(5_000 <= count, "{count} sentences of {} sheets", held.len());
}
