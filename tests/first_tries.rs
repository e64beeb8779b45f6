//! Sheets as people first write them, each with the sheet that its messages lead to.
//!
//! The kinds of slips are those that technicians made in first hours with the program; the jobs are
//! invented.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use splitcase::diagnostic::{Diagnostic, Problems, Severity};
use splitcase::sheet;

use crate::messages::workshop;

fn errors(name: &str) -> (Vec<String>, Vec<Diagnostic>) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/first_tries").join(name);
    let text = fs::read_to_string(path).unwrap();
    let mut problems = Problems::default();
    sheet::read(name, text.as_bytes(), &workshop(), &mut problems);
    let found = problems.into_sorted().into_iter();
    let errors = found.filter(|one| one.severity == Severity::Error).collect();
    (text.lines().map(str::to_owned).collect(), errors)
}

fn said(problems: &[Diagnostic]) -> String {
    problems
        .iter()
        .map(|one| format!("\n{}: {} ({:?})", line(one), one.message, one.hints))
        .collect()
}

fn line(problem: &Diagnostic) -> usize {
    problem.place.source.line_column(problem.place.range.as_ref().unwrap().start).0
}

#[test]
fn a_first_sheet_is_in_order_after_one_round_of_corrections() {
    for name in ["hub", "mid-drive", "exchange", "arrival"] {
        let (typed, wrong) = errors(&format!("{name}.yaml"));
        let (mended, left) = errors(&format!("{name}-mended.yaml"));
        assert!(left.is_empty(), "{name}: {}", said(&left));
        assert_eq!(typed.len(), mended.len(), "{name}");
        let lines = typed.iter().zip(&mended).enumerate();
        let changed: BTreeSet<usize> =
            lines.filter(|(_, (old, new))| old != new).map(|(at, _)| at + 1).collect();
        let named: BTreeSet<usize> = wrong.iter().map(line).collect();
        // What had to be changed was named at the first look, and nothing else was.
        assert_eq!(named, changed, "{name}: {}", said(&wrong));
        // One message a line: no follow-on errors.
        assert_eq!(wrong.len(), named.len(), "{name}: {}", said(&wrong));
        assert!(wrong.iter().all(|one| !one.hints.is_empty()), "{name}: {}", said(&wrong));
    }
}

#[test]
fn a_number_that_a_comma_divides_in_braces_is_whole() {
    let text = "job: TW-11\ncustomer: Ada Wynstone\nunit: {kind: hub, mileage: 1,840 miles, serial: S-1}\n\
                arrival: {date: 2026-06-12}\n";
    let mut problems = Problems::default();
    let sheet = sheet::read("braces", text.as_bytes(), &workshop(), &mut problems).unwrap();
    assert_eq!(problems.n_errors(), 0);
    assert_eq!(sheet.fields.unit.mileage.unwrap().0.number, 1840.into());
}
