//! Money: what every module here builds its cases from.

/// What is printed adds up, whatever is typed.
mod adds_up;
/// What catching it early would have cost.
mod early;
/// A bill beside the price that was agreed.
mod gap;
/// Amounts made to hurt.
mod hostile;
/// Fees, rates, surcharges and kinds of bill.
mod kinds;
/// Options side by side, and whether a repair is worth its price.
mod options;
/// The samples' rate card and jobs.
mod samples;
/// Discount, credit, deposit, balance.
mod settlement;
/// Several taxes, and taxes on some lines alone.
mod taxes;
/// How large a job was.
mod tier;
/// Published and computed examples of rounding.
mod worked;

use rust_decimal::Decimal;
use splitcase::assessment::cost::{self, Bill, Costs};
use splitcase::diagnostic::{Diagnostic, Problems, Severity};
use splitcase::sheet;

const HEAD: &str = "job: HD-1\ncustomer: {name: Nadia Ferrow}\narrival: {date: 2026-03-02}\n";
const UNIT: &str = "unit: {kind: mid-drive, model: Kestmar C4}\n";

/// Adds up a sheet that must be readable; `rest` follows its head, `profile` the workshop's.
fn costs_of(profile: &str, rest: &str) -> (Costs, Vec<Diagnostic>) {
    let mut problems = Problems::default();
    let profile = format!("name: Hollowmere Drive Works\n{profile}");
    let workshop = sheet::read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    let text = format!("{HEAD}{UNIT}{rest}");
    let sheet = sheet::read("findings.yaml", text.as_bytes(), &workshop, &mut problems).unwrap();
    let unread: Vec<_> = problems.into_sorted();
    let unread: Vec<_> = unread.iter().filter(|one| one.severity == Severity::Error).collect();
    assert!(unread.is_empty(), "{unread:?}\n{profile}\n{text}");
    let mut problems = Problems::default();
    let costs = cost::assess(&sheet, &workshop, &mut problems);
    (costs, problems.into_sorted())
}

/// Pounds at £48 an hour, and these lines of tax.
fn pounds(tax: &str) -> String {
    format!("currency: GBP\nrates: {{hour: £48.00}}\n{tax}")
}

/// The bill of a sheet that gives no problem.
fn bill_of(profile: &str, rest: &str) -> Bill {
    let (costs, problems) = costs_of(profile, rest);
    assert!(problems.is_empty(), "{problems:?}");
    costs.bill.unwrap()
}

fn codes(problems: &[Diagnostic]) -> Vec<&'static str> {
    problems.iter().map(|one| one.code).collect()
}

/// The text that a problem points at.
fn marked(problem: &Diagnostic) -> &str {
    &problem.place.source.text()[problem.place.range.clone().unwrap()]
}

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}
