//! Discount, credit, deposit, balance.

use splitcase::assessment::cost::settlement::Balance;

use super::{bill_of, codes, costs_of, dec, marked, pounds};

fn work(discount: &str) -> String {
    let parts = "parts: [{what: a, price: £60.00}, {what: b, price: £40.00}]";
    format!("work:\n  {parts}\n  discount: {discount}\n")
}

fn taxed(prices: &str, rounding: &str) -> String {
    pounds(&format!("tax: {{name: VAT, rate: 20 %, prices: {prices}, rounding: {rounding}}}\n"))
}

#[test]
fn a_discount_comes_off_before_tax() {
    for rounding in ["by-line", "by-invoice"] {
        let bill =
            bill_of(&taxed("excluding", rounding), &work("{share: 10 %, reason: second visit}"));
        let off = bill.discount.clone().unwrap();
        assert_eq!((off.amount, off.share), (dec("10.00"), Some(dec("10"))));
        assert_eq!(off.reason.as_deref(), Some("second visit"));
        assert_eq!((bill.taxes[0].amount, bill.total), (dec("18.00"), dec("108.00")));
        let bill = bill_of(&taxed("including", rounding), &work("{amount: £10.00}"));
        assert_eq!((bill.taxes[0].amount, bill.total), (dec("15.00"), dec("90.00")));
    }
}

/// Three lines of 10.03 less a tenth of each: 1.8054 a line is 1.81, three of them 5.43; of the
/// whole, 27.08 after a discount of 3.01, it is 5.42 (computed).
#[test]
fn by_line_the_discount_lies_on_every_line() {
    let three = "work: {parts: [{what: a, price: £10.03}, {what: b, price: £10.03}, {what: c, price: £10.03}], discount: {share: 10 %}}\n";
    let bill = bill_of(&taxed("excluding", "by-line"), three);
    assert_eq!(bill.discount.as_ref().unwrap().amount, dec("3.01"));
    assert_eq!((bill.taxes[0].amount, bill.total), (dec("5.43"), dec("32.51")));
    let bill = bill_of(&taxed("excluding", "by-invoice"), three);
    assert_eq!((bill.taxes[0].amount, bill.total), (dec("5.42"), dec("32.50")));
}

#[test]
fn a_discount_of_the_whole_leaves_nothing_and_no_tax() {
    for rounding in ["by-line", "by-invoice"] {
        for prices in ["including", "excluding"] {
            let bill = bill_of(&taxed(prices, rounding), &work("{share: 100 %}"));
            assert_eq!((bill.total, bill.taxes[0].amount), (dec("0"), dec("0")));
        }
    }
}

#[test]
fn a_discount_is_refused_where_it_says_two_things_or_none_or_too_much() {
    let told = |discount: &str| {
        let (costs, problems) = costs_of(&pounds(""), &work(discount));
        assert_eq!(costs.bill.unwrap().total, dec("100.00"), "{discount}");
        let [problem] = &problems[..] else { panic!("{problems:?}") };
        (problem.code, marked(problem).to_owned())
    };
    let two = told("{amount: £10.00, share: 10 %}");
    assert_eq!(two, ("cost/discount-form", "10 %".to_owned()));
    assert_eq!(told("{reason: goodwill}"), ("cost/discount-form", "discount".to_owned()));
    assert_eq!(told("{amount: £100.01}"), ("cost/discount-too-large", "£100.01".to_owned()));
    assert_eq!(told("{share: 100.01 %}"), ("cost/discount-too-large", "100.01 %".to_owned()));
}

#[test]
fn a_discount_before_anything_is_listed_waits() {
    let (costs, problems) = costs_of(&pounds(""), "work: {discount: {amount: £10.00}}\n");
    assert_eq!((costs.bill, codes(&problems)), (None, Vec::new()));
}

fn exchanged(credit: &str, deposit: &str) -> String {
    format!(
        "strip-down: {{date: 2026-03-03, findings: []}}\n\
         options: [{{kind: exchange, price: £420.00}}]\n\
         decision: {{option: exchange{deposit}}}\nexchange: {{serial: KC4-1{credit}}}\noutcome: exchanged\n"
    )
}

/// Credit and deposit are payments: the tax is that of the full price (420 / 6).
#[test]
fn credit_and_deposit_come_off_the_total_and_leave_the_tax_alone() {
    let sheet = exchanged(", credit: £60.00", ", deposit: £50.00");
    let bill = bill_of(&taxed("including", "by-invoice"), &sheet);
    assert_eq!((bill.taxes[0].amount, bill.total), (dec("70.00"), dec("420.00")));
    let settled = bill.settlement.unwrap();
    assert_eq!((settled.credit, settled.deposit), (Some(dec("60")), Some(dec("50"))));
    assert_eq!(settled.balance, Balance::ToPay(dec("310.00")));
}

#[test]
fn what_was_paid_too_much_is_given_back_and_never_a_negative_price() {
    let balance = |credit: &str, deposit: &str| {
        let bill = bill_of(&pounds(""), &exchanged(credit, deposit));
        assert_eq!(bill.total, dec("420.00"));
        bill.settlement.map(|settled| settled.balance)
    };
    assert_eq!(balance("", ""), None);
    assert_eq!(balance("", ", deposit: £420.00"), Some(Balance::Settled));
    assert_eq!(balance("", ", deposit: £420.01"), Some(Balance::GiveBack(dec("0.01"))));
    let back = balance(", credit: £400.00", ", deposit: £50.00");
    assert_eq!(back, Some(Balance::GiveBack(dec("30.00"))));
}

#[test]
fn a_deposit_is_given_back_where_nothing_is_charged_in_the_end() {
    let rest = "options: [{kind: overhaul, price: £250.00}]\ndecision: {option: overhaul, deposit: £50.00}\n";
    let open = bill_of(&pounds(""), rest);
    assert_eq!(open.settlement.unwrap().balance, Balance::ToPay(dec("200.00")));
    let ended = format!(
        "{rest}strip-down: {{date: 2026-03-03, findings: []}}\noutcome: returned-unrepaired\n"
    );
    let bill = bill_of(&pounds(""), &ended);
    assert_eq!((bill.lines.len(), bill.total), (0, dec("0")));
    assert_eq!(bill.settlement.unwrap().balance, Balance::GiveBack(dec("50.00")));
}

#[test]
fn payments_in_another_currency_are_refused_at_their_place() {
    let (_, problems) = costs_of(&pounds(""), &exchanged(", credit: €60.00", ", deposit: $50.00"));
    assert_eq!(codes(&problems), ["cost/other-currency", "cost/other-currency"]);
    assert_eq!(problems.iter().map(marked).collect::<Vec<_>>(), ["$50.00", "€60.00"]);
}
