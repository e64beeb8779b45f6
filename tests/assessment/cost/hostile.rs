//! Amounts made to hurt: told at their place, never a panic, never a wrong sum.

use splitcase::assessment::cost::settlement::Balance;

use super::{bill_of, codes, costs_of, dec, marked, pounds};

const AS_IT_IS: &str = "{kind: return-as-it-is, price: £1.00}";
const NINES: &str = "999999999999999999999999";

#[test]
fn amounts_of_24_digits_are_refused_where_they_stand() {
    let tax = "tax: {name: VAT, rate: 20 %, prices: including, rounding: by-line}\n";
    let decimals = format!("£{}.99", &NINES[..21]);
    let price = format!("£{NINES}");
    for (rest, place) in [
        (format!("work: {{parts: [{{what: a, quantity: 999, price: {price}}}]}}\n"), &price),
        (format!("work: {{parts: [{{what: a, price: {decimals}}}]}}\n"), &decimals),
        (format!("work: {{price: {price}}}\n"), &price),
        (format!("options: [{{kind: exchange, price: {price}}}, {AS_IT_IS}]\n"), &price),
        (format!("work: {{labour: 1 h, discount: {{amount: {price}}}}}\n"), &price),
        (
            format!("work: {{labour: 1 h}}\ndecision: {{option: overhaul, deposit: {price}}}\n"),
            &price,
        ),
        (format!("exchange: {{credit: {price}}}\n"), &price),
        (format!("work: {{labour: {NINES} h}}\n"), &format!("{NINES} h")),
    ] {
        let (_, problems) = costs_of(&pounds(tax), &rest);
        let [problem] = &problems[..] else { panic!("{rest} {problems:?}") };
        assert_eq!((problem.code, marked(problem)), ("cost/too-large", place.as_str()), "{rest}");
    }
}

#[test]
fn rates_and_shares_of_24_digits_are_refused_or_out_of_reach() {
    for rate in [format!("{NINES} %"), "0.0000000000000000000001 %".to_owned()] {
        for prices in ["including", "excluding"] {
            for rounding in ["by-line", "by-invoice"] {
                let tax = format!(
                    "tax: {{name: VAT, rate: {rate}, prices: {prices}, rounding: {rounding}}}\n"
                );
                let (costs, problems) = costs_of(&pounds(&tax), "work: {price: £999999999.99}\n");
                let bill = costs.bill.unwrap();
                let told = codes(&problems) == ["cost/too-large"] && marked(&problems[0]) == rate;
                assert!(told || bill.taxes[0].amount <= bill.total, "{tax} {problems:?}");
            }
        }
    }
    let share = format!("work: {{price: £999999999.99, discount: {{share: {NINES} %}}}}\n");
    assert_eq!(codes(&costs_of(&pounds(""), &share).1), ["cost/too-large"]);
    let profile = format!("currency: GBP\nrates: {{hour: £{NINES}, uneconomic-from: {NINES} %}}\n");
    let rest = "options: [{kind: overhaul, price: £9.00}, {kind: exchange, price: £10.00}]\ndecision: {option: overhaul}\n";
    let (costs, problems) = costs_of(&profile, rest);
    assert!(problems.is_empty() && !costs.economy.unwrap().is_beyond());
    let (_, problems) = costs_of(&profile, "work: {labour: 1 min}\n");
    assert_eq!(
        (codes(&problems), marked(&problems[0])),
        (vec!["cost/too-large"], &format!("£{NINES}")[..])
    );
}

#[test]
fn many_large_lines_are_refused_at_their_block_and_the_largest_bill_is_exact() {
    let line = "{what: a, price: £999999999.99}";
    let (_, problems) = costs_of(&pounds(""), &format!("work: {{parts: [{line}, {line}]}}\n"));
    assert_eq!((codes(&problems), marked(&problems[0])), (vec!["cost/too-large"], "work"));
    let many = vec![line; 999].join(", ");
    let (_, problems) = costs_of(
        &pounds(""),
        &format!("options: [{{kind: overhaul, parts: [{many}]}}, {AS_IT_IS}]\n"),
    );
    assert_eq!((codes(&problems), marked(&problems[0])), (vec!["cost/too-large"], "options"));
    let bill = bill_of(
        &pounds(""),
        &format!("work: {{parts: [{line}]}}\ndecision: {{option: new-unit, deposit: £0.01}}\n"),
    );
    assert_eq!(bill.settlement.unwrap().balance, Balance::ToPay(dec("999999999.98")));
}

#[test]
fn nothing_is_billed_where_nothing_is_typed() {
    for rest in [
        "",
        "work: {note: cleaned}\n",
        "options: []\n",
        "decision: {option: overhaul, deposit: £50.00}\n",
    ] {
        let (costs, problems) = costs_of(&pounds(""), rest);
        assert!(costs.bill.is_none() && problems.is_empty(), "{rest}");
    }
    let free =
        bill_of(&pounds(""), "work: {parts: [{what: a, price: £0.00}], discount: {share: 10 %}}\n");
    assert_eq!((free.total, free.discount), (dec("0"), None));
}
