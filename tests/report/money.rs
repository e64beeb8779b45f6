//! Money on paper: options in every form, words of settlement, kinds of bill.

use serde_json::Value;

use super::{HEAD, PROFILE, said, view};
use crate::workshop::{Workshop, closed};

const KINDS: [&str; 5] = ["overhaul", "exchange", "return-as-it-is", "single-bearing", "new-unit"];

/// This many options, with or without prices, days and what they leave.
fn options(count: usize, has: usize) -> String {
    let option = |(at, kind): (usize, &&str)| {
        let mut text = format!("  - {{kind: {kind}");
        let price = match at {
            0 => "£180.00 to £240.00",
            1 => "at most £420.00",
            _ => "£35.00",
        };
        if has & 1 != 0 {
            text += &format!(", price: {price}");
        }
        if has & 2 != 0 {
            text += ", days: 3";
        }
        if has & 4 != 0 {
            text += ", remaining: the worn ring gear";
        }
        if has & 8 != 0 {
            text += ", parts: [{what: a, price: £9.00}], labour: 30 min";
        }
        text + "}\n"
    };
    let lines: String = KINDS[..count].iter().enumerate().map(option).collect();
    if lines.is_empty() { lines } else { format!("options:\n{lines}") }
}

#[test]
fn every_form_of_options_makes_a_table_without_an_empty_column() {
    for count in 0..=KINDS.len() {
        for has in 0..16 {
            let text = format!("{HEAD}arrival: {{date: 2026-03-02}}\n{}", options(count, has));
            let table = &view(PROFILE, &text, None)["options"];
            if count < 2 {
                assert_eq!(*table, Value::Null);
                continue;
            }
            let columns = table["columns"].as_array().unwrap().len();
            assert_eq!(table["holds"].as_array().unwrap().len(), columns);
            let rows = table["rows"].as_array().unwrap();
            assert_eq!(rows.len(), count);
            for row in rows {
                assert_eq!(row["cells"].as_array().unwrap().len(), columns, "{count} {has}");
            }
            for at in 0..columns {
                assert!(rows.iter().any(|row| row["cells"][at] != ""), "{count} {has} {at}");
            }
        }
    }
}

