//! What page 1 says, field by field: questions, days, the drawing, what must not be ridden.

use serde_json::Value;

use super::{HEAD, PROFILE, said, view};

fn page(rest: &str) -> Value {
    view(PROFILE, &format!("{HEAD}{rest}"), None)
}

/// The questions of page 1, in their order.
fn questions(page: &Value) -> Vec<&str> {
    let answers = page["answers"].as_array().unwrap();
    answers.iter().map(|one| one["question"].as_str().unwrap()).collect()
}

/// The value of a fact in the spine.
fn fact<'a>(page: &'a Value, label: &str) -> Option<&'a str> {
    let days = page["life"].as_array().unwrap().iter().map(|day| &day["fact"]);
    let mut facts = page["spine"].as_array().unwrap().iter().chain(days);
    facts.find(|fact| fact["label"] == label).map(|fact| fact["value"].as_str().unwrap())
}

const OPENED: &str = "arrival: {date: 2025-12-29}\nstrip-down:\n  date: 2025-12-30\n  findings:\n    \
    - {part: main-bearing-drive-side, condition: failed, signs: [cage-broken]}\n";

const RIDDEN: &str = "work: {parts: [{what: bearing 6804-2RS, price: £9.80}]}\n\
    ride: {date: 2026-01-05, distance: 4 km, cut-off: 25.2 km/h, noise: silent}\noutcome: repaired\n";

#[test]
fn the_last_question_asks_how_it_rides_only_once_it_is_known_that_it_rides_again() {
    let open = page(&format!("{OPENED}in-short: {{rides: It waits for a bearing.}}\n"));
    assert_eq!(questions(&open).last(), Some(&"What comes next"));
    let done = format!("{OPENED}{RIDDEN}");
    assert_eq!(questions(&page(&done)).last(), Some(&"How it rides now"));
}

#[test]
fn the_days_of_a_job_have_their_year_where_it_changes_and_end_with_the_return() {
    let page = page(&format!("{OPENED}{RIDDEN}returned: 2026-01-06\n"));
    assert_eq!(fact(&page, "Came in"), Some("29 December 2025"));
    assert_eq!(fact(&page, "Opened"), Some("30 December"));
    assert!(fact(&page, "Test ride").unwrap().starts_with("5 January 2026"));
    assert_eq!(fact(&page, "Sent back"), Some("6 January"));
}

#[test]
fn the_way_of_the_water_is_drawn_only_if_water_had_a_part_in_it() {
    let seal = "arrival: {date: 2026-03-02}\nstrip-down:\n  date: 2026-03-04\n  findings:\n    \
        - {part: crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward]}\n";
    let water = |cause: &str| page(&format!("{seal}cause: {{{cause}}}\n"))["map"]["water"].clone();
    assert!(water("main: ingress").is_array());
    assert!(water("main: mechanical, contributing: [ingress]").is_array());
    assert_eq!(water("main: mechanical"), Value::Null);
    assert_eq!(water("main: undetermined"), Value::Null);
}

#[test]
fn a_danger_is_closed_by_a_new_part_and_by_nothing_less() {
    let todo = |action: &str| {
        let axle = format!(
            "arrival: {{date: 2026-03-02}}\nstrip-down:\n  date: 2026-03-04\n  findings:\n    \
             - {{part: crank-axle, condition: failed, signs: [axle-cracked-or-bent]{action}}}\n\
             work: {{parts: [{{what: axle, price: £60.00}}]}}\noutcome: repaired\nreturned: 2026-03-09\n"
        );
        said(&page(&axle)["todo"])
    };
    assert!(todo("").contains("Do not ride it yet"), "{}", todo(""));
    assert!(todo(", action: repaired").contains("Do not ride it yet"));
    assert!(
        !todo(", action: replaced").contains("Do not ride it"),
        "{}",
        todo(", action: replaced")
    );
}

/// An insulation limit is a least one (IEEE 43-2013): the good part of its line is on the right.
#[test]
fn the_good_part_of_a_line_is_above_a_least_limit_and_below_a_most_limit() {
    let bench = page(
        "arrival: {date: 2026-03-02}\nstrip-down: {date: 2026-03-04, findings: []}\nbench:\n  \
         - {check: insulation-resistance, before: 0.8 Mohm, after: 240 Mohm, test-voltage: 250 V, at: 21 degC}\n  \
         - {check: battery-voltage, after: 36.4 V, cells: 10}\n",
    );
    let rows = bench["bench"]["rows"].as_array().unwrap();
    let insulation = &rows[0];
    let edge = |row: &Value, at: usize| row["allowed"][at].as_f64().unwrap();
    assert!((edge(insulation, 1) - 1.0).abs() < 1e-9, "{insulation:#}");
    assert!(0.0 < edge(insulation, 0));
    let dot = insulation["after"]["at"].as_f64().unwrap();
    assert_eq!(insulation["verdict"], "within its limit");
    assert!(edge(insulation, 0) <= dot && dot <= edge(insulation, 1));
}
