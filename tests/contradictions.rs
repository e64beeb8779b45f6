//! Sheets whose fields contradict each other: the check warns, and the paper believes none of them
//! more than it can show.
//!
//! What every sentence hangs on is held by `sceptic.rs`; here are whole answers of page 1.

use crate::report::{PROFILE, said, view};

const HEAD: &str = "job: A-1\ncustomer: {name: Nadia Ferrow}\n\
    unit: {kind: mid-drive, mileage: 900 km}\narrival: {date: 2026-03-02}\n";

/// What the papers say of a sheet that goes on from its head.
fn paper(more: &str) -> String {
    said(&view(PROFILE, &format!("{HEAD}{more}"), None))
}

fn opened(finding: &str) -> String {
    format!("strip-down: {{date: 2026-03-04, findings: [{finding}]}}\n")
}

#[test]
fn no_fault_found_is_not_said_beside_a_part_that_failed_or_a_cause_that_is_stated() {
    let failed = opened("{part: output-gear, condition: failed, signs: [tooth-pitting]}");
    let sound = opened("{part: output-gear, condition: sound}");
    for sheet in [
        format!("{failed}cause: {{main: no-fault-found}}\noutcome: no-fault-found\n"),
        format!("{failed}cause: {{main: undetermined}}\noutcome: no-fault-found\n"),
        format!("{failed}cause: {{main: mechanical}}\noutcome: no-fault-found\n"),
        format!("{sound}cause: {{main: ingress}}\noutcome: no-fault-found\n"),
        "cause: {main: mechanical}\noutcome: no-fault-found\n".to_owned(),
        format!(
            "{failed}cause: {{main: no-fault-found}}\noutcome: repaired\nwork: {{note: Gear.}}\n"
        ),
    ] {
        let said = paper(&sheet);
        for never in ["found none", "no sign of a fault", "found no fault"] {
            assert!(!said.contains(never), "{never}:\n{sheet}\n{said}");
        }
    }
    let plain =
        paper(&format!("{sound}cause: {{main: no-fault-found}}\noutcome: no-fault-found\n"));
    assert!(plain.contains("found none") && plain.contains("no sign of a fault"), "{plain}");
}

#[test]
fn a_unit_that_stayed_closed_is_not_said_to_have_been_opened() {
    let said = paper("cause: {main: electrical}\noutcome: no-fault-found\n");
    assert!(said.contains("it was not opened") && !said.contains("We opened"), "{said}");
}

#[test]
fn one_new_bearing_is_not_called_all_while_more_is_billed() {
    let sheet = |parts: &str| {
        opened("{part: main-bearing-drive-side, condition: worn, action: replaced}")
            + &format!("work: {{parts: [{parts}]}}\noutcome: repaired\n")
    };
    let only = "The unit is repaired; it has one new bearing";
    let bearing = "{what: bearing, price: £9.80}";
    assert!(paper(&sheet(bearing)).contains(only));
    for more in [
        format!("{bearing}, {{what: lip seal, price: £7.00}}"),
        "{what: bearing, price: £9.80, quantity: 2}".to_owned(),
    ] {
        let said = paper(&sheet(&more));
        assert!(!said.contains(only), "{said}");
    }
}

#[test]
fn a_sign_that_no_list_has_is_printed_as_words_and_never_as_a_key() {
    let said = paper(&opened(
        "{part: output-gear, condition: worn, signs: [glowing-blue, drive-side nick]}",
    ));
    assert!(said.contains("lowing blue") && !said.contains("glowing-blue"), "{said}");
    // A hyphen of ordinary words stays.
    assert!(said.contains("rive-side nick"), "{said}");
}