#[test]
fn what_check_accepts_is_rendered_whatever_the_options_say() {
    let shop = Workshop::new();
    for (count, has) in
        [(2, 0), (2, 1), (2, 3), (2, 7), (3, 4), (3, 9), (5, 2), (5, 15), (1, 1), (0, 0)]
    {
        let job = format!("O-{count}-{has}");
        shop.file(&format!("jobs/{job}/findings.yaml"), closed(&job) + &options(count, has));
    }
    assert_eq!(shop.run(&["check", "jobs"]).code, 0);
    let run = shop.run(&["render", "jobs", "--out", "out"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(shop.has("out/O-2-0/return-report.pdf") && shop.has("out/O-5-15/return-report.pdf"));
}

const DONE: &str = "strip-down:\n  date: 2026-03-03\n  findings: [{part: main-bearing-drive-side, condition: worn, action: replaced}]\n\
    outcome: repaired\nreturned: 2026-03-11\n";

fn bill(profile: &str, rest: &str) -> Value {
    view(profile, &format!("{HEAD}arrival: {{date: 2026-03-02}}\n{rest}"), None)
}

fn last(view: &Value) -> (String, String) {
    let last = view["work"]["totals"].as_array().unwrap().iter().find(|one| one["strong"] == true);
    let text = |key: &str| last.unwrap()[key].as_str().unwrap().to_owned();
    (text("label"), text("amount"))
}

#[test]
fn a_bill_says_whether_it_is_paid_to_pay_or_nothing_to_pay() {
    let settled = |rest: &str| {
        let view = bill(PROFILE, &format!("work: {{price: £60.00}}\n{rest}{DONE}"));
        (view["paid"]["label"].as_str().unwrap().to_owned(), last(&view))
    };
    let pair = |label: &str, amount: &str| (label.to_owned(), amount.to_owned());
    assert_eq!(settled(""), ("To pay".into(), pair("To pay", "£60.00")));
    let by_card = "billing: {paid: 2026-03-11, paid-by: card}\n";
    assert_eq!(settled(by_card), ("Paid".into(), pair("Paid: 11 March 2026, card", "£60.00")));
    let guaranteed = "billing: {kind: guarantee, guarantee-of: 2025-10-03, earlier-job: HD-2507}\n";
    let words = "Nothing to pay: under our guarantee of 3 October 2025, job HD-2507";
    assert_eq!(settled(guaranteed), ("Nothing to pay".into(), pair(words, "£0.00")));
    let free = "strip-down: {date: 2026-03-03, findings: []}\noutcome: no-fault-found\n";
    let view = bill(PROFILE, free);
    assert_eq!(
        (&view["paid"]["label"], &view["paid"]["amount"]),
        (&"Nothing to pay".into(), &"£0.00".into())
    );
}

#[test]
fn what_was_agreed_beyond_the_offer_is_one_sentence_with_its_lines_and_its_day() {
    let rest = "options: [{kind: overhaul, labour: 60 min}]\n\
        decision: {option: overhaul, overrun: {agreed: 2026-03-08, via: phone}}\n\
        work: {parts: [{what: lip seal, price: £6.50}], labour: 60 min}\n";
    let notes = said(&bill(PROFILE, &format!("{rest}{DONE}"))["work"]["notes"]);
    let words =
        "£6.50 above the agreed £44.00: lip seal £6.50; agreed on 8 March 2026 by telephone.";
    assert!(notes.contains(words), "{notes}");
}

#[test]
fn looking_into_a_unit_is_an_examination_of_what_was_looked_at() {
    let rest = "options: [{kind: return-as-it-is, price: £35.00}]\ndecision: {option: return-as-it-is}\n\
        billing: {inspected: one hour on the bench}\n\
        strip-down:\n  date: 2026-03-03\n  findings: [{part: rotor, condition: sound}, {part: stator, condition: not-examined}]\n\
        outcome: no-fault-found\n";
    let view = bill(PROFILE, rest);
    let row = said(&view["work"]["rows"][0]);
    assert!(
        row.starts_with("Examination: motor's rotor and one hour on the bench £35.00"),
        "{row}"
    );
    // One of everything: no column for how many.
    assert_eq!(view["work"]["columns"], serde_json::json!(["What", "Sum"]));
}

#[test]
fn taxes_are_shown_where_they_differ_and_a_rate_of_nothing_never() {
    let mixed = "work: {parts: [{what: a, price: £12.00}, {what: b, price: £10.00, tax: none}]}\n";
    let view = bill(PROFILE, mixed);
    assert_eq!(view["work"]["columns"], serde_json::json!(["What", "Tax", "Sum"]));
    assert!(said(&view["work"]["rows"]).contains("no tax £10.00"));
    assert!(said(&view["work"]["totals"]).contains("£2.00 of which VAT at 20 %"));
    let none = PROFILE.replace("20 %", "0 %");
    let all = said(&bill(&none, mixed));
    assert!(!all.contains("VAT"), "{all}");
    let on_top = PROFILE
        .replace("including", "excluding")
        .replace("by-invoice}", "by-invoice, number: GB 1}");
    let totals = said(&bill(&on_top, "work: {labour: 60 min}\n")["work"]);
    assert!(totals.contains("£44.00 Subtotal £8.80 VAT at 20 % £52.80 Total so far"), "{totals}");
    assert!(totals.contains("Our VAT number: GB 1."), "{totals}");
    let reverse = "work: {labour: 60 min}\nbilling: {scheme: reverse-charge, buyer-number: XX 2}\n";
    let all = said(&bill(&on_top, reverse));
    assert!(all.contains("the buyer accounts for it. Check local rules."), "{all}");
    assert!(all.contains("Buyer's tax number: XX 2.") && !all.contains("£8.80"), "{all}");
}

#[test]
fn options_say_how_long_they_hold_what_is_dear_and_the_workshop_s_terms() {
    let profile = format!("{PROFILE}terms: {{options: [Kept for 60 days]}}\n");
    let rest = "options: [{kind: overhaul, price: £382.20}, {kind: exchange, price: £420.00}]\n\
        options-valid-to: 2026-03-31\nbilling: {inspection: £35.00, inspection-credited: yes}\n";
    let notes = said(&bill(&profile, rest)["options"]["notes"]);
    for words in [
        "Prices hold until 31 March 2026.",
        "The examination costs £35.00; it is credited against a repair.",
        "at £382.20 is 91 % of the £420.00 for a unit in exchange.",
        "Kept for 60 days",
    ] {
        assert!(notes.contains(words), "{notes}");
    }
    let cheap = rest.replace("382.20", "300.00");
    assert!(!said(&bill(&profile, &cheap)["options"]["notes"]).contains("in exchange."));
}

#[test]
fn what_is_taken_off_has_its_sign_before_the_currency_and_jobs_that_belong_together_are_named() {
    let rest = "with-job: [B-7]\nwork: {labour: 60 min}\nbilling: {inspection: £35.00, inspection-credited: yes}\n";
    let view = bill(PROFILE, rest);
    let rows = said(&view["work"]["rows"]);
    assert!(
        rows.contains("Examination, credited against the repair") && rows.contains("−£35.00"),
        "{rows}"
    );
    assert!(said(&view["spine"]).contains("Belongs with job"), "{}", view["spine"]);
}
