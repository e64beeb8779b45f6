//! Stated causes against the signs: no warning where the statement is right, the right one where not.

use splitcase::assessment::cause::doubts::doubts;
use splitcase::assessment::cause::triage::triage;
use splitcase::assessment::cause::weigh;
use splitcase::diagnostic::Problems;
use splitcase::sheet::{Sheet, read, read_profile};

use super::cases::{cases, sheet_text};

fn whole(text: &str) -> Sheet {
    let mut problems = Problems::default();
    let profile = "name: Quarrow Drive Bench\ncurrency: GBP\n";
    let workshop = read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    let sheet = read("findings.yaml", text.as_bytes(), &workshop, &mut problems).unwrap();
    assert!(!problems.has_errors(), "{text}\n{:?}", problems.into_sorted());
    sheet
}

/// The codes of the warnings on the stated cause; the one on a missing photo is left out.
fn codes(text: &str) -> Vec<String> {
    let sheet = whole(text);
    let check = sheet.fields.arrival.bike_check.as_ref();
    let triage = check.map(|check| triage(check, sheet.fields.unit.kind));
    let weighing = weigh(&sheet.fields, Vec::new(), &[]);
    let found = doubts(&sheet, &weighing, triage.as_ref());
    let found = found.into_iter().filter(|one| one.code != "cause/no-evidence");
    found.map(|one| one.code.to_owned()).collect()
}

#[test]
fn a_right_statement_brings_no_warning_and_a_wrong_one_its_own() {
    let lines = include_str!("stated.txt").lines();
    let lines = lines.filter(|line| !line.is_empty() && !line.starts_with('#'));
    let mut wrong = Vec::new();
    for line in lines {
        let columns: Vec<&str> = line.split('|').map(str::trim).collect();
        let [name, signs, when, check, cause, expected] = columns[..] else { panic!("{line}") };
        let arrival = format!("arrival: {{bike-check: {{{check}}}, ");
        let text = sheet_text(signs, when).replace("arrival: {", &arrival);
        let found = codes(&format!("{text}cause: {{{cause}}}\n")).join(" ");
        let expected = if expected == "-" { "" } else { expected };
        if found != expected {
            wrong.push(format!("{name}: `{found}`, expected `{expected}`"));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

/// Every job of the tables, stated as the trade would state it.
#[test]
fn what_the_trade_would_state_of_a_job_brings_no_warning() {
    let mut warned = Vec::new();
    let mut stated = 0;
    for case in cases() {
        let with: Vec<&str> = case.with.iter().map(|one| one.word()).collect();
        let origin = case.origin.map_or(String::new(), |one| format!(", origin: {}", one.word()));
        let cause =
            format!("{{main: {}, contributing: [{}]{origin}}}", case.main.word(), with.join(", "));
        let found = codes(&format!("{}cause: {cause}\n", case.text));
        stated += 1;
        if !found.is_empty() {
            warned.push(format!("{}: {cause}: {}", case.name, found.join(" ")));
        }
    }
    assert!(400 <= stated, "{stated}");
    assert_eq!(warned, Vec::<String>::new());
}
